package org.faultwright.pack.reader;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.Set;
import org.faultwright.measurement.Dimension;
import org.faultwright.measurement.Quantity;
import org.faultwright.measurement.ReadingModel;
import org.faultwright.measurement.Reference;
import org.faultwright.pack.Basis;
import org.faultwright.pack.BoardId;
import org.faultwright.pack.Chance;
import org.faultwright.pack.NodeId;
import org.faultwright.pack.Point;
import org.faultwright.pack.PointId;
import org.faultwright.pack.StateId;
import org.faultwright.pack.format.BasisForm;
import org.faultwright.pack.format.Block;
import org.faultwright.pack.format.Fields;
import org.faultwright.pack.format.Form;
import org.faultwright.pack.format.FormatRule;
import org.faultwright.pack.format.Forms;
import org.faultwright.pack.format.Ids;
import org.faultwright.pack.format.Key;
import org.faultwright.pack.format.Kind;
import org.faultwright.pack.format.Numbers;
import org.faultwright.pack.format.Quantities;
import org.faultwright.pack.format.Scope;
import org.faultwright.pack.format.Shape;
import org.faultwright.pack.yaml.YamlNode;
import org.faultwright.pack.yaml.YamlNode.Entry;
import org.faultwright.pack.yaml.YamlNode.YamlMap;
import org.faultwright.pack.yaml.YamlNode.YamlScalar;

/** The points of a step where readings are taken. */
final class Points {

  private static final Key<String> TITLE = Key.optional("title", Forms.TEXT, "what it is");
  private static final Key<String> PIN =
      Key.optional("pin", Forms.TEXT, "the pin, as the socket is seen");
  private static final Key<References.Written> REFERENCE =
      Key.required("reference", References.FORM, "the known-good value, OL, or limits");
  private static final Key<Set<BoardId>> BOARDS =
      Key.optional(
          "boards", Forms.set(Ids.ref(Kind.BOARD, BoardId::new)), "the boards that have the point");

  private static final Map<String, Key<Map<NodeId, Chance>>> COMMON = common();

  private static Map<String, Key<Map<NodeId, Chance>>> common() {
    Map<String, Key<Map<NodeId, Chance>>> keys = new LinkedHashMap<>();
    for (String state : List.of("open", "short", "low", "high")) {
      keys.put(state, Key.optional(state, Inputs.FORM, "what makes it read " + state));
    }
    return keys;
  }

  private static final Key<Map<NodeId, Chance>> ANY =
      Key.required("any", Inputs.FORM, "what brings the state about");
  private static final Key<References.Written> LIES =
      Key.optional(
          "lies",
          References.FORM,
          "where readings lie in this state; left out where it is seen without a number");
  private static final Key<Quantity> SOURCE_RESISTANCE =
      Key.optional(
          "source-resistance", kind(Dimension.RESISTANCE), "the resistance of what is measured");
  private static final Key<Quantity> TEMPERATURE =
      Key.optional("temperature", kind(Dimension.TEMPERATURE), "how warm it was");
  private static final Key<Quantity> TEST_CURRENT =
      Key.optional("test-current", kind(Dimension.CURRENT), "the meter's test current");
  private static final Key<Integer> KNOWN_GOOD =
      Key.optional("known-good", Numbers.COUNT, "from how many known-good boards it comes");
  private static final Key<Fields> TAKEN_AT =
      Key.optional(
          "taken-at",
          Block.of("taken-at", TEMPERATURE, TEST_CURRENT, KNOWN_GOOD)
              .atLeastOneOf(TEMPERATURE, TEST_CURRENT, KNOWN_GOOD),
          "under what conditions the reference was taken");

  private static Form<Quantity> kind(Dimension kind) {
    return Forms.scalar(
        "a " + kind.word() + " such as " + kind.example(),
        new Shape.Text(),
        (s, scope) -> Quantities.of(s, kind, scope));
  }

  private static final Block OWN_STATE =
      Block.of("point-state", ANY, LIES, References.TOLERANCE).withBasis();

  private static final Key<Map<YamlScalar, Fields>> STATES =
      Key.optional(
          "states",
          Ids.map(
              (s, scope) -> Ids.wellSpelt(s, scope) ? Optional.of(s) : Optional.empty(), OWN_STATE),
          "states of the pack's own, in order of dominance");

  static final Block BLOCK =
      Block.of(
              "point",
              TITLE,
              PIN,
              REFERENCE,
              References.TOLERANCE,
              COMMON.get("open"),
              COMMON.get("short"),
              COMMON.get("low"),
              COMMON.get("high"),
              STATES,
              SOURCE_RESISTANCE,
              TAKEN_AT,
              BOARDS)
          .withBasis();

