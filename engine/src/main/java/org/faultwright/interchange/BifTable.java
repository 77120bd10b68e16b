package org.faultwright.interchange;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.faultwright.interchange.BifTokens.Token;
import org.faultwright.problem.Nearest;

/** One table of a text in BIF, as it is written. */
final class BifTable {

  /** Most numbers of all tables of a network together. */
  static final int MOST_ENTRIES = 8_000_000;

  private static final double ROUNDING = 1e-12;

  private record Row(Token at, List<Token> states, double[] numbers) {}

  private final Places places;
  private final Token child;
  private final List<Token> parents;
  private final List<Row> rows = new ArrayList<>();
  private Optional<Row> whole = Optional.empty();
  private Optional<Row> rest = Optional.empty();

  BifTable(Places places, List<Token> names) {
    this.places = places;
    this.child = names.get(0);
    this.parents = List.copyOf(names.subList(1, names.size()));
  }

  Token child() {
    return child;
  }

  List<Token> parents() {
    return parents;
  }

  void whole(Token at, double[] numbers) {
    whole = Optional.of(new Row(at, List.of(), numbers));
  }

  void rest(Token at, double[] numbers) {
    rest = Optional.of(new Row(at, List.of(), numbers));
  }

  void row(Token at, List<Token> states, double[] numbers) {
    rows.add(new Row(at, List.copyOf(states), numbers));
  }

  /** Whether all variables exist, each once. */
  void checkNames(Map<String, List<String>> variables) {
    List<Token> all = new ArrayList<>(parents);
    all.add(child);
    for (Token t : all) {
      if (!variables.containsKey(t.text())) {
        places.error(
            ExchangeRule.NOT_DEFINED,
            t.at(),
            "variable '" + t.text() + "' is not defined",
            Nearest.of(t.text(), variables.keySet())
                .map(n -> "did you mean '" + n + "'?")
                .orElse("define it in a block 'variable'"));
      }
    }
    for (int i = 0; i < parents.size(); i++) {
      String p = parents.get(i).text();
      if (p.equals(child.text())
          || parents.subList(0, i).stream().anyMatch(before -> before.text().equals(p))) {
        places.error(
            ExchangeRule.DEFINED_TWICE,
            parents.get(i).at(),
            "variable '" + p + "' stands twice in one table",
            "name it once");
      }
    }
  }

  /** How many numbers the table has, in full. */
  double size(Map<String, List<String>> variables) {
    double size = variables.get(child.text()).size();
    for (Token p : parents) {
      size *= variables.get(p.text()).size();
    }
    return size;
  }

  /** The variable, where its table is complete. */
  Optional<BayesNetwork.Variable> variable(
      Map<String, List<String>> variables, Map<String, Integer> numbers) {
    List<String> states = variables.get(child.text());
    int n = (int) size(variables) / states.size();
    double[][] table = new double[n][];
    if (whole.isPresent() && !fill(whole.get(), table, states.size())) {
      return Optional.empty();
    }
    for (Row row : rows) {
      int at = place(row, variables);
      if (at < 0 || !fits(row, states.size())) {
        return Optional.empty();
      }
      table[at] = row.numbers;
    }
    if (rest.isPresent() && !fits(rest.get(), states.size())) {
      return Optional.empty();
    }
    List<List<Double>> complete = new ArrayList<>();
    for (int r = 0; r < n; r++) {
      double[] row = table[r] != null ? table[r] : rest.map(Row::numbers).orElse(null);
      if (row == null) {
        missing(r, variables);
        return Optional.empty();
      }
      Optional<List<Double>> normal = normal(row, r, variables);
      if (normal.isEmpty()) {
        return Optional.empty();
      }
      complete.add(normal.get());
    }
    return Optional.of(
        new BayesNetwork.Variable(
            child.text(),
            states,
            parents.stream().map(p -> numbers.get(p.text())).toList(),
            complete));
  }

