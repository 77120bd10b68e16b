package org.faultwright.benchmarks;

import java.time.Duration;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.SplittableRandom;
import org.faultwright.casefile.Guard;
import org.faultwright.casefile.Intake;
import org.faultwright.casefile.Situation;
import org.faultwright.compile.Coordinate;
import org.faultwright.compile.LikelyWorlds;
import org.faultwright.pack.Basis;
import org.faultwright.pack.Cause;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.Chance;
import org.faultwright.pack.Change;
import org.faultwright.pack.Complaint;
import org.faultwright.pack.ComplaintId;
import org.faultwright.pack.Condition;
import org.faultwright.pack.Effort;
import org.faultwright.pack.Event;
import org.faultwright.pack.EventId;
import org.faultwright.pack.Goal;
import org.faultwright.pack.ModeId;
import org.faultwright.pack.NodeId;
import org.faultwright.pack.Observation;
import org.faultwright.pack.OutcomeId;
import org.faultwright.pack.Pack;
import org.faultwright.pack.PackDraft;
import org.faultwright.pack.PackId;
import org.faultwright.pack.StateId;
import org.faultwright.pack.Step;
import org.faultwright.pack.StepId;
import org.faultwright.planning.DeviceModel;
import org.faultwright.planning.Permissions;
import org.faultwright.planning.Plan;
import org.faultwright.planning.PlanLimits;
import org.faultwright.planning.Planner;
import org.faultwright.planning.Shop;

/**
 * Something to plan, drawn at random: causes of which each loses the function, tests that look at
 * two to four of them, and repairs that share the causes out among them. A function test catches 19
 * of 20.
 */
final class PlanProblem {

  private static final ComplaintId COMPLAINT = new ComplaintId("does-not-work");

  /** What is asked for. */
  record Shape(
      int causes, int tests, int repairs, boolean threeOutcomes, boolean sure, int atOnce) {
    @Override
    public String toString() {
      return causes
          + " causes, "
          + tests
          + " tests of "
          + (threeOutcomes ? "three" : "two")
          + " outcomes, "
          + repairs
          + (sure ? " sure" : " unsure")
          + " repairs, up to "
          + atOnce
          + " faults at once";
    }
  }

  private final Shape shape;
  private final SplittableRandom random;
  private final Pack pack;
  private final LikelyWorlds worlds;
  private final DeviceModel device;

  PlanProblem(Shape shape, long seed) {
    this.shape = shape;
    random = new SplittableRandom(seed);
    PackDraft draft = new PackDraft(new PackId("drawn", "plan-" + shape.causes));
    draft.invented = true;
    double[] odds = new double[shape.causes];
    Map<NodeId, Chance> inputs = new LinkedHashMap<>();
    for (int c = 0; c < shape.causes; c++) {
      double p = 0.02 + 0.1 * random.nextDouble();
      odds[c] = p / (1 - p);
      draft.cause(cause(c, p));
      inputs.put(id(c), chance(1));
    }
    EventId top = new EventId("no-function");
    draft.event(new Event(top, top.value(), new Event.Combination.Any(), inputs, chance(0)));
    draft.complaint(
        new Complaint(COMPLAINT, "Does not work", top, chance(0.01), chance(0.05), false));
    for (int t = 0; t < shape.tests; t++) {
      draft.step(test(t));
    }
    for (int r = 0; r < shape.repairs; r++) {
      draft.step(repair(r));
    }
    draft.step(functionTest(top));
    pack = draft.build();
    worlds = worlds(odds);
    device = DeviceModel.of(pack);
  }

  private static CauseId id(int cause) {
    return new CauseId("cause-" + cause);
  }

  private static Chance chance(double p) {
    return Chance.of(p, new Basis.Invented());
  }

  private static Cause cause(int number, double p) {
    return new Cause(
        id(number),
        "Cause " + number,
        Cause.Kind.FAULT,
        new Cause.Likelihood.Prior(chance(p)),
        Optional.empty(),
        Map.of(),
        Map.of(),
        Map.of(),
        false);
  }

  private Step test(int number) {
    Map<NodeId, Chance> seen = new LinkedHashMap<>();
    int looksAt = Math.min(shape.causes, 2 + random.nextInt(3));
    while (seen.size() < looksAt) {
      seen.put(id(random.nextInt(shape.causes)), chance(0.8 + 0.2 * random.nextDouble()));
    }
    Observation shows =
        shape.threeOutcomes
            ? threeOutcomes(List.copyOf(seen.keySet()))
            : new Observation.OfNodes(seen, chance(0.03), OutcomeId.POSITIVE, OutcomeId.NEGATIVE);
    return step(
        "test-" + number, 1 + random.nextInt(5), Optional.of(shows), Optional.empty(), Map.of());
  }

