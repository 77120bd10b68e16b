package org.faultwright.planning;

import static org.faultwright.oracle.PackSketch.cause;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.faultwright.casefile.Situation;
import org.faultwright.compile.LikelyWorlds;
import org.faultwright.oracle.PackSketch;
import org.faultwright.oracle.StepSketch;
import org.faultwright.pack.Pack;

/**
 * The textbook setting of repair order: exactly one of several causes is present, each has its own
 * sure repair, and the function test is free and never wrong.
 */
record SingleFault(Pack pack, LikelyWorlds worlds, Situation now) {

  /**
   * Causes {@code cause-1}, {@code cause-2}, ... with repairs {@code repair-1}, ...
   *
   * @param p the probabilities of the causes; where they sum to less than 1, the rest is a cause
   *     without a repair
   * @param costs of the repairs
   */
  static SingleFault of(double[] p, double[] costs) {
    Map<String, Double> all = new LinkedHashMap<>();
    double rest = 1;
    for (int i = 0; i < p.length; i++) {
      all.put("cause-" + (i + 1), p[i]);
      rest -= p[i];
    }
    if (rest > 1e-9) {
      all.put("unlisted", rest);
    }
    PackSketch sketch = new PackSketch("test/single-fault");
    List<PackSketch.Input> inputs = new ArrayList<>();
    all.forEach(
        (id, pCause) -> {
          sketch.prior(id, pCause);
          inputs.add(cause(id, 1));
        });
    sketch.oneOf("the-fault", true, all.keySet().toArray(String[]::new));
    sketch.any("lost", inputs.toArray(PackSketch.Input[]::new));
    sketch.complaint("complaint", "lost");
    for (int i = 0; i < costs.length; i++) {
      sketch.step(
          Bench.costing(
              new StepSketch("repair-" + (i + 1)).changes("cause-" + (i + 1), 1, 0).build(),
              costs[i]));
    }
    Pack pack = sketch.build();
    return new SingleFault(pack, Bench.single(all), Bench.reported(pack, "complaint"));
  }

  Weighing look(Shop shop) {
    return Bench.look(pack, shop, worlds, now);
  }

  /** The repairs of the cheapest way, by number; empty: the job ends at once. */
  static List<Integer> order(Weighing weighing) {
    return weighing.next() instanceof NextStep.DoRepair next
        ? next.repair().sequence().stream()
            .map(s -> Integer.parseInt(s.value().substring("repair-".length())))
            .toList()
        : List.of();
  }
}
