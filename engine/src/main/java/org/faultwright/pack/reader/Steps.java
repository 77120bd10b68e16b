package org.faultwright.pack.reader;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.faultwright.measurement.Quantity;
import org.faultwright.pack.ActivityId;
import org.faultwright.pack.BenchState;
import org.faultwright.pack.BoardId;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.CautionId;
import org.faultwright.pack.Chance;
import org.faultwright.pack.Change;
import org.faultwright.pack.ComplaintId;
import org.faultwright.pack.Condition;
import org.faultwright.pack.ConsentId;
import org.faultwright.pack.Effort;
import org.faultwright.pack.Harm;
import org.faultwright.pack.InstrumentId;
import org.faultwright.pack.Limit;
import org.faultwright.pack.ModeId;
import org.faultwright.pack.Observation;
import org.faultwright.pack.PartId;
import org.faultwright.pack.Point;
import org.faultwright.pack.RailId;
import org.faultwright.pack.Step;
import org.faultwright.pack.StepId;
import org.faultwright.pack.ToolId;
import org.faultwright.pack.format.Block;
import org.faultwright.pack.format.Chances;
import org.faultwright.pack.format.Fields;
import org.faultwright.pack.format.Form;
import org.faultwright.pack.format.FormatRule;
import org.faultwright.pack.format.Forms;
import org.faultwright.pack.format.Ids;
import org.faultwright.pack.format.Key;
import org.faultwright.pack.format.Kind;
import org.faultwright.pack.format.Numbers;
import org.faultwright.pack.format.Quantities;
import org.faultwright.pack.format.Words;

/** The section of steps. */
final class Steps {

  private static final Key<String> TITLE =
      Key.optional("title", Forms.TEXT, "what to do, as an instruction");
  private static final Key<String> HOW =
      Key.optional("how", Forms.TEXT, "more words on how to do it");
  private static final Key<Effort> MINUTES =
      Key.required("minutes", Numbers.EFFORT, "time it takes: 2, or {hands: 2, wait: 30}");
  private static final Key<Double> COST =
      Key.optional("cost", Numbers.MONEY, "cost of what is used up");
  private static final Key<Set<BenchState>> NEEDS =
      Key.optional("needs", Bench.BENCH_STATES, "bench states that must hold");
  private static final Key<Set<ComplaintId>> NEEDS_WORKING =
      Key.optional(
          "needs-working",
          Forms.set(Ids.ref(Kind.COMPLAINT, ComplaintId::new)),
          "complaints whose function must not be known lost");
  private static final Key<Condition> ONLY_IF =
      Key.optional("only-if", Conditions.FORM, "what must be known first");
  private static final Key<Set<StepId>> WAITS_FOR =
      Key.optional(
          "waits-for", Forms.set(Ids.ref(Kind.STEP, StepId::new)), "steps that must be done first");
  private static final Key<Set<ToolId>> TOOLS =
      Key.optional("tools", Bench.TOOL_IDS, "tools it takes");
  private static final Key<Step.Skill> SKILL =
      Key.optional("skill", Words.SKILL, "counter, bench, board or licensed");
  private static final Key<Set<ConsentId>> CONSENT =
      Key.optional("consent", Bench.CONSENTS, "what the customer must agree to");
  private static final Key<Boolean> DATA_RISK =
      Key.optional("data-risk", Forms.YES_NO, "whether it can lose the customer's data");
  private static final Key<InstrumentId> INSTRUMENT =
      Key.optional(
          "instrument", Ids.ref(Kind.INSTRUMENT, InstrumentId::new), "what is measured with");
  private static final Key<String> LEADS =
      Key.optional("leads", Forms.TEXT, "how the leads are put, such as red-on-ground");
  private static final Key<Step.Connector> CONNECTOR =
      Key.optional("connector", Connectors.FORM, "the connector whose pins are read");
  private static final Key<ModeId> PROVOKES =
      Key.optional(
          "provokes",
          Ids.spelt(ModeId::new),
          "what it does to faults that come and go: bent, warm");
  private static final Key<Set<BoardId>> BOARDS =
      Key.optional(
          "boards", Forms.set(Ids.ref(Kind.BOARD, BoardId::new)), "the boards that it is for");
  private static final Key<Quantity> MOST =
      Key.required("most", Quantities.ANY, "the most that may be applied, such as 1 V");
  private static final Key<RailId> RAIL =
      Key.optional("rail", Ids.ref(Kind.RAIL, RailId::new), "the rail that it is applied to");
  private static final Key<List<Limit>> LIMITS =
      Key.optional(
          "limits",
          Forms.list(
              Forms.built(
                  Block.of("limit", MOST, RAIL),
                  f ->
                      f.complete() && !f.spoilt(RAIL)
                          ? Optional.of(new Limit(f.need(MOST), f.get(RAIL)))
                          : Optional.empty())),
          "the most that may be applied");
  private static final Key<Set<CautionId>> CAUTIONS =
      Key.optional("cautions", Bench.CAUTIONS, "cautions shown beside it");
  private static final Key<Set<ActivityId>> DOES =
      Key.optional("does", Bench.ACTIVITIES, "activities it involves, for holds");
  private static final Key<Boolean> REPEATABLE =
      Key.optional(
          "repeatable", Forms.YES_NO, "whether a further attempt has a fresh chance of success");
  private static final Key<Double> COPIES =
      Key.optional(
          "copies", Chances.PLAIN, "P(a repeat copies the first outcome); 1: it tells nothing");

