package org.faultwright.pack.check;

import java.util.LinkedHashSet;
import java.util.Set;
import java.util.function.Consumer;
import org.faultwright.pack.ComplaintId;
import org.faultwright.pack.Pack;
import org.faultwright.problem.Problem;

/** A complaint whose end nobody can prove. */
final class ComplaintWithoutFunctionTest implements PackCheck {

  @Override
  public String id() {
    return "complaint-without-function-test";
  }

  @Override
  public void check(Pack pack, Positions at, Consumer<Problem> found) {
    Set<ComplaintId> proved = new LinkedHashSet<>();
    pack.steps().values().forEach(s -> s.proves().ifPresent(proved::add));
    for (ComplaintId complaint : pack.complaints().keySet()) {
      if (!proved.contains(complaint)) {
        found.accept(
            Problem.warning(
                id(),
                at.of("complaints/" + complaint),
                "no step proves that complaint '" + complaint + "' is gone",
                "add a step with 'proves: {complaint: " + complaint + ", ...}'"));
      }
    }
  }
}