  /** A table in full: the state of the child runs slowest, that of the last parent fastest. */
  private boolean fill(Row all, double[][] table, int states) {
    if (all.numbers.length != table.length * states) {
      places.error(
          ExchangeRule.TABLE_SIZE,
          all.at.at(),
          "the table of '"
              + child.text()
              + "' must have "
              + (long) table.length * states
              + " numbers, and has "
              + all.numbers.length,
          "one for each combination of states");
      return false;
    }
    for (int r = 0; r < table.length; r++) {
      table[r] = new double[states];
      for (int s = 0; s < states; s++) {
        table[r][s] = all.numbers[s * table.length + r];
      }
    }
    return true;
  }

  private boolean fits(Row row, int states) {
    if (row.numbers.length == states) {
      return true;
    }
    places.error(
        ExchangeRule.TABLE_SIZE,
        row.at.at(),
        "a row of '"
            + child.text()
            + "' must have "
            + states
            + " numbers, and this has "
            + row.numbers.length,
        "one for each state; end each row with ';'");
    return false;
  }

  /** Number of the row for some states of the parents; -1 where there is none. */
  private int place(Row row, Map<String, List<String>> variables) {
    if (row.states.size() != parents.size()) {
      places.error(
          ExchangeRule.TABLE_SIZE,
          row.at.at(),
          "a row of '"
              + child.text()
              + "' must name "
              + parents.size()
              + " states, and this names "
              + row.states.size(),
          "one for each parent, in their order");
      return -1;
    }
    int at = 0;
    for (int i = 0; i < parents.size(); i++) {
      List<String> of = variables.get(parents.get(i).text());
      int state = of.indexOf(row.states.get(i).text());
      if (state < 0) {
        places.error(
            ExchangeRule.NOT_DEFINED,
            row.states.get(i).at(),
            "variable '"
                + parents.get(i).text()
                + "' has no state '"
                + row.states.get(i).text()
                + "'",
            Nearest.of(row.states.get(i).text(), of)
                .map(n -> "did you mean '" + n + "'?")
                .orElse("its states are: " + String.join(", ", of)));
        return -1;
      }
      at = at * of.size() + state;
    }
    return at;
  }

  private void missing(int row, Map<String, List<String>> variables) {
    places.error(
        ExchangeRule.TABLE_SIZE,
        child.at(),
        "the table of '" + child.text() + "' has no row for " + words(row, variables),
        "add it, or a default row");
  }

  private String words(int row, Map<String, List<String>> variables) {
    String[] words = new String[parents.size()];
    int left = row;
    for (int i = words.length - 1; i >= 0; i--) {
      List<String> of = variables.get(parents.get(i).text());
      words[i] = parents.get(i).text() + " = " + of.get(left % of.size());
      left /= of.size();
    }
    return String.join(", ", words);
  }

  private Optional<List<Double>> normal(
      double[] row, int number, Map<String, List<String>> variables) {
    double sum = Arrays.stream(row).sum();
    double off = Math.abs(sum - 1);
    String which =
        parents.isEmpty()
            ? "the table of '" + child.text() + "'"
            : "the row of '" + child.text() + "' for " + words(number, variables);
    if (off > Bif.ROW_TOLERANCE) {
      places.error(
          ExchangeRule.ROW_SUM,
          child.at(),
          which + " sums to " + shown(sum),
          whole.isPresent() && !parents.isEmpty()
              ? "in a table in full, the state of '" + child.text() + "' runs slowest"
              : "let its numbers sum to 1");
      return Optional.empty();
    } else if (off > Bif.SILENT) {
      places.warning(
          ExchangeRule.ROW_SUM,
          child.at(),
          which + " sums to " + shown(sum) + "; its numbers are divided by that",
          "write more digits");
    }
    // to divide by what is 1 but for the last digit would only change that digit
    double divisor = off <= ROUNDING ? 1 : sum;
    return Optional.of(Arrays.stream(row).map(p -> p / divisor).boxed().toList());
  }

  private static String shown(double sum) {
    return new java.math.BigDecimal(sum)
        .round(new java.math.MathContext(9))
        .stripTrailingZeros()
        .toPlainString();
  }
}
