package org.faultwright.pack.check;

import java.util.Collections;
import java.util.LinkedHashSet;
import java.util.Set;
import java.util.function.Consumer;
import org.faultwright.pack.ActivityId;
import org.faultwright.pack.Hold;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Switch;
import org.faultwright.problem.Problem;

/** A hold that forbids what no step and no switch does. */
final class HoldForbidsNothing implements PackCheck {

  @Override
  public String id() {
    return "hold-forbids-nothing";
  }

  @Override
  public void check(Pack pack, Positions at, Consumer<Problem> found) {
    Set<ActivityId> done = new LinkedHashSet<>();
    pack.steps().values().forEach(s -> done.addAll(s.does()));
    for (Switch s : pack.switches().values()) {
      done.addAll(s.whileOn());
      s.turnOn().ifPresent(t -> done.addAll(t.does()));
      s.turnOff().ifPresent(t -> done.addAll(t.does()));
    }
    for (Hold hold : pack.holds().values()) {
      String path = "holds/" + hold.id();
      if (Collections.disjoint(hold.forbids(), done) && at.isOwn(path)) {
        found.accept(
            Problem.warning(
                id(),
                at.of(path + "/forbids"),
                "hold '"
                    + hold.id()
                    + "' stops nothing: no step and no switch does what it forbids",
                "say under 'does' of the steps what they involve"));
      }
    }
  }
}
