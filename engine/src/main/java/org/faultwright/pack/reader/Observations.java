package org.faultwright.pack.reader;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.Chance;
import org.faultwright.pack.EventId;
import org.faultwright.pack.NodeId;
import org.faultwright.pack.Observation;
import org.faultwright.pack.OutcomeId;
import org.faultwright.pack.format.Block;
import org.faultwright.pack.format.Chances;
import org.faultwright.pack.format.Choice;
import org.faultwright.pack.format.Fields;
import org.faultwright.pack.format.Form;
import org.faultwright.pack.format.FormatRule;
import org.faultwright.pack.format.Forms;
import org.faultwright.pack.format.Ids;
import org.faultwright.pack.format.Key;
import org.faultwright.pack.format.Kind;

/** What a step or a symptom shows: two outcomes, several, or a table. */
final class Observations {

  /** Names of the two outcomes of a symptom. */
  static final OutcomeId PRESENT = new OutcomeId("present");

  static final OutcomeId ABSENT = new OutcomeId("absent");

  static final Key<Chance> CATCHES =
      Key.required("catches", Chances.chance(), "P(positive) where it is so");
  static final Key<Chance> CRIES_WOLF =
      Key.required("cries-wolf", Chances.chance(), "P(positive) where it is not so");

  private static final Key<NodeId> EVENT =
      Key.required("event", Ids.ref(Kind.EVENT, EventId::new).as(e -> (NodeId) e), "an event");
  private static final Key<NodeId> CAUSE =
      Key.required("cause", Ids.ref(Kind.CAUSE, CauseId::new).as(c -> (NodeId) c), "a cause");
  private static final Key<Map<NodeId, Chance>> ANY =
      Key.required(
          "any",
          Forms.some(Ids.map(Ids::node, Chances.chance())),
          "causes, each with P(positive) with that cause alone");
  private static final Key<OutcomeId> POSITIVE =
      Key.optional("positive", Ids.spelt(OutcomeId::new), "name of the positive outcome");
  private static final Key<OutcomeId> NEGATIVE =
      Key.optional("negative", Ids.spelt(OutcomeId::new), "name of the negative outcome");

  /** What a step shows. */
  static final Form<Observation> OF_STEP =
      Choice.<Observation>of("shows")
          .or(
              Block.of("shows-event", EVENT, CATCHES, CRIES_WOLF, POSITIVE, NEGATIVE).withBasis(),
              f -> ofNode(f, EVENT, OutcomeId.POSITIVE, OutcomeId.NEGATIVE))
          .or(
              Block.of("shows-cause", CAUSE, CATCHES, CRIES_WOLF, POSITIVE, NEGATIVE).withBasis(),
              f -> ofNode(f, CAUSE, OutcomeId.POSITIVE, OutcomeId.NEGATIVE))
          .or(
              Block.of("shows-any", ANY, CRIES_WOLF, POSITIVE, NEGATIVE).withBasis(),
              f -> ofNodes(f, OutcomeId.POSITIVE, OutcomeId.NEGATIVE))
          .or(StateTables.STATES_BLOCK, StateTables::states)
          .or(StateTables.TABLE_BLOCK, StateTables::table);

  /** What a symptom shows. */
  static final Form<Observation> OF_SYMPTOM =
      Choice.<Observation>of("symptom-shows")
          .or(
              Block.of("symptom-shows-event", EVENT, CATCHES, CRIES_WOLF).withBasis(),
              f -> ofNode(f, EVENT, PRESENT, ABSENT))
          .or(
              Block.of("symptom-shows-cause", CAUSE, CATCHES, CRIES_WOLF).withBasis(),
              f -> ofNode(f, CAUSE, PRESENT, ABSENT))
          .or(
              Block.of("symptom-shows-any", ANY, CRIES_WOLF).withBasis(),
              f -> ofNodes(f, PRESENT, ABSENT))
          .or(StateTables.STATES_BLOCK, f -> StateTables.states(f).filter(o -> ofSymptom(o, f)))
          .or(StateTables.TABLE_BLOCK, f -> StateTables.table(f).filter(o -> ofSymptom(o, f)));

  private Observations() {}

  private static Optional<Observation> ofNode(
      Fields f, Key<NodeId> node, OutcomeId positive, OutcomeId negative) {
    if (!f.complete() || !distinct(f, positive, negative)) {
      return Optional.empty();
    }
    return Optional.of(
        new Observation.OfNode(
            f.need(node),
            f.need(CATCHES),
            f.need(CRIES_WOLF),
            f.get(POSITIVE).orElse(positive),
            f.get(NEGATIVE).orElse(negative)));
  }

  private static Optional<Observation> ofNodes(Fields f, OutcomeId positive, OutcomeId negative) {
    if (!f.complete() || !distinct(f, positive, negative)) {
      return Optional.empty();
    }
    Map<NodeId, Chance> rates = f.need(ANY);
    double falseAlarm = f.need(CRIES_WOLF).p();
    boolean good = true;
    for (Map.Entry<NodeId, Chance> rate : rates.entrySet()) {
      if (rate.getValue().p() < falseAlarm) {
        f.scope()
            .error(
                FormatRule.RATE_BELOW_FALSE_ALARM,
                f.map().map("any").orElseThrow().entry(rate.getKey().value()).orElseThrow().at(),
                "with '"
                    + rate.getKey()
                    + "', "
                    + f.scope().owner()
                    + " is positive less often than without any cause",
                "a rate must not be below 'cries-wolf'");
        good = false;
      }
    }
    return good
        ? Optional.of(
            new Observation.OfNodes(
                rates,
                f.need(CRIES_WOLF),
                f.get(POSITIVE).orElse(positive),
                f.get(NEGATIVE).orElse(negative)))
        : Optional.empty();
  }

  private static boolean distinct(Fields f, OutcomeId positive, OutcomeId negative) {
    OutcomeId yes = f.get(POSITIVE).orElse(positive);
    OutcomeId no = f.get(NEGATIVE).orElse(negative);
    if (yes.equals(no)) {
      f.scope()
          .error(
              FormatRule.DEFINED_TWICE,
              f.at(f.wrote(NEGATIVE) ? NEGATIVE : POSITIVE),
              "both outcomes of " + f.scope().owner() + " are called '" + yes + "'",
              "give them two names");
      return false;
    }
    return true;
  }

  /** Whether the outcomes are those of a symptom. */
  private static boolean ofSymptom(Observation shows, Fields f) {
    List<OutcomeId> wanted = List.of(PRESENT, ABSENT);
    boolean good = shows.outcomes().size() == 2 && shows.outcomes().containsAll(wanted);
    if (!good) {
      f.scope()
          .error(
              FormatRule.UNKNOWN_OUTCOME,
              f.at(StateTables.OUTCOMES),
              "the outcomes of a symptom are 'present' and 'absent'",
              "write [present, absent]");
    }
    return good;
  }
}