  // What it shows.
  private static final Key<Observation> SHOWS =
      Key.optional("shows", Observations.OF_STEP, "what can be seen");
  private static final Key<Observation> LOCATES =
      Key.optional("locates", Locating.FORM, "places it can find, each with the probability");
  private static final Key<List<Point>> POINTS =
      Key.optional("points", Forms.some(Points.FORM), "points where readings are taken");
  private static final Key<Proving.Proof> PROVES =
      Key.optional("proves", Proving.FORM, "the complaint whose function it proves");
  private static final Key<Comparing.Compared> COMPARE =
      Key.optional("compare", Comparing.FORM, "two points that read alike on a good device");
  private static final Key<Observation> SEQUENCE =
      Key.optional("sequence", Sequences.FORM, "stages that it gets through");

  // What it changes.
  private static final Key<Chance> CURES =
      Key.optional("cures", Chances.chance(0), "P(the cause is gone afterwards)");
  private static final Key<Chance> HIDES =
      Key.optional(
          "hides", Chances.chance(0), "P(it stays, but does not act until the next attempt)");
  private static final Key<Map<CauseId, Change>> CHANGES =
      Key.optional(
          "changes",
          Ids.map(
              Kind.CAUSE,
              CauseId::new,
              Forms.built(
                  Block.of("change", CURES, HIDES).withBasis().atLeastOneOf(CURES, HIDES),
                  f ->
                      f.spoilt(CURES) || f.spoilt(HIDES)
                          ? Optional.empty()
                          : Optional.of(
                              new Change(
                                  f.get(CURES).orElse(Chance.byDefinition(0)),
                                  f.get(HIDES).orElse(Chance.byDefinition(0)))))),
          "causes it may cure or hide");
  private static final Key<PartId> SWAP =
      Key.optional("swap", Ids.ref(Kind.PART, PartId::new), "the part it replaces");
  private static final Key<Chance> DONOR_GOOD =
      Key.optional("donor-good", Chances.chance(), "P(the new part is good)");
  private static final Key<Map<CauseId, HarmForm.Stated>> MAY_CAUSE =
      Key.optional(
          "may-cause",
          Ids.map(Kind.CAUSE, CauseId::new, HarmForm.FORM),
          "harm it may do, each with its probability");
  private static final Key<StepId> THEN_REPEAT =
      Key.optional("then-repeat", Ids.ref(Kind.STEP, StepId::new), "the step to do afterwards");

  static final Block BLOCK =
      Block.of(
              "step",
              TITLE,
              HOW,
              MINUTES,
              COST,
              NEEDS,
              NEEDS_WORKING,
              ONLY_IF,
              WAITS_FOR,
              TOOLS,
              SKILL,
              CONSENT,
              DATA_RISK,
              INSTRUMENT,
              LEADS,
              CONNECTOR,
              PROVOKES,
              BOARDS,
              LIMITS,
              CAUTIONS,
              DOES,
              REPEATABLE,
              COPIES,
              SHOWS,
              LOCATES,
              POINTS,
              PROVES,
              COMPARE,
              SEQUENCE,
              CHANGES,
              SWAP,
              DONOR_GOOD,
              MAY_CAUSE,
              THEN_REPEAT)
          .withBasis()
          .atMostOneOf(SHOWS, LOCATES, POINTS, PROVES, COMPARE, SEQUENCE);

