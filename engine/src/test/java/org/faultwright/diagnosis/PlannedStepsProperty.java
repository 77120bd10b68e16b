package org.faultwright.diagnosis;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Assume;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import org.faultwright.casefile.Fact;
import org.faultwright.casefile.Guard;
import org.faultwright.casefile.Intake;
import org.faultwright.oracle.Facts;
import org.faultwright.pack.BenchState;
import org.faultwright.pack.ComplaintId;
import org.faultwright.pack.Observation;
import org.faultwright.pack.OutcomeId;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Step;
import org.faultwright.pack.StepId;
import org.faultwright.planning.Plan;
import org.faultwright.planning.PlanLimits;
import org.faultwright.planning.PlanNode;
import org.faultwright.planning.Seen;
import org.faultwright.rules.BenchPack;
import org.faultwright.rules.Findings;
import org.faultwright.rules.RandomScenes;
import org.faultwright.rules.RuleBase;
import org.faultwright.rules.StepStatus;
import org.faultwright.rules.WorkingMemory;

/** What plans do is open to the rules, too, when they are told all that led there. */
class PlannedStepsProperty {

  /** Places of a plan that are held to the rules. */
  private static final int MOST_PLACES = 12;

  private static final PlanLimits LIMITS = new PlanLimits(Duration.ofMillis(500), 3, 0.02, 6);

  @Provide
  Arbitrary<List<Fact>> scenes() {
    return RandomScenes.facts().list().ofMaxSize(6);
  }

  @Provide
  Arbitrary<Intake> intakes() {
    return RandomScenes.intakes();
  }

  @Property(tries = 40)
  void stepsOfAPlan_areOpenInAFreshMemory_whereverThePlanComesToThem(
      @ForAll("scenes") List<Fact> facts, @ForAll("intakes") Intake intake) {
    List<Fact> told = new ArrayList<>(facts);
    told.add(new Fact.Complained(new ComplaintId("dead"), true));
    Optional<Plan> plan;
    Map<StepId, StepStatus> atFirst;
    try (Diagnosis diagnosis = Engine.create().open(BenchPack.PACK, intake)) {
      told.forEach(diagnosis::tell);
      atFirst = diagnosis.answer().findings().steps();
      plan = diagnosis.plan(LIMITS).found();
    }
    Assume.that(plan.isPresent());
    Walk walk = new Walk(BenchPack.PACK, intake, atFirst);
    walk.follow(plan.get().root(), told);
    Assume.that(walk.checked > 0);
  }

  /** Goes along the branches of a plan and tells a fresh memory the facts of each. */
  private static final class Walk {
    private final Pack pack;
    private final Intake intake;
    private final Map<StepId, StepStatus> atFirst;
    private int checked;

    Walk(Pack pack, Intake intake, Map<StepId, StepStatus> atFirst) {
      this.pack = pack;
      this.intake = intake;
      this.atFirst = atFirst;
    }

    void follow(PlanNode node, List<Fact> before) {
      if (checked == MOST_PLACES) {
        return;
      }
      if (node instanceof PlanNode.DoTest test) {
        List<Fact> ready = ready(before, test.turns());
        isOpen(test.step(), ready);
        List<Fact> done = done(ready, pack.steps().get(test.step()));
        for (PlanNode.Branch branch : test.branches()) {
          if (branch.seen() instanceof Seen.Shown shown) {
            follow(branch.then(), with(done, new Fact.OutcomeSeen(test.step(), shown.outcome())));
          }
        }
      } else if (node instanceof PlanNode.DoRepair repair) {
        List<Fact> ready = ready(before, repair.turns());
        isOpen(repair.step(), ready);
        List<Fact> done = with(ready, new Fact.StepDone(repair.step(), Optional.empty()));
        if (repair.proofs().size() == 1) {
          Step proof = pack.steps().get(repair.proofs().get(0));
          List<Fact> tested = ready(done, findings(done).step(proof.id()).turns());
          isOpen(proof.id(), tested);
          failure(proof)
              .ifPresent(y -> follow(repair.ifFailed(), with(tested, seen(proof.id(), y))));
        }
      }
    }

    private static Fact seen(StepId step, OutcomeId outcome) {
      return new Fact.OutcomeSeen(step, outcome);
    }

    /** The outcome of a function test that has two where it fails. */
    private static Optional<OutcomeId> failure(Step proof) {
      return proof.shows().orElseThrow() instanceof Observation.OfNode o
          ? Optional.of(o.positive())
          : Optional.empty();
    }

    private static List<Fact> ready(List<Fact> before, List<BenchState> turns) {
      List<Fact> facts = new ArrayList<>(before);
      turns.forEach(t -> facts.add(new Fact.BenchSet(t)));
      return facts;
    }

    private static List<Fact> done(List<Fact> before, Step step) {
      return step.isAttempt()
          ? with(before, new Fact.StepDone(step.id(), Optional.empty()))
          : before;
    }

    private static List<Fact> with(List<Fact> facts, Fact fact) {
      List<Fact> more = new ArrayList<>(facts);
      more.add(fact);
      return more;
    }

    private Findings findings(List<Fact> facts) {
      try (WorkingMemory memory = RuleBase.shared().open(pack, intake)) {
        return memory.conclude(Facts.told(facts));
      }
    }

    /** By the guard composed here, and by the one composed when the plan began. */
    private void isOpen(StepId step, List<Fact> facts) {
      checked++;
      Findings fresh = findings(facts);
      Guard here = fresh.step(step).guard();
      assertThat(here.holdsIn(fresh.situation())).as("%s after %s", step, facts).isTrue();
      assertThat(atFirst.get(step).guard().holdsIn(fresh.situation()))
          .as("%s, as guarded at first, after %s", step, facts)
          .isTrue();
    }
  }
}
