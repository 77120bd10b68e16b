package org.faultwright.cli.text;

import java.util.List;
import java.util.Optional;
import org.faultwright.diagnosis.Answer;
import org.faultwright.pack.BenchState;
import org.faultwright.pack.OutcomeId;
import org.faultwright.pack.Pack;
import org.faultwright.pack.PointId;
import org.faultwright.pack.StateId;
import org.faultwright.pack.StepId;
import org.faultwright.pack.SwitchId;
import org.faultwright.planning.Plan;
import org.faultwright.planning.PlanNode;
import org.faultwright.planning.PlanNode.Ending;
import org.faultwright.planning.Seen;
import org.faultwright.planning.Shop;
import org.faultwright.planning.Spend;

/** A plan made by hand, so that every kind of place has its turn. Its numbers mean nothing. */
public final class PlanExamples {

  private static final BenchState OPEN = new BenchState(new SwitchId("device-open"), true);
  private static final BenchState SOUND_OFF = new BenchState(new SwitchId("sound-on"), false);

  private PlanExamples() {}

  /** The pack that the plan is for. */
  public static Pack pack() {
    return Examples.PACK;
  }

  /** An answer to the same case. */
  public static Answer answer() {
    return Examples.ranked();
  }

  /** An answer with an alarm and a hold. */
  public static Answer alarming() {
    return Examples.alarming();
  }

  /** Two tests, two repairs, each ending, and a branch that is not followed. */
  public static Plan plan() {
    PlanNode ohms =
        test(
            "coil-ohms",
            List.of(SOUND_OFF, OPEN),
            new Spend(10.25, 0, 0, 0),
            branch(new Seen.OffNormal(new PointId("coil"), new StateId("open")), 0.6, speaker()),
            branch(new Seen.AllNormal(), 0.4, amplifier()));
    return new Plan(
        test(
            "look-at-grille",
            List.of(),
            new Spend(1, 0, 0, 0),
            branch(shown("packed"), 0.25, grille()),
            branch(shown("dusty"), 0.15, soOn("restart")),
            branch(shown("clean"), 0.6, ohms)),
        Shop.ORDINARY,
        31.5,
        2,
        0.004);
  }

  private static PlanNode grille() {
    return repair("clean-grille", List.of(), new Spend(4.5, 0, 0, 0), 0.9, soOn("coil-ohms"));
  }

  private static PlanNode speaker() {
    return repair("fit-speaker", List.of(), new Spend(7.25, 0, 14, 0), 0.94, end(Ending.SENT_ON));
  }

  private static PlanNode amplifier() {
    return test(
        "feed-amplifier",
        List.of(),
        new Spend(6, 0, 0, 0),
        branch(shown("silent"), 0.7, end(Ending.SENT_ON)),
        branch(shown("hums"), 0.3, end(Ending.RETURNED)));
  }

  private static PlanNode test(
      String step, List<BenchState> turns, Spend spend, PlanNode.Branch... branches) {
    double rest = 0;
    for (PlanNode.Branch b : branches) {
      rest += b.p() * b.then().expectedCost();
    }
    double cost = spend.cost(Shop.ORDINARY) + rest;
    return new PlanNode.DoTest(new StepId(step), turns, spend, cost, List.of(branches));
  }

  private static PlanNode repair(
      String step, List<BenchState> turns, Spend spend, double pPass, PlanNode failed) {
    PlanNode passed = end(Ending.REPAIRED);
    return new PlanNode.DoRepair(
        new StepId(step),
        List.of(new StepId("plays-tone")),
        turns,
        spend,
        spend.cost(Shop.ORDINARY)
            + pPass * passed.expectedCost()
            + (1 - pPass) * failed.expectedCost(),
        pPass,
        passed,
        failed);
  }

  private static PlanNode end(Ending ending) {
    Spend spend =
        switch (ending) {
          case REPAIRED -> new Spend(5, 0, 0, 1.8);
          case SENT_ON -> new Spend(5, 0, 150, 0);
          case RETURNED -> new Spend(5, 0, 120, 0);
        };
    double pComeback = ending == Ending.REPAIRED ? 0.02 : 0;
    return new PlanNode.End(ending, spend, spend.cost(Shop.ORDINARY), pComeback);
  }

  private static PlanNode soOn(String next) {
    return new PlanNode.AndSoOn(40, Optional.of(new StepId(next)));
  }

  private static Seen shown(String outcome) {
    return new Seen.Shown(new OutcomeId(outcome));
  }

  private static PlanNode.Branch branch(Seen seen, double p, PlanNode then) {
    return new PlanNode.Branch(seen, p, then);
  }
}
