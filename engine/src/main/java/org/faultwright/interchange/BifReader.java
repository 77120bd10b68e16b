package org.faultwright.interchange;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.faultwright.interchange.BifTokens.Token;
import org.faultwright.problem.Nearest;
import org.faultwright.problem.Span;

/** Reads one network in BIF. */
final class BifReader {

  /** Most variables of a network. */
  static final int MOST_VARIABLES = 100_000;

  private static final Set<String> KEYWORDS =
      Set.of(
          "network", "variable", "probability", "property", "type", "discrete", "default", "table");

  /** The text is not understood from here on. */
  private static final class Lost extends RuntimeException {
    private static final long serialVersionUID = 1;

    Lost() {
      super(null, null, false, false);
    }
  }

  private final ExchangeText source;
  private final Places places;
  private final BifTokens tokens;
  private String name = "unnamed";
  private final Map<String, List<String>> variables = new LinkedHashMap<>();
  private final Map<String, BifTable> tables = new LinkedHashMap<>();

  BifReader(ExchangeText source) {
    this.source = source;
    this.places = new Places(source);
    this.tokens = new BifTokens(source, places);
  }

  static boolean isKeyword(String word) {
    return KEYWORDS.contains(word);
  }

  Reading<BayesNetwork> read() {
    if (source.problem().isPresent()) {
      return new Reading.Unreadable<>(List.of(source.problem().get()), source.source());
    }
    Optional<BayesNetwork> network = Optional.empty();
    try {
      while (tokens.peek().isPresent()) {
        block();
      }
      network = network();
    } catch (Lost e) {
      // the problem is told already
      network = Optional.empty();
    }
    return network.isPresent() && !places.failed()
        ? new Reading.Readable<>(network.get(), places.problems(), source.source())
        : new Reading.Unreadable<>(places.problems(), source.source());
  }

  private void block() {
    Token keyword = tokens.next().orElseThrow();
    if (keyword.is("network")) {
      Token of = tokens.peek().filter(t -> !t.is("{")).isPresent() ? word("a name") : keyword;
      name = of == keyword ? name : of.text();
      want("{");
      properties();
    } else if (keyword.is("variable")) {
      variable();
    } else if (keyword.is("probability")) {
      probability(keyword.at());
    } else {
      throw lost(
          keyword.at(),
          "'" + keyword.text() + "' begins no block",
          Nearest.of(keyword.text(), List.of("network", "variable", "probability"))
              .map(n -> "did you mean '" + n + "'?")
              .orElse("blocks are network, variable and probability"));
    }
  }

  /** Passes over properties up to the end of the block. */
  private void properties() {
    Token t = take("'}'");
    while (!t.is("}")) {
      if (!t.is("property")) {
        throw lost(t.at(), "'" + t.text() + "' is not expected here", "close the block with '}'");
      }
      property();
      t = take("'}'");
    }
  }

  private void property() {
    while (!take("';'").is(";")) {
      // what programs keep for themselves
    }
  }

  private void variable() {
    Token named = word("the name of a variable");
    if (variables.size() >= MOST_VARIABLES) {
      places.error(
          ExchangeRule.TOO_MANY_NODES,
          named.at(),
          "a network must not have more than " + MOST_VARIABLES + " variables",
          "split the network");
      throw new Lost();
    }
    want("{");
    List<String> states = List.of();
    Token t = take("'}'");
    while (!t.is("}")) {
      if (t.is("property")) {
        property();
      } else if (t.is("type")) {
        states = type(named);
      } else {
        throw lost(t.at(), "'" + t.text() + "' is not expected here", "write 'type discrete'");
      }
      t = take("'}'");
    }
    if (states.size() < 2) {
      if (!places.failed()) {
        places.error(
            ExchangeRule.NOT_BIF,
            named.at(),
            "variable '" + named.text() + "' must have at least two states",
            "write them, as in type discrete [ 2 ] { yes, no };");
      }
      throw new Lost();
    }
    if (variables.putIfAbsent(named.text(), states) != null) {
      places.error(
          ExchangeRule.DEFINED_TWICE,
          named.at(),
          "variable '" + named.text() + "' is defined twice",
          "take one of them out, or give it another name");
    }
  }

