package org.faultwright.oracle;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.Chance;
import org.faultwright.pack.Change;
import org.faultwright.pack.Harm;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Part;
import org.faultwright.pack.Step;
import org.faultwright.pack.StepId;

/** The attempts of a case in order. Attempt k, counted from 1, begins epoch k. */
final class Timeline {

  /**
   * One attempt.
   *
   * @param changes what it does to causes that are present
   * @param harms P(present afterwards | absent before)
   * @param renewed causes whose presence afterwards has this probability whatever was before: a bad
   *     new part
   * @param touched the causes that it touches
   */
  record Attempt(
      StepId step,
      boolean repeatable,
      Map<CauseId, Change> changes,
      Map<CauseId, Double> harms,
      Map<CauseId, Double> renewed,
      Set<CauseId> touched) {}

  private final Pack pack;
  private final List<Attempt> attempts = new ArrayList<>();

  Timeline(Pack pack) {
    this.pack = pack;
  }

  /** The epoch that the latest attempt began; 0 before the first. */
  int now() {
    return attempts.size();
  }

  /** The attempt that began an epoch, from 1. */
  Attempt beginning(int epoch) {
    return attempts.get(epoch - 1);
  }

  /** Another attempt. */
  void add(Step step) {
    Map<CauseId, Change> changes = new LinkedHashMap<>();
    Map<CauseId, Double> harms = new LinkedHashMap<>();
    Map<CauseId, Double> renewed = new LinkedHashMap<>();
    if (step.swap().isPresent()) {
      Part part = pack.parts().get(step.swap().get().part());
      renewed.put(part.bad(), 1 - step.swap().get().donorGood().p());
      Change cured = new Change(Chance.byDefinition(1), Chance.byDefinition(0));
      part.carries().forEach(c -> changes.put(c, cured));
      for (StepId reseat : part.reseats()) {
        pack.steps().get(reseat).changes().forEach((c, change) -> surer(changes, c, change));
      }
    }
    step.changes().forEach((c, change) -> surer(changes, c, change));
    for (Harm harm : step.mayCause()) {
      double unharmed = (1 - harms.getOrDefault(harm.cause(), 0.0)) * (1 - harm.chance().p());
      harms.put(harm.cause(), 1 - unharmed);
    }
    Set<CauseId> touched = new LinkedHashSet<>(changes.keySet());
    touched.addAll(harms.keySet());
    touched.addAll(renewed.keySet());
    if (!attempts.isEmpty()) {
      beginning(now())
          .changes()
          .forEach(
              (c, change) -> {
                if (change.hides().p() > 0) {
                  touched.add(c); // what was hidden acts again
                }
              });
    }
    attempts.add(new Attempt(step.id(), step.repeatable(), changes, harms, renewed, touched));
  }

  private static void surer(Map<CauseId, Change> changes, CauseId cause, Change change) {
    Change other = changes.get(cause);
    if (other == null || change.cures().p() > other.cures().p()) {
      changes.put(cause, change);
    }
  }

  /** The latest epoch up to the given one that began with an attempt touching one of the causes. */
  int lastTouched(Set<CauseId> causes, int epoch) {
    for (int k = epoch; k > 0; k--) {
      if (beginning(k).touched().stream().anyMatch(causes::contains)) {
        return k;
      }
    }
    return 0;
  }
}
