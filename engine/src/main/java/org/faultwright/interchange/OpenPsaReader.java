package org.faultwright.interchange;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.function.Function;
import org.faultwright.faulttree.EventName;
import org.faultwright.faulttree.FaultTree;
import org.faultwright.faulttree.Formula;
import org.faultwright.faulttree.TreeNode;
import org.faultwright.interchange.Declarations.Declared;
import org.faultwright.interchange.Declarations.Kind;
import org.faultwright.problem.Nearest;

/** Reads one model in the Open-PSA format. */
final class OpenPsaReader {

  private static final Map<String, Function<List<Formula>, Formula>> CONNECTIVES =
      Map.of(
          "and", Formula.And::new,
          "or", Formula.Or::new,
          "not", of -> new Formula.Not(of.get(0)),
          "xor", Formula.Xor::new,
          "iff", Formula.Iff::new,
          "nand", Formula.Nand::new,
          "nor", Formula.Nor::new,
          "imply", of -> new Formula.Imply(of.get(0), of.get(1)));

  /** Connectives with exactly so many arguments; the others have two or more. */
  private static final Map<String, Integer> ARITIES = Map.of("not", 1, "imply", 2);

  private static final Map<String, Optional<Kind>> REFERENCES =
      Map.of(
          "gate", Optional.of(Kind.GATE),
          "basic-event", Optional.of(Kind.BASIC_EVENT),
          "house-event", Optional.of(Kind.HOUSE_EVENT),
          "event", Optional.empty());

  private final ExchangeText source;
  private final Places places;
  private final Declarations declarations;
  private final Expressions expressions;

  OpenPsaReader(ExchangeText source, OptionalDouble missionTime) {
    this.source = source;
    this.places = new Places(source);
    this.declarations = new Declarations(places);
    this.expressions = new Expressions(declarations, places, missionTime);
  }

  Reading<FaultTree> read() {
    if (source.problem().isPresent()) {
      return new Reading.Unreadable<>(List.of(source.problem().get()), source.source());
    }
    Optional<FaultTree> tree = XmlElement.read(source, places).flatMap(this::tree);
    return tree.isPresent() && !places.failed()
        ? new Reading.Readable<>(tree.get(), places.problems(), source.source())
        : new Reading.Unreadable<>(places.problems(), source.source());
  }

  private Optional<FaultTree> tree(XmlElement root) {
    if (!root.name().equals("opsa-mef")) {
      places.error(
          ExchangeRule.NOT_OF_THE_FORMAT,
          root.at(),
          "a model in the Open-PSA format begins with <opsa-mef>, and this begins with <"
              + root.name()
              + ">",
          "check that it is the file you mean");
      return Optional.empty();
    }
    Optional<XmlElement> first = Optional.empty();
    for (XmlElement child : root.children()) {
      if (child.name().equals("define-fault-tree")) {
        first = first.or(() -> Optional.of(child));
        declarations.name(child).ifPresent(n -> declarations.addAll(child, List.of(n), false));
      } else if (child.name().equals("model-data")) {
        declarations.addAll(child, List.of(), false);
      } else if (!child.name().equals("label") && !child.name().equals("attributes")) {
        declarations.refuse(child);
      }
    }
    if (first.isEmpty()) {
      places.error(
          ExchangeRule.NOT_OF_THE_FORMAT,
          root.at(),
          "the model has no fault tree",
          "write one, as in <define-fault-tree name=\"no-charge\">");
      return Optional.empty();
    }
    Map<EventName, TreeNode> nodes = new LinkedHashMap<>();
    declarations
        .events()
        .forEach(
            (name, declared) -> node(declared).ifPresent(n -> nodes.put(new EventName(name), n)));
    if (places.failed() || hasCycle(nodes)) {
      return Optional.empty();
    }
    return Optional.of(
        new FaultTree(first.get().attributes().get("name"), label(first.get()), nodes));
  }

  private boolean hasCycle(Map<EventName, TreeNode> nodes) {
    Optional<List<EventName>> cycle = FaultTree.cycle(nodes);
    cycle.ifPresent(
        c -> {
          XmlElement at = declarations.events().get(c.get(0).value()).element();
          String chain =
              c.size() > 10 ? c.subList(0, 10) + " and " + (c.size() - 10) + " more" : "" + c;
          places.error(
              ExchangeRule.CYCLE,
              at.place("name"),
              "gate '" + c.get(0) + "' is made of itself: " + chain,
              "let one of them not refer to the next");
        });
    return cycle.isPresent();
  }

  private static String label(XmlElement element) {
    return element.children().stream()
        .filter(c -> c.name().equals("label"))
        .map(XmlElement::text)
        .findFirst()
        .orElse("");
  }

  private Optional<TreeNode> node(Declared declared) {
    XmlElement element = declared.element();
    List<XmlElement> value = Declarations.value(element);
    if (value.size() > 1 || declared.kind() == Kind.GATE && value.isEmpty()) {
      places.error(
          ExchangeRule.NOT_OF_THE_FORMAT,
          value.size() > 1 ? value.get(1).at() : element.at(),
          declared.kind().words()
              + " '"
              + element.attributes().get("name")
              + "' must have exactly one "
              + (declared.kind() == Kind.GATE ? "formula" : "value"),
          value.size() > 1 ? "join them by a connective" : "write its formula");
      return Optional.empty();
    }
    return switch (declared.kind()) {
      case GATE ->
          formula(value.get(0), declared.container())
              .map(f -> new TreeNode.Gate(label(element), f));
      case HOUSE_EVENT ->
          (value.isEmpty() ? Optional.of(false) : constant(value.get(0)))
              .map(v -> new TreeNode.House(label(element), v));
      default -> expressions.probability(declared).map(p -> new TreeNode.Basic(label(element), p));
    };
  }

