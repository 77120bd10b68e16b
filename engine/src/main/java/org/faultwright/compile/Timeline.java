package org.faultwright.compile;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.Lineage;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Step;
import org.faultwright.pack.StepId;

/**
 * The attempts made on a device so far. Epoch 0 is the device as taken in; epoch k begins with
 * attempt k.
 *
 * @param attempts the attempts in order
 * @param touched for each attempt, the causes that it touches; a cause that the attempt before may
 *     have hidden is among them, since it acts again
 */
record Timeline(List<Step> attempts, List<Set<CauseId>> touched) {

  static Timeline of(Pack pack, Lineage lineage, List<StepId> steps) {
    List<Step> attempts = new ArrayList<>();
    List<Set<CauseId>> touched = new ArrayList<>();
    Set<CauseId> hidden = Set.of();
    for (StepId id : steps) {
      Step step = pack.steps().get(id);
      attempts.add(step);
      Set<CauseId> now = new LinkedHashSet<>(lineage.touches(step));
      now.addAll(hidden);
      touched.add(now);
      Set<CauseId> hides = new LinkedHashSet<>();
      lineage
          .changes(step)
          .forEach(
              (c, x) -> {
                if (x.hides().p() > 0) {
                  hides.add(c);
                }
              });
      hidden = hides;
    }
    return new Timeline(List.copyOf(attempts), List.copyOf(touched));
  }

  /** The epoch that holds now. */
  int now() {
    return attempts.size();
  }

  /**
   * The first epoch from which on nothing has moved what depends on the given causes, up to the
   * given epoch.
   */
  int settled(Set<CauseId> ancestors, int epoch) {
    int k = epoch;
    while (k > 0 && touched.get(k - 1).stream().noneMatch(ancestors::contains)) {
      k--;
    }
    return k;
  }
}
