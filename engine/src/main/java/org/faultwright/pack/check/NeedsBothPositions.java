package org.faultwright.pack.check;

import java.util.Set;
import java.util.function.Consumer;
import org.faultwright.pack.BenchState;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Step;
import org.faultwright.pack.Switch;
import org.faultwright.problem.Problem;

/** A step or a turn that needs a switch on and off at once. */
final class NeedsBothPositions implements PackCheck {

  @Override
  public String id() {
    return "needs-both-positions";
  }

  @Override
  public void check(Pack pack, Positions at, Consumer<Problem> found) {
    for (Step step : pack.steps().values()) {
      look(
          "step '" + step.id() + "'",
          step.conditions().bench(),
          pack,
          at,
          "steps/" + step.id() + "/needs",
          found);
    }
    for (Switch s : pack.switches().values()) {
      String path = "switches/" + s.id();
      String of = " of switch '" + s.id() + "'";
      s.turnOn()
          .ifPresent(
              t -> look("turn-on" + of, t.needs(), pack, at, path + "/turn-on/needs", found));
      s.turnOff()
          .ifPresent(
              t -> look("turn-off" + of, t.needs(), pack, at, path + "/turn-off/needs", found));
    }
  }

  private void look(
      String what,
      Set<BenchState> needs,
      Pack pack,
      Positions at,
      String path,
      Consumer<Problem> found) {
    for (BenchState state : needs) {
      if (state.on() && needs.contains(new BenchState(state.of(), false))) {
        Switch s = pack.switches().get(state.of());
        found.accept(
            Problem.error(
                id(),
                at.of(path),
                "%s needs both '%s' and '%s'".formatted(what, s.id(), s.offCalled()),
                "leave one of them out"));
      }
    }
  }
}
