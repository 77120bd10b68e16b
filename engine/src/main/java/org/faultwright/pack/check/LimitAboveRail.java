package org.faultwright.pack.check;

import java.util.function.Consumer;
import org.faultwright.pack.Limit;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Rail;
import org.faultwright.pack.Step;
import org.faultwright.problem.Problem;

/** More voltage than the rail is made for. */
final class LimitAboveRail implements PackCheck {

  @Override
  public String id() {
    return "limit-above-rail";
  }

  @Override
  public void check(Pack pack, Positions at, Consumer<Problem> found) {
    for (Step step : pack.steps().values()) {
      for (int i = 0; i < step.limits().size(); i++) {
        Limit limit = step.limits().get(i);
        Rail rail = limit.rail().map(pack.rails()::get).orElse(null);
        if (rail != null
            && rail.nominal().dimension() == limit.most().dimension()
            && Math.abs(limit.most().si()) > Math.abs(rail.nominal().si())) {
          found.accept(
              Problem.error(
                  id(),
                  at.of("steps/" + step.id() + "/limits/" + i + "/most"),
                  "limit of step '%s' is above the nominal %s of rail '%s': %s"
                      .formatted(step.id(), rail.nominal(), rail.id(), limit.most()),
                  "stay well below the nominal: a shorted rail needs current, not voltage"));
        }
      }
    }
  }
}
