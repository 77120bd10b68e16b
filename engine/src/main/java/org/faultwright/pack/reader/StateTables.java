package org.faultwright.pack.reader;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.faultwright.pack.Chance;
import org.faultwright.pack.NodeId;
import org.faultwright.pack.Observation;
import org.faultwright.pack.OutcomeId;
import org.faultwright.pack.StateId;
import org.faultwright.pack.format.Block;
import org.faultwright.pack.format.Fields;
import org.faultwright.pack.format.Form;
import org.faultwright.pack.format.FormatRule;
import org.faultwright.pack.format.Forms;
import org.faultwright.pack.format.Ids;
import org.faultwright.pack.format.Key;
import org.faultwright.pack.format.Scope;
import org.faultwright.pack.format.Shape;
import org.faultwright.pack.yaml.YamlNode.YamlScalar;
import org.faultwright.problem.Nearest;
import org.faultwright.problem.Span;

/** Observations with several outcomes: by states in order of dominance, or by a full table. */
final class StateTables {

  /** Most nodes that a full table may look at: twice as many rows for each. */
  static final int MOST_GIVEN = 10;

  private record Named(YamlScalar id, Map<NodeId, Chance> triggers) {}

  private record TableRow(List<Boolean> when, Rows.Row gives, Span at) {}

  private static final Key<YamlScalar> STATE =
      Key.required(
          "state",
          Forms.scalar(
              "an id",
              new Shape.Pattern(Ids.SPELLING, false),
              (s, scope) -> Ids.wellSpelt(s, scope) ? Optional.of(s) : Optional.empty()),
          "the name of the state");
  private static final Key<Map<NodeId, Chance>> STATE_ANY =
      Key.required("any", Inputs.FORM, "what brings the state about");
  private static final Form<Named> STATE_FORM =
      Forms.built(
          Block.of("state", STATE, STATE_ANY).withBasis(),
          f ->
              f.complete()
                  ? Optional.of(new Named(f.need(STATE), f.need(STATE_ANY)))
                  : Optional.empty());

  private static final Key<List<Named>> STATES =
      Key.required(
          "states", Forms.some(Forms.list(STATE_FORM)), "states off normal, in order of dominance");

  /** The outcomes. */
  static final Key<Set<OutcomeId>> OUTCOMES =
      Key.required(
          "outcomes", Forms.some(Forms.set(Ids.spelt(OutcomeId::new))), "the outcomes, by name");

  private static final Key<Map<YamlScalar, Rows.Row>> ROWS =
      Key.required(
          "rows",
          Ids.map((s, scope) -> Optional.of(s), Rows.FORM),
          "for each state, normal too, the probability of each outcome");

  private static final Key<Set<NodeId>> GIVEN =
      Key.required(
          "given", Forms.some(Forms.set(Ids.NODE)), "causes and events that the table looks at");
  private static final Key<List<Boolean>> WHEN =
      Key.required("when", Forms.list(Forms.YES_NO), "yes or no for each of those given");
  private static final Key<Rows.Row> GIVES =
      Key.required("gives", Rows.FORM, "the probability of each outcome");
  private static final Key<List<TableRow>> TABLE =
      Key.required(
          "table",
          Forms.list(
              Forms.built(
                  Block.of("table-row", WHEN, GIVES).withBasis(),
                  f ->
                      f.complete()
                          ? Optional.of(new TableRow(f.need(WHEN), f.need(GIVES), f.keyAt(WHEN)))
                          : Optional.empty())),
          "one row for each combination");

  static final Block STATES_BLOCK = Block.of("shows-states", STATES, OUTCOMES, ROWS).withBasis();

  static final Block TABLE_BLOCK = Block.of("shows-table", GIVEN, OUTCOMES, TABLE).withBasis();

  private StateTables() {}