  private List<String> type(Token variable) {
    Token kind = take("'discrete'");
    if (!kind.is("discrete")) {
      places.error(
          ExchangeRule.NOT_TAKEN,
          kind.at(),
          "variable '"
              + variable.text()
              + "' is '"
              + kind.text()
              + "', and only discrete ones are"
              + " read",
          "cut its values into ranges, each a state");
      throw new Lost();
    }
    Token t = take("'{'");
    Optional<Token> count = Optional.empty();
    if (t.is("[")) {
      count = Optional.of(word("the number of states"));
      want("]");
      t = take("'{'");
    }
    if (!t.is("{")) {
      throw lost(t.at(), "'{' is expected here: " + t.text(), "list the states between { and }");
    }
    Set<String> states = new LinkedHashSet<>();
    for (t = take("'}'"); !t.is("}"); t = take("'}'")) {
      checkName(t);
      if (!states.add(t.text())) {
        places.error(
            ExchangeRule.DEFINED_TWICE,
            t.at(),
            "variable '" + variable.text() + "' has state '" + t.text() + "' twice",
            "take one of them out, or give it another name");
      }
    }
    want(";");
    if (count.filter(c -> !c.text().equals(String.valueOf(states.size()))).isPresent()) {
      places.error(
          ExchangeRule.TABLE_SIZE,
          count.get().at(),
          "variable '"
              + variable.text()
              + "' says that it has "
              + count.get().text()
              + " states, and lists "
              + states.size(),
          "make both the same");
    }
    return List.copyOf(states);
  }

  private void probability(Span at) {
    want("(");
    List<Token> names = new ArrayList<>();
    for (Token t = take("')'"); !t.is(")"); t = take("')'")) {
      checkName(t);
      names.add(t);
    }
    want("{");
    if (names.isEmpty()) {
      throw lost(at, "the table is for no variable", "name it, as in probability ( light-on )");
    }
    BifTable table = new BifTable(places, names);
    Token t = take("'}'");
    while (!t.is("}")) {
      if (t.is("property")) {
        property();
      } else if (t.is("table")) {
        table.whole(t, numbers());
      } else if (t.is("default")) {
        table.rest(t, numbers());
      } else if (t.is("(")) {
        List<Token> states = new ArrayList<>();
        for (Token s = take("')'"); !s.is(")"); s = take("')'")) {
          states.add(s);
        }
        table.row(t, states, numbers());
      } else {
        throw lost(
            t.at(),
            "'" + t.text() + "' is not expected here",
            "a table has 'table', 'default', or rows such as (yes, no) 0.1, 0.9;");
      }
      t = take("'}'");
    }
    if (tables.putIfAbsent(names.get(0).text(), table) != null) {
      places.error(
          ExchangeRule.DEFINED_TWICE,
          names.get(0).at(),
          "the table of '" + names.get(0).text() + "' is defined twice",
          "take one of them out");
    }
  }

  private double[] numbers() {
    double[] found = new double[8];
    int count = 0;
    for (Token t = take("';'"); !t.is(";"); t = take("';'")) {
      if (count == found.length) {
        found = java.util.Arrays.copyOf(found, count * 2);
      }
      found[count++] = number(t);
    }
    return java.util.Arrays.copyOf(found, count);
  }

  private double number(Token t) {
    double value = -1;
    if (t.text().matches("[-+]?[0-9.]{1,400}([eE][-+]?[0-9]{1,4})?")) {
      try {
        value = Double.parseDouble(t.text());
      } catch (NumberFormatException e) {
        value = -1; // such as 1.2.3
      }
    }
    if (!(value >= 0 && value <= 1 + Bif.ROW_TOLERANCE)) {
      places.error(
          ExchangeRule.BAD_NUMBER,
          t.at(),
          "a probability must be a number in [0, 1]: " + t.text(),
          "write it with a decimal point, and end each row with ';'");
      throw new Lost();
    }
    return value;
  }

