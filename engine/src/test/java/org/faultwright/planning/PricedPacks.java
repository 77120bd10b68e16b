package org.faultwright.planning;

import static org.faultwright.oracle.PackSketch.chance;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.SplittableRandom;
import java.util.function.UnaryOperator;
import org.faultwright.casefile.Attempts;
import org.faultwright.casefile.Fact;
import org.faultwright.casefile.Situation;
import org.faultwright.casefile.Told;
import org.faultwright.oracle.Facts;
import org.faultwright.oracle.PackFeature;
import org.faultwright.oracle.RandomPacks;
import org.faultwright.oracle.StepSketch;
import org.faultwright.pack.Cause;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.ComplaintId;
import org.faultwright.pack.Lineage;
import org.faultwright.pack.Observation;
import org.faultwright.pack.OutcomeId;
import org.faultwright.pack.Pack;
import org.faultwright.pack.PackDraft;
import org.faultwright.pack.Step;

/** Random packs in which steps cost something, and what random cases in them come to. */
public final class PricedPacks {

  static final ComplaintId COMPLAINT = new ComplaintId("complaint-a");

  private PricedPacks() {}

  /** A random pack with a step that changes nothing that matters. */
  static Pack draw(SplittableRandom random, Set<PackFeature> features) {
    Pack drawn = RandomPacks.draw(random, features);
    Lineage lineage = Lineage.of(drawn);
    List<Step> repeatedOnes =
        drawn.steps().values().stream()
            .filter(s -> s.id().value().startsWith("test-"))
            .filter(s -> s.shows().filter(o -> o.outcomes().size() == 2).isPresent())
            .toList();
    Pack priced =
        withSteps(
            drawn,
            s -> {
              Step step = Bench.costing(s, random.nextInt(0, s.isAttempt() ? 30 : 6));
              for (Step test : repeatedOnes) {
                boolean moves = !s.changes().isEmpty() && lineage.moves(s, lineage.ancestors(test));
                if (moves && random.nextInt(4) == 0) {
                  return Bench.thenRepeat(step, test.id().value());
                }
              }
              return step;
            });
    return withNothing(priced);
  }

  /** The same pack in which looking is cheap and repairs are dear. */
  public static Pack priced(Pack pack) {
    return withSteps(pack, s -> Bench.costing(s, s.isAttempt() ? 25 : 1));
  }

  static Pack withSteps(Pack pack, UnaryOperator<Step> change) {
    PackDraft draft = PackDraft.of(pack);
    draft.steps.replaceAll((id, s) -> change.apply(s));
    return draft.build();
  }

  private static Pack withNothing(Pack pack) {
    PackDraft draft = PackDraft.of(pack);
    draft.cause(
        new Cause(
            new CauseId("spare"),
            "spare",
            Cause.Kind.FAULT,
            new Cause.Likelihood.Prior(chance(0.5)),
            Optional.empty(),
            Map.of(),
            Map.of(),
            Map.of(),
            false));
    draft.step(new StepSketch(PlanOracle.NOTHING).changes("spare", 0.5, 0).build());
    return draft.build();
  }

  static Shop shop(SplittableRandom random) {
    return new Shop(
        1,
        0,
        random.nextInt(5, 80),
        0,
        random.nextInt(0, 120),
        random.nextInt(0, 20),
        Map.of(),
        new Shop.Proof(1, 0.9, 0.05));
  }

  /** A report, then a few outcomes, at times with an attempt among them. */
  static List<Fact> facts(SplittableRandom random, Pack pack, boolean attempts) {
    List<Fact> facts = new ArrayList<>();
    facts.add(Facts.reported(COMPLAINT.value()));
    List<Step> tests =
        pack.steps().values().stream()
            .filter(s -> s.shows().isPresent() && !s.isAttempt() && s.pinTable().isEmpty())
            .toList();
    List<Step> repairs =
        pack.steps().values().stream()
            .filter(s -> s.isAttempt() && s.shows().isEmpty())
            .filter(s -> !s.id().value().equals(PlanOracle.NOTHING))
            .toList();
    if (attempts && !repairs.isEmpty() && random.nextBoolean()) {
      Step repair = repairs.get(random.nextInt(repairs.size()));
      facts.add(new Fact.StepDone(repair.id(), Optional.empty()));
    }
    int howMany = random.nextInt(0, 3);
    for (int i = 0; i < howMany; i++) {
      Step test = tests.get(random.nextInt(tests.size()));
      List<OutcomeId> outcomes = test.shows().map(Observation::outcomes).orElseThrow();
      facts.add(new Fact.OutcomeSeen(test.id(), outcomes.get(random.nextInt(outcomes.size()))));
    }
    return facts;
  }

  /** What conditions may ask about after these facts. */
  static Situation situation(Pack pack, List<Fact> facts) {
    Situation s = Bench.reported(pack, COMPLAINT.value());
    List<Told> told = Facts.told(facts);
    Lineage lineage = Lineage.of(pack);
    Attempts attempts = Attempts.of(pack, lineage, told);
    for (Told t : told) {
      if (t.fact() instanceof Fact.StepDone done) {
        s = s.withDone(done.step());
      } else if (t.fact() instanceof Fact.OutcomeSeen seen) {
        Set<CauseId> ancestors = lineage.ancestors(pack.steps().get(seen.step()));
        if (attempts.firstMoving(t.id(), ancestors).isEmpty()) {
          s = s.withOutcome(seen.step(), seen.outcome());
        }
      }
    }
    return s;
  }
}