  static Optional<Observation> states(Fields f) {
    if (!f.complete()) {
      return Optional.empty();
    }
    Set<String> names = new LinkedHashSet<>();
    List<Observation.TrueState> states = new ArrayList<>();
    boolean good = true;
    for (Named s : f.need(STATES)) {
      good &= newState(s.id(), names, f.scope());
      states.add(new Observation.TrueState(new StateId(s.id().text()), s.triggers()));
    }
    names.add(StateId.NORMAL.value());
    List<OutcomeId> outcomes = List.copyOf(f.need(OUTCOMES));
    Map<StateId, Map<OutcomeId, Chance>> rows = new LinkedHashMap<>();
    boolean slip = false;
    for (Map.Entry<YamlScalar, Rows.Row> row : f.need(ROWS).entrySet()) {
      YamlScalar name = row.getKey();
      if (!names.contains(name.text())) {
        f.scope()
            .error(
                FormatRule.UNKNOWN_STATE,
                name.at(),
                f.scope().owner() + " has no state " + name.word(),
                Nearest.of(name.text(), names)
                    .map(n -> "did you mean '" + n + "'?")
                    .orElse("its states are: " + String.join(", ", names)));
        slip = true;
        continue;
      }
      Optional<Map<OutcomeId, Chance>> cells =
          Rows.over(outcomes, row.getValue(), "row '" + name.text() + "'", name.at(), f.scope());
      good &= cells.isPresent();
      rows.put(new StateId(name.text()), cells.orElse(Map.of()));
    }
    names.removeIf(n -> rows.containsKey(new StateId(n)));
    if (!names.isEmpty() && !slip) {
      f.scope()
          .error(
              FormatRule.ROWS_INCOMPLETE,
              f.keyAt(ROWS),
              f.scope().owner() + " has no row for state '" + names.iterator().next() + "'",
              "each state needs a row, 'normal' too");
    }
    return good && !slip && names.isEmpty()
        ? Optional.of(new Observation.OfStates(states, outcomes, rows))
        : Optional.empty();
  }

  /** Adds the name of a state; it must be new, and not {@code normal}. */
  static boolean newState(YamlScalar id, Set<String> names, Scope scope) {
    if (id.text().equals(StateId.NORMAL.value())) {
      scope.error(
          FormatRule.RESERVED_ID,
          id.at(),
          "'normal' is the state in which no other state is, and needs no definition",
          "remove it, or call the state something else");
      return false;
    } else if (!names.add(id.text())) {
      scope.error(
          FormatRule.DEFINED_TWICE,
          id.at(),
          "state '" + id.text() + "' of " + scope.owner() + " is defined twice",
          "keep one of the two");
      return false;
    }
    return true;
  }

  static Optional<Observation> table(Fields f) {
    if (!f.complete()) {
      return Optional.empty();
    }
    List<NodeId> given = List.copyOf(f.need(GIVEN));
    List<OutcomeId> outcomes = List.copyOf(f.need(OUTCOMES));
    if (given.size() > MOST_GIVEN) {
      f.scope()
          .error(
              FormatRule.ROWS_INCOMPLETE,
              f.keyAt(GIVEN),
              "a full table looks at " + MOST_GIVEN + " causes or events at most: " + given.size(),
              "use 'any' or 'states'");
      return Optional.empty();
    }
    Map<List<Boolean>, List<Chance>> rows = new LinkedHashMap<>();
    boolean good = true;
    for (TableRow row : f.need(TABLE)) {
      if (row.when().size() != given.size() || rows.containsKey(row.when())) {
        f.scope()
            .error(
                FormatRule.ROWS_INCOMPLETE,
                row.at(),
                row.when().size() != given.size()
                    ? "this row says yes or no "
                        + row.when().size()
                        + " times, and "
                        + f.scope().owner()
                        + " looks at "
                        + given.size()
                    : "this combination has a row already",
                "each combination needs one row");
        good = false;
        continue;
      }
      Optional<Map<OutcomeId, Chance>> cells =
          Rows.over(outcomes, row.gives(), "this row", row.at(), f.scope());
      good &= cells.isPresent();
      rows.put(row.when(), List.copyOf(cells.orElse(Map.of()).values()));
    }
    if (good && rows.size() != 1 << given.size()) {
      f.scope()
          .error(
              FormatRule.ROWS_INCOMPLETE,
              f.keyAt(TABLE),
              "a full table of "
                  + given.size()
                  + " needs "
                  + (1 << given.size())
                  + " rows, one for each combination: "
                  + rows.size(),
              "add those that are missing, or use \'any\' or \'states\'");
      good = false;
    }
    return good ? Optional.of(new Observation.OfTable(given, outcomes, rows)) : Optional.empty();
  }
}