  /**
   * The points of a step. Over-range is of the kind of quantity that its own states have, or else
   * the other points.
   */
  static final Form<List<Point>> FORM =
      new Form<>() {
        @Override
        public Optional<List<Point>> read(YamlNode node, Scope scope) {
          Optional<Dimension> others =
              node instanceof YamlMap map
                  ? References.firstKind(
                      map.entries().stream()
                          .map(Entry::value)
                          .filter(YamlMap.class::isInstance)
                          .flatMap(p -> ((YamlMap) p).value("reference").stream())
                          .toList())
                  : Optional.empty();
          return Section.of(Kind.POINT, BLOCK, (String id, Fields f) -> point(id, f, others))
              .read(node, scope);
        }

        @Override
        public Shape shape() {
          return new Shape.MapOf(BLOCK.shape(), 1);
        }
      };

  private Points() {}

  private static Optional<Point> point(String id, Fields f, Optional<Dimension> others) {
    Basis basis = BasisForm.needed(f.scope().at(REFERENCE.name()), f.at(REFERENCE));
    Optional<Reference> reference =
        References.of(f.need(REFERENCE), REFERENCE, kind(f.map()).or(() -> others), f);
    Optional<List<Point.ReadingState>> states = states(f, reference.map(Reference::dimension));
    if (reference.isEmpty()
        || states.isEmpty()
        || f.spoilt(SOURCE_RESISTANCE)
        || f.spoilt(TAKEN_AT)) {
      return Optional.empty();
    }
    return Optional.of(
        new Point(
            new PointId(id),
            f.get(TITLE).orElse(Section.words(id)),
            f.get(PIN),
            reference.get(),
            basis,
            states.get(),
            f.get(BOARDS).orElse(Set.of()),
            conditions(f)));
  }

  private static Point.Conditions conditions(Fields f) {
    Optional<Fields> at = f.get(TAKEN_AT);
    return new Point.Conditions(
        si(f.get(SOURCE_RESISTANCE)),
        si(at.flatMap(a -> a.get(TEMPERATURE))),
        si(at.flatMap(a -> a.get(TEST_CURRENT)).filter(q -> q.si() > 0)),
        at.flatMap(a -> a.get(KNOWN_GOOD)).map(OptionalInt::of).orElse(OptionalInt.empty()));
  }

  private static OptionalDouble si(Optional<Quantity> q) {
    return q.map(x -> OptionalDouble.of(x.si())).orElse(OptionalDouble.empty());
  }

  /** The kind of quantity that a point's own text says: of its reference, or else of its states. */
  private static Optional<Dimension> kind(YamlMap point) {
    List<YamlNode> lies =
        point.map(STATES.name()).stream()
            .flatMap(states -> states.entries().stream())
            .map(Entry::value)
            .filter(YamlMap.class::isInstance)
            .flatMap(state -> ((YamlMap) state).value(LIES.name()).stream())
            .toList();
    return point
        .value(REFERENCE.name())
        .flatMap(References::kind)
        .or(() -> References.firstKind(lies));
  }

  /** The states in the order of writing, which is the order of dominance. */
  private static Optional<List<Point.ReadingState>> states(Fields f, Optional<Dimension> kind) {
    List<Point.ReadingState> states = new ArrayList<>();
    Set<String> names = new LinkedHashSet<>();
    boolean good = true;
    for (Entry e : f.map().entries()) {
      if (COMMON.containsKey(e.name())) {
        Optional<Map<NodeId, Chance>> triggers = f.get(COMMON.get(e.name()));
        good &= triggers.isPresent() && StateTables.newState(e.key(), names, f.scope());
        triggers.ifPresent(
            t -> states.add(new Point.ReadingState(new StateId(e.name()), t, Optional.empty())));
      } else if (e.name().equals(STATES.name())) {
        good &= f.get(STATES).isPresent();
        for (Map.Entry<YamlScalar, Fields> own : f.get(STATES).orElse(Map.of()).entrySet()) {
          good &= StateTables.newState(own.getKey(), names, f.scope());
          Optional<Point.ReadingState> state = own(own.getKey(), own.getValue(), kind);
          good &= state.isPresent();
          state.ifPresent(states::add);
        }
      }
    }
    return good ? Optional.of(states) : Optional.empty();
  }

  private static Optional<Point.ReadingState> own(
      YamlScalar id, Fields f, Optional<Dimension> kind) {
    if (!f.complete()) {
      return Optional.empty();
    }
    if (f.spoilt(LIES)) {
      return Optional.empty();
    }
    if (!f.wrote(LIES)) {
      if (f.wrote(References.TOLERANCE) || ReadingModel.COMMON_STATES.contains(id.text())) {
        f.scope()
            .error(
                FormatRule.MISSING_BESIDE,
                id.at(),
                "'lies' is missing in state " + id.word() + " of " + f.scope().owner(),
                "add 'lies:', " + LIES.doc());
        return Optional.empty();
      }
      return Optional.of(
          new Point.ReadingState(new StateId(id.text()), f.need(ANY), Optional.empty()));
    }
    return References.of(f.need(LIES), LIES, kind, f)
        .map(
            lies -> new Point.ReadingState(new StateId(id.text()), f.need(ANY), Optional.of(lies)));
  }
}
