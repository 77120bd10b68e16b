package org.faultwright.compile;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import org.assertj.core.data.Offset;
import org.faultwright.oracle.Answers;
import org.faultwright.oracle.Facts;
import org.faultwright.oracle.PackSketch;
import org.faultwright.oracle.StepSketch;
import org.faultwright.oracle.WorldEnumerator;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.Chance;
import org.faultwright.pack.NodeId;
import org.faultwright.pack.OutcomeId;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Sequence;
import org.faultwright.pack.StepId;

/**
 * How far a sequence gets, against its definition: each cause that is present draws where it ends,
 * and the first of all ends is what happens. Enumerated here from the definition, by present causes
 * and by where each of them ends.
 */
class SequenceProperty {

  private static final Offset<Double> EXACT = within(1e-12);
  private static final StepId START = new StepId("start-up");
  private static final List<OutcomeId> STAGES =
      List.of(new OutcomeId("dead"), new OutcomeId("wakes"), new OutcomeId("loads"), on());

  private static OutcomeId on() {
    return new OutcomeId("on");
  }

  /** Where a cause ends, in the order in which ends come; the last entry: it does not. */
  private record Ending(CauseId cause, double pPresent, double[] p) {}

  /** What is noted at each end, in order: before the key, then loops and stops stage by stage. */
  private static List<OutcomeId> noted() {
    List<OutcomeId> noted = new ArrayList<>(List.of(Sequence.BEFORE_KEY));
    STAGES.forEach(stage -> noted.addAll(List.of(Sequence.LOOPS, stage)));
    return noted;
  }

  private static List<Ending> endings(SplittableRandom random) {
    List<Ending> endings = new ArrayList<>();
    int causes = random.nextInt(1, 5);
    for (int c = 0; c < causes; c++) {
      double[] p = new double[noted().size()]; // the last end is no end: nothing stops at "on"
      double left = 1;
      for (int i = 0; i < p.length - 1; i++) {
        p[i] = random.nextInt(3) == 0 ? left * random.nextInt(1, 5) / 5 : 0;
        left -= p[i];
      }
      p[0] = Math.max(p[0], 0.01 * left);
      p[1] = Math.max(p[1], 0.01 * left);
      p[p.length - 1] = 1 - java.util.Arrays.stream(p, 0, p.length - 1).sum();
      CauseId id = new CauseId("cause-" + (char) ('a' + c));
      endings.add(new Ending(id, random.nextInt(5, 95) / 100.0, p));
    }
    return endings;
  }

  private static Sequence sequence(List<Ending> endings, double reads) {
    Map<NodeId, Chance> beforeKey = new LinkedHashMap<>();
    Map<NodeId, Map<OutcomeId, Chance>> loops = new LinkedHashMap<>();
    Map<NodeId, Map<OutcomeId, Chance>> stops = new LinkedHashMap<>();
    for (Ending e : endings) {
      beforeKey.put(e.cause(), PackSketch.chance(e.p()[0]));
      loops.put(e.cause(), new LinkedHashMap<>());
      stops.put(e.cause(), new LinkedHashMap<>());
      for (int s = 0; s < STAGES.size(); s++) {
        loops.get(e.cause()).put(STAGES.get(s), PackSketch.chance(e.p()[1 + 2 * s]));
        if (s < STAGES.size() - 1) {
          stops.get(e.cause()).put(STAGES.get(s), PackSketch.chance(e.p()[2 + 2 * s]));
        }
      }
    }
    return new Sequence(STAGES, beforeKey, stops, loops, PackSketch.chance(reads));
  }

  /** P(what happens): over what is present, and where each of those ends. */
  private static double[] pEnds(List<Ending> endings) {
    double[] p = new double[noted().size()];
    add(endings, 0, 1, p.length - 1, p);
    return p;
  }

  private static void add(List<Ending> endings, int from, double weight, int first, double[] p) {
    if (from == endings.size()) {
      p[first] += weight;
      return;
    }
    Ending e = endings.get(from);
    add(endings, from + 1, weight * (1 - e.pPresent()), first, p);
    for (int end = 0; end < e.p().length; end++) {
      add(endings, from + 1, weight * e.pPresent() * e.p()[end], Math.min(first, end), p);
    }
  }

  @Property(tries = 100)
  void outcomeIsTheFirstOfAllEnds(@ForAll long seed) {
    SplittableRandom random = new SplittableRandom(seed);
    List<Ending> endings = endings(random);
    double reads = random.nextInt(50, 100) / 100.0;
    Sequence sequence = sequence(endings, reads);
    PackSketch sketch = new PackSketch("test-family/start-up");
    endings.forEach(e -> sketch.prior(e.cause().value(), e.pPresent()));
    Pack pack = sketch.step(new StepSketch("start-up").shows(sequence.observation())).build();

    List<OutcomeId> noted = noted();
    double[] pEnds = pEnds(endings);
    Map<OutcomeId, Double> pTrue = new LinkedHashMap<>();
    for (int i = 0; i < pEnds.length; i++) {
      pTrue.merge(noted.get(i), pEnds[i], Double::sum);
    }
    int others = sequence.outcomes().size() - 1;
    Answers compiled = CompiledAnswers.of(pack, Facts.told());
    Answers worlds = WorldEnumerator.of(pack, Facts.told());
    assertThat(sequence.outcomes()).hasSize(6);
    for (OutcomeId o : sequence.outcomes()) {
      double right = pTrue.getOrDefault(o, 0.0);
      double expected = reads * right + (1 - reads) * (1 - right) / others;
      assertThat(compiled.outcomes(START).get(o)).as("%s", o).isEqualTo(expected, EXACT);
      assertThat(worlds.outcomes(START).get(o)).as("%s", o).isEqualTo(expected, EXACT);
    }
  }
}
