package org.faultwright.planning;

import java.util.Optional;
import org.faultwright.pack.StepId;

/** What is cheapest one step ahead, again at each place: what the bench is advised to do. */
final class Advised implements Policy {

  private final Policy withoutTests = new CheapestOrder();

  @Override
  public Choice choose(Place place) {
    Weighing weighing = place.assessment().weigh(Optional.empty());
    if (weighing.next() instanceof NextStep.DoTest test) {
      return test(place, test.test().step()).orElseGet(() -> withoutTests.choose(place));
    } else if (weighing.next() instanceof NextStep.DoRepair repair) {
      return place.repairs().stream()
          .filter(r -> place.step(r.step()).id().equals(repair.repair().repair()))
          .findFirst()
          .<Choice>map(Choice.Repair::new)
          .orElseGet(() -> withoutTests.choose(place));
    }
    return new Choice.End();
  }

  /** Empty for a test that would only be repeated. */
  static Optional<Choice> test(Place place, StepId step) {
    return place.tests().stream()
        .filter(t -> place.step(t.step()).id().equals(step))
        .findFirst()
        .map(Choice.Test::new);
  }
}