  private static final List<Key<?>> MUST_NOT_BE_SPOILT =
      List.of(
          NEEDS,
          NEEDS_WORKING,
          ONLY_IF,
          WAITS_FOR,
          TOOLS,
          SKILL,
          CONSENT,
          LIMITS,
          CAUTIONS,
          DOES,
          SHOWS,
          LOCATES,
          POINTS,
          PROVES,
          COMPARE,
          SEQUENCE,
          CHANGES,
          SWAP,
          DONOR_GOOD,
          MAY_CAUSE,
          THEN_REPEAT);

  /** The section. */
  static final Form<List<Step>> FORM = Section.of(Kind.STEP, BLOCK, Steps::step);

  private Steps() {}

  private static Optional<Step> step(String id, Fields f) {
    Optional<Optional<Step.Swap>> swap = swap(f);
    if (swap.isEmpty() || MUST_NOT_BE_SPOILT.stream().anyMatch(f::spoilt)) {
      return Optional.empty();
    }
    Optional<Proving.Proof> proof = f.get(PROVES);
    if (proof.isPresent() && f.get(PROVOKES).equals(Optional.of(ModeId.INSPECTION))) {
      f.scope()
          .error(
              FormatRule.KEY_NOT_NEEDED,
              f.at(PROVOKES),
              f.scope().owner() + " proves a function, and an inspection looks at parts",
              "let it provoke something else, or show a cause");
      return Optional.empty();
    }
    List<Harm> harms = new ArrayList<>();
    f.get(MAY_CAUSE)
        .orElse(Map.of())
        .forEach((cause, h) -> harms.add(new Harm(cause, h.chance(), h.cost())));
    return Optional.of(
        new Step(
            new StepId(id),
            f.get(TITLE).orElse(Section.words(id)),
            f.get(HOW).orElse(""),
            f.need(MINUTES),
            f.get(COST).orElse(0.0),
            needs(f),
            f.get(PROVOKES).orElse(ModeId.AT_REST),
            f.get(SHOWS)
                .or(() -> f.get(LOCATES))
                .or(() -> f.get(SEQUENCE))
                .or(() -> f.get(COMPARE).map(Comparing.Compared::shows))
                .or(() -> proof.map(Proving.Proof::shows)),
            proof.map(Proving.Proof::complaint),
            f.get(POINTS)
                .map(
                    points ->
                        new Step.PinTable(
                            f.get(LEADS), f.get(INSTRUMENT), points, f.get(CONNECTOR))),
            f.get(CHANGES).orElse(Map.of()),
            swap.get(),
            harms,
            f.get(THEN_REPEAT),
            f.get(REPEATABLE).orElse(false),
            f.get(COPIES).orElse(1.0),
            f.get(DATA_RISK).orElse(false),
            f.get(LIMITS).orElse(List.of()),
            f.get(CAUTIONS).orElse(Set.of()),
            f.get(DOES).orElse(Set.of()),
            f.get(BOARDS).orElse(Set.of()),
            f.get(COMPARE).map(Comparing.Compared::comparison)));
  }

  private static Step.Needs needs(Fields f) {
    return new Step.Needs(
        f.get(NEEDS).orElse(Set.of()),
        f.get(NEEDS_WORKING).orElse(Set.of()),
        f.get(ONLY_IF).orElse(new Condition.Always()),
        f.get(WAITS_FOR).orElse(Set.of()),
        f.get(TOOLS).orElse(Set.of()),
        f.get(CONSENT).orElse(Set.of()),
        f.get(SKILL));
  }

  /** The swap, if there is one; empty when it lacks something, after that has been reported. */
  private static Optional<Optional<Step.Swap>> swap(Fields f) {
    if (f.wrote(SWAP) == f.wrote(DONOR_GOOD)) {
      return Optional.of(
          f.get(SWAP).flatMap(p -> f.get(DONOR_GOOD).map(good -> new Step.Swap(p, good))));
    }
    if (f.wrote(SWAP)) {
      f.scope()
          .error(
              FormatRule.MISSING_BESIDE,
              f.at(SWAP),
              "'donor-good' is missing beside 'swap' of " + f.scope().owner(),
              "add 'donor-good:', " + DONOR_GOOD.doc());
    } else {
      f.scope()
          .error(
              FormatRule.KEY_NOT_NEEDED,
              f.keyAt(DONOR_GOOD),
              "'donor-good' goes with 'swap', and " + f.scope().owner() + " swaps nothing",
              "add 'swap:', or remove it");
    }
    return Optional.empty();
  }
}