  private Optional<BayesNetwork> network() {
    if (variables.isEmpty()) {
      throw lost(tokens.end(), "the network has no variables", "is this the file you mean?");
    }
    for (BifTable table : tables.values()) {
      table.checkNames(variables);
    }
    for (String v : variables.keySet()) {
      if (!tables.containsKey(v)) {
        places.error(
            ExchangeRule.NOT_DEFINED,
            tokens.end(),
            "variable '" + v + "' has no table",
            "write one, as in probability ( " + v + " ) { table 0.1, 0.9; }");
      }
    }
    if (places.failed()) {
      return Optional.empty();
    }
    checkCycles();
    Map<String, Integer> numbers = new LinkedHashMap<>();
    variables.keySet().forEach(v -> numbers.put(v, numbers.size()));
    List<BayesNetwork.Variable> all = new ArrayList<>();
    double entries = 0;
    for (String v : variables.keySet()) {
      entries += tables.get(v).size(variables);
      if (entries > BifTable.MOST_ENTRIES) {
        places.error(
            ExchangeRule.TOO_MANY_NODES,
            tables.get(v).child().at(),
            "the tables must not have more than " + BifTable.MOST_ENTRIES + " numbers together",
            "let this variable have fewer parents");
        return Optional.empty();
      }
      tables.get(v).variable(variables, numbers).ifPresent(all::add);
    }
    return places.failed() ? Optional.empty() : Optional.of(new BayesNetwork(name, all));
  }

  /** Takes out variables without open parents until none is left. */
  private void checkCycles() {
    Map<String, Integer> open = new LinkedHashMap<>();
    Map<String, List<String>> children = new LinkedHashMap<>();
    List<String> ready = new ArrayList<>();
    for (String v : variables.keySet()) {
      List<Token> parents = tables.get(v).parents();
      open.put(v, parents.size());
      parents.forEach(p -> children.computeIfAbsent(p.text(), k -> new ArrayList<>()).add(v));
      if (parents.isEmpty()) {
        ready.add(v);
      }
    }
    for (int i = 0; i < ready.size(); i++) {
      open.remove(ready.get(i));
      for (String child : children.getOrDefault(ready.get(i), List.of())) {
        if (open.merge(child, -1, Integer::sum) == 0) {
          ready.add(child);
        }
      }
    }
    if (!open.isEmpty()) {
      String first = open.keySet().iterator().next();
      places.error(
          ExchangeRule.CYCLE,
          tables.get(first).child().at(),
          "variable '" + first + "' is its own ancestor, or comes after one that is",
          "turn one of the arrows around");
      throw new Lost();
    }
  }

  private Token word(String what) {
    Token t = take(what);
    checkName(t);
    return t;
  }

  private void checkName(Token t) {
    boolean sign = !t.quoted() && t.text().matches("[{}()\\[\\];]");
    if (sign || !BayesNetwork.isName(t.text())) {
      throw lost(t.at(), "a name is expected here: " + t.text(), "put strange names in quotes");
    }
  }

  private void want(String sign) {
    Token t = take("'" + sign + "'");
    if (!t.is(sign)) {
      throw lost(
          t.at(), "'" + sign + "' is expected here: " + t.text(), "is a sign missing before it?");
    }
  }

  private Token take(String what) {
    return tokens
        .next()
        .orElseThrow(
            () ->
                lost(
                    tokens.end(),
                    "the file ends where " + what + " is expected",
                    "was it cut off?"));
  }

  private Lost lost(Span at, String message, String wayOut) {
    places.error(ExchangeRule.NOT_BIF, at, message, wayOut);
    return new Lost();
  }
}