  private static Observation threeOutcomes(List<NodeId> nodes) {
    StateId near = new StateId("near");
    StateId far = new StateId("far");
    List<OutcomeId> outcomes =
        List.of(new OutcomeId("low"), new OutcomeId("high"), new OutcomeId("as-it-should"));
    Map<StateId, Map<OutcomeId, Chance>> rows = new LinkedHashMap<>();
    rows.put(near, row(outcomes, 0.85, 0.1, 0.05));
    rows.put(far, row(outcomes, 0.1, 0.8, 0.1));
    rows.put(StateId.NORMAL, row(outcomes, 0.02, 0.03, 0.95));
    int half = (nodes.size() + 1) / 2;
    return new Observation.OfStates(
        List.of(
            new Observation.TrueState(near, triggers(nodes.subList(0, half))),
            new Observation.TrueState(far, triggers(nodes.subList(half, nodes.size())))),
        outcomes,
        rows);
  }

  private static Map<NodeId, Chance> triggers(List<NodeId> nodes) {
    Map<NodeId, Chance> triggers = new LinkedHashMap<>();
    nodes.forEach(n -> triggers.put(n, chance(1)));
    return triggers;
  }

  private static Map<OutcomeId, Chance> row(List<OutcomeId> outcomes, double... p) {
    Map<OutcomeId, Chance> row = new LinkedHashMap<>();
    for (int i = 0; i < p.length; i++) {
      row.put(outcomes.get(i), chance(p[i]));
    }
    return row;
  }

  /** Every cause has a repair; some have a second. */
  private Step repair(int number) {
    Map<CauseId, Change> changes = new LinkedHashMap<>();
    for (int c = 0; c < shape.causes; c++) {
      boolean isSecond = random.nextInt(4 * shape.repairs) == 0;
      if (c % shape.repairs == number || isSecond) {
        double cures = shape.sure ? 1 : 0.7 + 0.3 * random.nextDouble();
        changes.put(id(c), new Change(chance(cures), chance(0)));
      }
    }
    return step(
        "repair-" + number, 10 + random.nextInt(25), Optional.empty(), Optional.empty(), changes);
  }

  private static Step functionTest(EventId top) {
    return step(
        "function-test",
        2,
        Optional.of(
            new Observation.OfNode(
                top, chance(0.95), chance(0.01), OutcomeId.POSITIVE, OutcomeId.NEGATIVE)),
        Optional.of(COMPLAINT),
        Map.of());
  }

  private static Step step(
      String id,
      int minutes,
      Optional<Observation> shows,
      Optional<ComplaintId> proves,
      Map<CauseId, Change> changes) {
    return new Step(
        new StepId(id),
        id,
        "",
        new Effort(Duration.ofMinutes(minutes), Duration.ZERO),
        0,
        Step.Needs.NOTHING,
        ModeId.AT_REST,
        shows,
        proves,
        Optional.empty(),
        changes,
        Optional.empty(),
        List.of(),
        Optional.empty(),
        false,
        1,
        false,
        List.of(),
        Set.of(),
        Set.of(),
        Set.of(),
        Optional.empty());
  }

  /** Every set of causes up to so many at once, one at least. */
  private LikelyWorlds worlds(double[] odds) {
    List<int[]> sets = new ArrayList<>();
    for (int a = 0; a < shape.causes; a++) {
      sets.add(new int[] {a});
      for (int b = a + 1; b < shape.causes && shape.atOnce > 1; b++) {
        sets.add(new int[] {a, b});
        for (int c = b + 1; c < shape.causes && shape.atOnce > 2; c++) {
          sets.add(new int[] {a, b, c});
        }
      }
    }
    sets.sort((x, y) -> Double.compare(product(odds, y), product(odds, x)));
    double sum = sets.stream().mapToDouble(s -> product(odds, s)).sum();
    byte[][] bits = new byte[sets.size()][shape.causes];
    double[] p = new double[sets.size()];
    for (int w = 0; w < p.length; w++) {
      p[w] = product(odds, sets.get(w)) / sum;
      for (int c : sets.get(w)) {
        bits[w][c] = 1;
      }
    }
    List<Coordinate> coordinates = new ArrayList<>();
    for (int c = 0; c < shape.causes; c++) {
      coordinates.add(new Coordinate.Present(id(c)));
    }
    return new LikelyWorlds(coordinates, bits, p, 0);
  }

  private static double product(double[] odds, int[] set) {
    double product = 1;
    for (int c : set) {
      product *= odds[c];
    }
    return product;
  }

  /** Plans afresh: nothing is kept from one plan to the next but the model of the device. */
  Plan plan(PlanLimits limits) {
    Map<StepId, Guard> steps = new LinkedHashMap<>();
    pack.steps().keySet().forEach(s -> steps.put(s, new Guard(new Condition.Always())));
    Situation now =
        new Situation(
            Map.of(),
            Map.of(),
            Map.of(),
            Map.of(),
            new LinkedHashSet<>(),
            Set.of(),
            Map.of(COMPLAINT, true),
            Map.of(),
            Goal.WORKING,
            Optional.empty());
    return Planner.of(device, Shop.ORDINARY)
        .plan(worlds, now, Intake.PLAIN, new Permissions(steps, Map.of()), limits);
  }
}
