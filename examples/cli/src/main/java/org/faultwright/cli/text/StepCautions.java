package org.faultwright.cli.text;

import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import org.faultwright.pack.BenchState;
import org.faultwright.pack.CautionId;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Step;
import org.faultwright.pack.StepId;
import org.faultwright.pack.Switch;

/** The cautions that belong beside a step of a plan. */
public final class StepCautions {

  private StepCautions() {}

  /**
   * Those of the step, of the turns before it, and of its function tests with whatever they need.
   *
   * @param turns the switches to turn before the step
   * @param proofs its function tests; how the plan gets to them it does not say, so that each
   *     position they need counts as turned
   * @return in the order of the pack
   */
  public static List<CautionId> of(
      Pack pack, StepId step, List<BenchState> turns, Collection<StepId> proofs) {
    Set<CautionId> found = new LinkedHashSet<>(pack.steps().get(step).cautions());
    Set<BenchState> turned = new LinkedHashSet<>(turns);
    for (StepId id : proofs) {
      Step proof = pack.steps().get(id);
      found.addAll(proof.cautions());
      turned.addAll(proof.conditions().bench());
    }
    for (BenchState state : turned) {
      Switch s = pack.switches().get(state.of());
      (state.on() ? s.turnOn() : s.turnOff()).ifPresent(turn -> found.addAll(turn.cautions()));
    }
    List<CautionId> inOrder = new ArrayList<>(pack.cautions().keySet());
    inOrder.retainAll(found);
    return inOrder;
  }
}