  private Optional<Boolean> constant(XmlElement element) {
    Optional<String> value = element.attribute("value");
    if (!element.name().equals("constant")
        || value.filter(Set.of("true", "false")::contains).isEmpty()) {
      places.error(
          ExchangeRule.NOT_OF_THE_FORMAT,
          element.at(),
          "a house event must be a constant, true or false",
          "write <constant value=\"true\"/>");
      return Optional.empty();
    }
    return value.map("true"::equals);
  }

  private Optional<Formula> formula(XmlElement element, List<String> container) {
    String name = element.name();
    if (REFERENCES.containsKey(name)) {
      return reference(element, container);
    } else if (name.equals("constant")) {
      return constant(element).map(Formula.Constant::new);
    } else if (!CONNECTIVES.containsKey(name)
        && !name.equals("atleast")
        && !name.equals("cardinality")) {
      places.error(
          ExchangeRule.NOT_OF_THE_FORMAT,
          element.at(),
          "'" + name + "' is no connective",
          Nearest.of(name, connectives())
              .map(n -> "did you mean '" + n + "'?")
              .orElse("there are: " + String.join(", ", connectives())));
      return Optional.empty();
    }
    List<Formula> arguments = new ArrayList<>();
    for (XmlElement child : element.children()) {
      formula(child, container).ifPresent(arguments::add);
    }
    if (arguments.size() < element.children().size()) {
      return Optional.empty();
    }
    return joined(element, arguments);
  }

  private static List<String> connectives() {
    List<String> all = new ArrayList<>(CONNECTIVES.keySet());
    all.addAll(List.of("atleast", "cardinality"));
    return all.stream().sorted().toList();
  }

  private Optional<Formula> joined(XmlElement element, List<Formula> arguments) {
    String name = element.name();
    Integer wanted = ARITIES.get(name);
    boolean single = name.equals("and") || name.equals("or");
    int least = single || !CONNECTIVES.containsKey(name) ? 1 : 2;
    boolean fits = wanted == null ? arguments.size() >= least : arguments.size() == wanted;
    if (!fits) {
      places.error(
          ExchangeRule.NOT_OF_THE_FORMAT,
          element.at(),
          "'"
              + name
              + "' must have "
              + (wanted == null ? "at least " + least : "exactly " + wanted)
              + " arguments, and has "
              + arguments.size(),
          "look at what it is to join");
      return Optional.empty();
    }
    if (CONNECTIVES.containsKey(name)) {
      return Optional.of(CONNECTIVES.get(name).apply(arguments));
    }
    Optional<Integer> min = count(element, "min", 0, arguments.size());
    if (name.equals("atleast")) {
      return min.map(m -> new Formula.AtLeast(m, arguments));
    }
    Optional<Integer> max = count(element, "max", min.orElse(0), arguments.size());
    return min.isPresent() && max.isPresent()
        ? Optional.of(new Formula.Cardinality(min.get(), max.get(), arguments))
        : Optional.empty();
  }

  private Optional<Integer> count(XmlElement element, String attribute, int from, int to) {
    String text = element.attribute(attribute).orElse("");
    if (text.matches("[0-9]{1,9}")) {
      int value = Integer.parseInt(text);
      if (value >= from && value <= to) {
        return Optional.of(value);
      }
    }
    places.error(
        ExchangeRule.BAD_NUMBER,
        element.place(attribute),
        attribute
            + " of '"
            + element.name()
            + "' must be a whole number from "
            + from
            + " to "
            + to
            + (text.isEmpty() ? ", and is missing" : ": " + text),
        "it counts arguments, and there are " + to);
    return Optional.empty();
  }

  private Optional<Formula> reference(XmlElement element, List<String> container) {
    Optional<String> name = element.attribute("name");
    Optional<String> found =
        name.flatMap(n -> Declarations.find(declarations.events(), n, container));
    if (found.isEmpty()) {
      places.error(
          ExchangeRule.NOT_DEFINED,
          element.place("name"),
          element.name() + " '" + name.orElse("") + "' is not defined",
          Nearest.of(name.orElse(""), declarations.events().keySet())
              .map(n -> "did you mean '" + n + "'?")
              .orElse("define it, or check its name and its container"));
      return Optional.empty();
    }
    Kind kind = declarations.events().get(found.get()).kind();
    Optional<Kind> wanted = REFERENCES.get(element.name());
    if (wanted.isPresent() && wanted.get() != kind) {
      places.error(
          ExchangeRule.NOT_DEFINED,
          element.place("name"),
          "'"
              + name.get()
              + "' is a "
              + kind.words()
              + ", and is referred to as a "
              + element.name(),
          "write <" + kind.words() + " name=\"" + name.get() + "\"/>");
      return Optional.empty();
    }
    return Optional.of(new Formula.Of(new EventName(found.get())));
  }
}
