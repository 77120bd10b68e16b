package org.faultwright.planning;

import org.faultwright.planning.Assessment.Ecr0;

/** No tests: at each place the first repair of what attains ECR0 there. */
final class CheapestOrder implements Policy {

  @Override
  public Choice choose(Place place) {
    Ecr0 ecr0 = place.ecr0();
    return place.repairs().stream()
        .filter(r -> r.step() == ecr0.first())
        .findFirst()
        .<Choice>map(Choice.Repair::new)
        .orElseGet(Choice.End::new);
  }
}
