package org.faultwright.pack.check;

import java.util.LinkedHashSet;
import java.util.Set;
import java.util.function.Consumer;
import org.faultwright.pack.Cause;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.NodeId;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Step;
import org.faultwright.problem.Problem;

/** A fault that nothing in the pack can remove. */
final class CauseWithoutCure implements PackCheck {

  @Override
  public String id() {
    return "cause-without-cure";
  }

  @Override
  public void check(Pack pack, Positions at, Consumer<Problem> found) {
    Set<NodeId> reached = new Descent(pack).ofComplaints();
    Set<CauseId> cured = new LinkedHashSet<>();
    for (Step step : pack.steps().values()) {
      cured.addAll(cured(step));
      step.swap()
          .map(swap -> pack.parts().get(swap.part()))
          .ifPresent(
              part -> {
                cured.addAll(part.carries());
                part.reseats().forEach(s -> cured.addAll(cured(pack.steps().get(s))));
              });
    }
    pack.parts().values().forEach(p -> cured.add(p.bad()));
    for (Cause cause : pack.causes().values()) {
      if (cause.kind() == Cause.Kind.FAULT
          && !cause.sendOn()
          && reached.contains(cause.id())
          && !cured.contains(cause.id())) {
        found.accept(
            Problem.warning(
                id(),
                at.of("causes/" + cause.id()),
                "no step removes cause '" + cause.id() + "'",
                "add a step that changes it or a part that carries it, or say 'send-on: yes'"));
      }
    }
  }

  private static Set<CauseId> cured(Step step) {
    Set<CauseId> cured = new LinkedHashSet<>();
    step.changes()
        .forEach(
            (cause, change) -> {
              if (change.cures().p() > 0) {
                cured.add(cause);
              }
            });
    return cured;
  }
}
