package org.faultwright.pack.reader;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.Chance;
import org.faultwright.pack.Observation;
import org.faultwright.pack.OutcomeId;
import org.faultwright.pack.StateId;
import org.faultwright.pack.format.Chances;
import org.faultwright.pack.format.Form;
import org.faultwright.pack.format.FormatRule;
import org.faultwright.pack.format.Forms;
import org.faultwright.pack.format.Ids;
import org.faultwright.pack.format.Kind;
import org.faultwright.pack.format.Scope;
import org.faultwright.pack.format.Shape;
import org.faultwright.pack.yaml.YamlNode;

/**
 * A step that finds a place: one state for each listed cause, in order of listing; the outcome is
 * the place with its probability where it is the true state, or else {@code nothing}.
 */
final class Locating {

  private static final Form<Map<CauseId, Chance>> PLACES =
      Forms.some(Ids.map(Kind.CAUSE, CauseId::new, Chances.chance()));

  static final Form<Observation> FORM =
      new Form<>() {
        @Override
        public Optional<Observation> read(YamlNode node, Scope scope) {
          return PLACES.read(node, scope).flatMap(places -> observation(node, places, scope));
        }

        @Override
        public Shape shape() {
          return PLACES.shape();
        }
      };

  private Locating() {}

  private static Optional<Observation> observation(
      YamlNode node, Map<CauseId, Chance> places, Scope scope) {
    OutcomeId nothing = new OutcomeId(Results.NOTHING);
    List<Observation.TrueState> states = new ArrayList<>();
    List<OutcomeId> outcomes = new ArrayList<>();
    Map<StateId, Map<OutcomeId, Chance>> rows = new LinkedHashMap<>();
    for (Map.Entry<CauseId, Chance> place : places.entrySet()) {
      String id = place.getKey().value();
      if (id.equals(Results.NOTHING) || id.equals(StateId.NORMAL.value())) {
        scope.error(
            FormatRule.RESERVED_ID,
            node.at(),
            "a cause that is called '" + id + "' cannot be located: the word has a meaning here",
            "call the cause something else");
        return Optional.empty();
      }
      Chance found = place.getValue();
      states.add(
          new Observation.TrueState(
              new StateId(id), Map.of(place.getKey(), Chance.byDefinition(1))));
      outcomes.add(new OutcomeId(id));
      Map<OutcomeId, Chance> row = new LinkedHashMap<>();
      row.put(new OutcomeId(id), found);
      row.put(nothing, new Chance(1 - found.p(), found.basis(), found.why()));
      rows.put(new StateId(id), row);
    }
    outcomes.add(nothing);
    rows.put(StateId.NORMAL, Map.of(nothing, Chance.byDefinition(1)));
    return Optional.of(new Observation.OfStates(states, outcomes, full(rows, outcomes)));
  }

  /** The rows with a cell for each outcome. */
  private static Map<StateId, Map<OutcomeId, Chance>> full(
      Map<StateId, Map<OutcomeId, Chance>> rows, List<OutcomeId> outcomes) {
    Map<StateId, Map<OutcomeId, Chance>> full = new LinkedHashMap<>();
    rows.forEach(
        (state, row) -> {
          Map<OutcomeId, Chance> cells = new LinkedHashMap<>();
          outcomes.forEach(o -> cells.put(o, row.getOrDefault(o, Chance.byDefinition(0))));
          full.put(state, cells);
        });
    return full;
  }
}
