package org.faultwright.pack.reader;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.Chance;
import org.faultwright.pack.Id;
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
import org.faultwright.pack.format.Stated;
import org.faultwright.pack.yaml.YamlNode;
import org.faultwright.pack.yaml.YamlNode.Entry;
import org.faultwright.pack.yaml.YamlNode.YamlMap;

/**
 * A step that finds a place: one state for each listed cause, in order of listing. In its state a
 * cause is found at its places with their probabilities, or else nowhere; a cause with one
 * probability is found at the place of its own name.
 */
final class Locating {

  private static final Form<Stated> AT_ITS_OWN = Chances.stated();

  private static final Form<Map<OutcomeId, Stated>> AT_PLACES =
      Forms.some(
          Ids.map(
              (s, scope) ->
                  Ids.wellSpelt(s, scope) ? Optional.of(new OutcomeId(s.text())) : Optional.empty(),
              Chances.stated(1)));

  /** One probability, or places with their probabilities. */
  private static final Form<Found> FOUND =
      new Form<>() {
        @Override
        public Optional<Found> read(YamlNode node, Scope scope) {
          return isPlaces(node)
              ? AT_PLACES.read(node, scope).map(Found.At::new)
              : AT_ITS_OWN.read(node, scope).map(Found.Itself::new);
        }

        @Override
        public Shape shape() {
          return new Shape.Either(List.of(AT_ITS_OWN.shape(), AT_PLACES.shape()));
        }
      };

  private static final Form<Map<CauseId, Found>> CAUSES =
      Forms.some(Ids.map(Kind.CAUSE, CauseId::new, FOUND));

  static final Form<Observation> FORM =
      new Form<>() {
        @Override
        public Optional<Observation> read(YamlNode node, Scope scope) {
          return CAUSES.read(node, scope).flatMap(causes -> observation(node, causes, scope));
        }

        @Override
        public Shape shape() {
          return CAUSES.shape();
        }
      };

  /** Where a cause is found. */
  private sealed interface Found {

    /** At the place of its own name. */
    record Itself(Stated chance) implements Found {}

    /** At places. */
    record At(Map<OutcomeId, Stated> places) implements Found {}

    default Map<OutcomeId, Stated> places(CauseId cause) {
      return this instanceof At at
          ? at.places()
          : Map.of(new OutcomeId(cause.value()), ((Itself) this).chance());
    }
  }

  private Locating() {}

  private static boolean isPlaces(YamlNode node) {
    return node instanceof YamlMap map && map.entry("chance").isEmpty();
  }

  /** The outcomes by name, of a block that may have slips. */
  static Set<String> outcomes(YamlMap causes) {
    Set<String> names = new LinkedHashSet<>();
    for (Entry e : causes.entries()) {
      if (isPlaces(e.value())) {
        ((YamlMap) e.value()).entries().forEach(place -> names.add(place.name()));
      } else {
        names.add(e.name());
      }
    }
    names.remove(Results.NOTHING);
    names.add(Results.NOTHING);
    return names;
  }

  private static Optional<Observation> observation(
      YamlNode node, Map<CauseId, Found> causes, Scope scope) {
    OutcomeId nothing = new OutcomeId(Results.NOTHING);
    Set<OutcomeId> outcomes = new LinkedHashSet<>();
    List<Observation.TrueState> states = new ArrayList<>();
    Map<StateId, Map<OutcomeId, Chance>> rows = new LinkedHashMap<>();
    for (Map.Entry<CauseId, Found> e : causes.entrySet()) {
      CauseId cause = e.getKey();
      Map<OutcomeId, Stated> places = e.getValue().places(cause);
      if (isReserved(cause, node, scope)
          || places.keySet().stream().anyMatch(p -> isReserved(p, node, scope))
          || !isOne(cause, places, scope)) {
        return Optional.empty();
      }
      outcomes.addAll(places.keySet());
      states.add(
          new Observation.TrueState(
              new StateId(cause.value()), Map.of(cause, Chance.byDefinition(1))));
      rows.put(new StateId(cause.value()), row(places, nothing));
    }
    outcomes.add(nothing);
    rows.put(StateId.NORMAL, Map.of(nothing, Chance.byDefinition(1)));
    List<OutcomeId> all = List.copyOf(outcomes);
    return Optional.of(new Observation.OfStates(states, all, full(rows, all)));
  }

  private static boolean isReserved(Id id, YamlNode node, Scope scope) {
    boolean reserved =
        id.value().equals(Results.NOTHING)
            || id instanceof CauseId && id.value().equals(StateId.NORMAL.value());
    if (reserved) {
      scope.error(
          FormatRule.RESERVED_ID,
          node.at(),
          id instanceof CauseId
              ? "a cause that is called '" + id + "' cannot be located: the word has a meaning here"
              : "'" + id + "' is what is left of the places, and needs no probability",
          id instanceof CauseId ? "call the cause something else" : "remove it");
    }
    return reserved;
  }

  private static boolean isOne(CauseId cause, Map<OutcomeId, Stated> places, Scope scope) {
    BigDecimal sum =
        places.values().stream().map(Stated::decimal).reduce(BigDecimal.ZERO, BigDecimal::add);
    BigDecimal over = sum.subtract(BigDecimal.ONE);
    if (over.signum() > 0) {
      scope.error(
          FormatRule.ROW_SUM,
          places.values().iterator().next().at(),
          "the places where "
              + scope.owner()
              + " finds '"
              + cause
              + "' sum to more than 100 %: "
              + Chances.percentOf(sum),
          "take away " + Chances.percentOf(over));
    }
    return over.signum() <= 0;
  }

  private static Map<OutcomeId, Chance> row(Map<OutcomeId, Stated> places, OutcomeId nothing) {
    Map<OutcomeId, Chance> row = new LinkedHashMap<>();
    BigDecimal left = BigDecimal.ONE;
    Chance last = Chance.byDefinition(1);
    for (Map.Entry<OutcomeId, Stated> place : places.entrySet()) {
      last = place.getValue().chance();
      left = left.subtract(place.getValue().decimal());
      row.put(place.getKey(), last);
    }
    row.put(nothing, new Chance(left.doubleValue(), last.basis(), last.why()));
    return row;
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
