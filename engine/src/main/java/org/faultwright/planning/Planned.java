package org.faultwright.planning;

/**
 * A plan, followed; where it is not written down any further, repairs by {@link
 * ProbabilityPerCost}.
 */
final class Planned implements Policy {

  private static final Policy BEYOND = new ProbabilityPerCost();

  private final PlanNode node;

  Planned(PlanNode node) {
    this.node = node;
  }

  @Override
  public Choice choose(Place place) {
    if (node instanceof PlanNode.DoTest test) {
      return place.tests().stream()
          .filter(t -> place.step(t.step()).id().equals(test.step()))
          .findFirst()
          .<Choice>map(Choice.Test::new)
          .orElseThrow(() -> new IllegalStateException("plan must be open: " + test.step()));
    } else if (node instanceof PlanNode.DoRepair repair) {
      return place.repairs().stream()
          .filter(r -> place.step(r.step()).id().equals(repair.step()))
          .findFirst()
          .<Choice>map(Choice.Repair::new)
          .orElseThrow(() -> new IllegalStateException("plan must be open: " + repair.step()));
    }
    return node instanceof PlanNode.End ? new Choice.End() : BEYOND.choose(place);
  }

  @Override
  public Policy afterTest(Seen seen) {
    if (node instanceof PlanNode.DoTest test) {
      return test.branches().stream()
          .filter(b -> b.seen().equals(seen))
          .findFirst()
          .<Policy>map(b -> new Planned(b.then()))
          .orElse(BEYOND);
    }
    return this;
  }

  @Override
  public Policy afterFailure() {
    return node instanceof PlanNode.DoRepair repair ? new Planned(repair.ifFailed()) : this;
  }
}
