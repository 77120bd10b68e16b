package org.faultwright.pack.check;

import java.util.Collections;
import java.util.HashMap;
import java.util.HashSet;
import java.util.Map;
import java.util.Set;
import org.faultwright.pack.ActivityId;
import org.faultwright.pack.Condition;
import org.faultwright.pack.Pack;
import org.faultwright.pack.PointId;
import org.faultwright.pack.Step;
import org.faultwright.pack.StepId;
import org.faultwright.pack.Switch;

/**
 * Whether what lifts a hold can be brought about while some activities are forbidden. Errs on the
 * side of "it can": what is seen, said or agreed to always can.
 */
final class HoldRelease {

  /** Steps that wait for steps that wait...: beyond this many it is taken that they can be done. */
  private static final int DEEPEST = 50;

  private final Pack pack;
  private final Map<PointId, StepId> stepsOfPoints;

  /** Activities that the turning of some switch involves; others do not change what is reached. */
  private final Set<ActivityId> turning = new HashSet<>();

  private final Map<Set<ActivityId>, BenchReach> reaches = new HashMap<>();
  private final Map<Set<ActivityId>, Map<StepId, Boolean>> doable = new HashMap<>();

  HoldRelease(Pack pack) {
    this.pack = pack;
    this.stepsOfPoints = Requirements.stepsOfPoints(pack);
    for (Switch s : pack.switches().values()) {
      turning.addAll(s.whileOn());
      s.turnOn().ifPresent(t -> turning.addAll(t.does()));
      s.turnOff().ifPresent(t -> turning.addAll(t.does()));
    }
  }

  /** Whether the condition can become met without any of the activities. */
  boolean isPossible(Condition condition, Set<ActivityId> without) {
    return isPossible(condition, without, 0);
  }

  private boolean isPossible(Condition condition, Set<ActivityId> without, int depth) {
    if (condition instanceof Condition.All all) {
      return Requirements.contradiction(ConditionParts.needed(all)).isEmpty()
          && all.parts().stream().allMatch(p -> isPossible(p, without, depth));
    } else if (condition instanceof Condition.Any any) {
      return any.parts().stream().anyMatch(p -> isPossible(p, without, depth));
    } else if (condition instanceof Condition.BenchIs c) {
      return reach(without).canHave(Set.of(c.state()));
    }
    return Requirements.stepOf(condition, stepsOfPoints)
        .map(s -> canBeDone(s, without, depth))
        .orElse(true);
  }

  private boolean canBeDone(StepId id, Set<ActivityId> without, int depth) {
    Map<StepId, Boolean> known = doable.computeIfAbsent(without, w -> new HashMap<>());
    if (depth > DEEPEST || known.containsKey(id)) {
      return known.getOrDefault(id, true);
    }
    known.put(id, true); // steps that wait for each other are another check's business
    Step step = pack.steps().get(id);
    boolean can =
        Collections.disjoint(step.does(), without)
            && reach(without).canHave(step.conditions().bench())
            && step.conditions().after().stream().allMatch(s -> canBeDone(s, without, depth + 1))
            && isPossible(step.conditions().onlyIf(), without, depth + 1);
    known.put(id, can);
    return can;
  }

  private BenchReach reach(Set<ActivityId> without) {
    Set<ActivityId> ofTurns = new HashSet<>(without);
    ofTurns.retainAll(turning);
    return reaches.computeIfAbsent(ofTurns, w -> new BenchReach(pack, w));
  }
}
