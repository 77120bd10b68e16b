package org.faultwright.planning;

import static org.faultwright.oracle.PackSketch.cause;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.SplittableRandom;
import org.faultwright.casefile.Situation;
import org.faultwright.compile.LikelyWorlds;
import org.faultwright.oracle.PackSketch;
import org.faultwright.oracle.StepSketch;
import org.faultwright.pack.BenchState;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.EventId;
import org.faultwright.pack.Pack;
import org.faultwright.pack.PackDraft;
import org.faultwright.pack.Step;
import org.faultwright.pack.SwitchId;

/**
 * A device with a few causes, each of which loses the function by itself, repairs with overlapping
 * and unsure cures, a noisy function test and noisy tests; some steps need the device open. Worlds
 * are sets of causes, so that brute force fits on a page.
 */
record SmallWorld(
    Pack pack, Shop shop, List<String> causes, List<Set<String>> sets, List<Double> masses) {

  static final String FUNCTION_TEST = "function-test";

  static SmallWorld draw(SplittableRandom random, int mostRepairs) {
    int n = random.nextInt(2, 6);
    List<String> causes = new ArrayList<>();
    PackSketch sketch = new PackSketch("test/small-world");
    List<PackSketch.Input> inputs = new ArrayList<>();
    for (int i = 0; i < n; i++) {
      causes.add("cause-" + (i + 1));
      sketch.prior(causes.get(i), 0.2);
      inputs.add(cause(causes.get(i), 1));
    }
    sketch.any("lost", inputs.toArray(PackSketch.Input[]::new));
    sketch.complaint("complaint", "lost");
    boolean isSure = random.nextInt(3) == 0;
    int repairs = random.nextInt(1, mostRepairs + 1);
    for (int r = 0; r < repairs; r++) {
      StepSketch repair = new StepSketch("repair-" + (r + 1));
      int touches = random.nextInt(4) == 0 ? 2 : 1;
      for (int t = 0; t < touches; t++) {
        double cures = isSure || random.nextInt(3) == 0 ? 1 : random.nextDouble(0.3, 1);
        repair.changes(causes.get(random.nextInt(n)), cures, 0);
      }
      sketch.step(opened(random, Bench.costing(repair.build(), random.nextInt(1, 30))));
    }
    double catches = isSure ? 1 : random.nextDouble(0.8, 1);
    double criesWolf = isSure ? 0 : random.nextDouble(0, 0.1);
    sketch.step(
        opened(
            random,
            Bench.costing(
                new StepSketch(FUNCTION_TEST)
                    .proves("complaint", "lost", catches, criesWolf)
                    .build(),
                random.nextInt(0, 4))));
    int tests = random.nextInt(1, 4);
    for (int t = 0; t < tests; t++) {
      sketch.step(
          opened(
              random,
              Bench.costing(
                  new StepSketch("test-" + (t + 1))
                      .looksAt(
                          new CauseId(causes.get(random.nextInt(n))),
                          random.nextDouble(0.6, 1),
                          random.nextDouble(0, 0.4))
                      .build(),
                  random.nextInt(0, 5))));
    }
    PackDraft draft = PackDraft.of(sketch.build());
    draft.benchSwitch(
        Bench.benchSwitch("open", false, Bench.turn(5), Bench.turn(random.nextInt(0, 4)), true));
    draft.benchSwitch(
        Bench.benchSwitch("powered", true, Bench.turn(1), Bench.turn(1, Bench.on("open")), false));
    Set<Set<String>> sets = new LinkedHashSet<>();
    List<Double> masses = new ArrayList<>();
    int worlds = random.nextInt(1, 8);
    for (int w = 0; w < worlds; w++) {
      Set<String> set = new LinkedHashSet<>();
      for (String c : causes) {
        if (random.nextInt(3) == 0) {
          set.add(c);
        }
      }
      if (sets.add(set)) {
        masses.add(random.nextDouble(0.01, 1));
      }
    }
    double comeback = random.nextBoolean() ? 0 : random.nextInt(100);
    Shop shop = Bench.with(random.nextInt(5, 120), comeback, Bench.PLAIN.proof());
    return new SmallWorld(draft.build(), shop, causes, List.copyOf(sets), masses);
  }

  private static Step opened(SplittableRandom random, Step step) {
    return switch (random.nextInt(4)) {
      case 0 -> Bench.needing(step, Bench.on("open"));
      case 1 -> Bench.needing(step, Bench.on("open"), Bench.off("powered"));
      case 2 -> Bench.needing(step, Bench.on("powered"));
      default -> step;
    };
  }

  LikelyWorlds worlds() {
    return Bench.worlds(causes, sets, masses);
  }

  Situation now() {
    return Bench.reported(pack, "complaint");
  }

  Weighing look() {
    return Bench.look(pack, shop, worlds(), now());
  }

  SmallWorld with(Pack other) {
    return new SmallWorld(other, shop, causes, sets, masses);
  }

  SmallWorld with(List<Double> otherMasses) {
    return new SmallWorld(pack, shop, causes, sets, otherMasses);
  }

  SmallWorld with(Shop other) {
    return new SmallWorld(pack, other, causes, sets, masses);
  }

  /** The probabilities of the sets of causes. */
  Map<Set<String>, Double> belief() {
    double sum = masses.stream().mapToDouble(Double::doubleValue).sum();
    Map<Set<String>, Double> belief = new LinkedHashMap<>();
    for (int w = 0; w < sets.size(); w++) {
      belief.put(sets.get(w), masses.get(w) / sum);
    }
    return belief;
  }

  static EventId lost() {
    return new EventId("lost");
  }

  static Set<BenchState> needs(Step step) {
    return step.conditions().bench();
  }

  Set<SwitchId> onAtFirst() {
    return now().on();
  }
}
