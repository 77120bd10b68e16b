package org.faultwright.oracle;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.TreeSet;
import org.faultwright.measurement.Dimension;
import org.faultwright.measurement.PairModel;
import org.faultwright.measurement.Quantity;
import org.faultwright.measurement.Reference;
import org.faultwright.pack.Basis;
import org.faultwright.pack.Chance;
import org.faultwright.pack.Comparison;
import org.faultwright.pack.ModeId;
import org.faultwright.pack.NodeId;
import org.faultwright.pack.Observation;
import org.faultwright.pack.OutcomeId;
import org.faultwright.pack.Point;
import org.faultwright.pack.PointId;
import org.faultwright.pack.Sequence;
import org.faultwright.pack.StateId;

/** Draws the steps, parts and symptoms of a random pack. */
final class RandomSteps {

  private final Dice dice;
  private final PackSketch sketch;
  private final List<String> causes;
  private final List<NodeId> nodes;

  RandomSteps(Dice dice, PackSketch sketch, List<String> causes, List<NodeId> nodes) {
    this.dice = dice;
    this.sketch = sketch;
    this.causes = causes;
    this.nodes = nodes;
  }

  void add() {
    tests();
    functionTest();
    if (dice.has(PackFeature.SYMPTOMS)) {
      int howMany = dice.from(0, 2);
      for (int s = 0; s < howMany; s++) {
        String id = "symptom-" + (char) ('a' + s);
        sketch.symptom(id, ofTwoOutcomes(), dice.p());
        if (dice.has(PackFeature.COMES_AND_GOES, 0.5)) {
          sketch.provokes(id, RandomPacks.BENT);
        }
      }
    }
    if (dice.has(PackFeature.READINGS)) {
      pinTable();
    }
    List<String> repairs = repairs();
    if (dice.has(PackFeature.SWAPS, 0.6)) {
      swap(repairs);
    }
  }

  private void tests() {
    int howMany = dice.from(1, 3);
    for (int t = 0; t < howMany; t++) {
      StepSketch step = new StepSketch("test-" + (char) ('a' + t)).shows(observation());
      boolean inspects = dice.has(PackFeature.HIDES, 0.3);
      sketch.step(copies(inspects ? step.provokes(ModeId.INSPECTION) : provoking(step)));
    }
  }

  private StepSketch provoking(StepSketch step) {
    return dice.has(PackFeature.COMES_AND_GOES, 0.5) ? step.provokes(RandomPacks.BENT) : step;
  }

  private StepSketch copies(StepSketch step) {
    return dice.has(PackFeature.UNSURE_COPIES, 0.5)
        ? step.copies(dice.with(0.3) ? 0 : dice.p())
        : step;
  }

  private void functionTest() {
    StepSketch step =
        new StepSketch("function-test")
            .proves(RandomPacks.COMPLAINT, "lost-a", dice.large(), dice.small());
    sketch.step(copies(provoking(step)));
  }

  private Observation observation() {
    if (dice.has(PackFeature.STATES, 0.3)) {
      return ofStates();
    } else if (dice.has(PackFeature.TABLES, 0.3)) {
      return ofTable();
    } else if (dice.has(PackFeature.SEQUENCES, 0.3)) {
      return ofSequence();
    }
    return ofTwoOutcomes();
  }

  private Observation ofTwoOutcomes() {
    if (dice.has(PackFeature.TESTS_OF_SEVERAL, 0.4)) {
      double criesWolf = dice.has(PackFeature.EXTREMES, 0.3) ? 0 : dice.between(0.01, 0.3);
      Map<NodeId, Chance> rates = new LinkedHashMap<>();
      dice.someOf(nodes, 2).forEach(n -> rates.put(n, PackSketch.chance(dice.between(0.3, 1))));
      return new Observation.OfNodes(
          rates, PackSketch.chance(criesWolf), OutcomeId.POSITIVE, OutcomeId.NEGATIVE);
    }
    return new Observation.OfNode(
        dice.oneOf(nodes),
        PackSketch.chance(dice.large()),
        PackSketch.chance(dice.small()),
        OutcomeId.POSITIVE,
        OutcomeId.NEGATIVE);
  }

  private Observation ofStates() {
    List<OutcomeId> outcomes = outcomes();
    List<Observation.TrueState> states = new ArrayList<>();
    Map<StateId, Map<OutcomeId, Chance>> rows = new LinkedHashMap<>();
    for (int s = 0; s < 2; s++) {
      StateId id = new StateId("state-" + (char) ('a' + s));
      states.add(new Observation.TrueState(id, triggers()));
      rows.put(id, row(outcomes));
    }
    rows.put(StateId.NORMAL, row(outcomes));
    return new Observation.OfStates(states, outcomes, rows);
  }

  private Map<NodeId, Chance> triggers() {
    Map<NodeId, Chance> triggers = new LinkedHashMap<>();
    dice.someOf(nodes, dice.from(1, 2))
        .forEach(n -> triggers.put(n, PackSketch.chance(dice.strength())));
    return triggers;
  }

  private List<OutcomeId> outcomes() {
    List<OutcomeId> outcomes = new ArrayList<>();
    int howMany = dice.from(2, 3);
    for (int o = 0; o < howMany; o++) {
      outcomes.add(new OutcomeId("outcome-" + (char) ('a' + o)));
    }
    return outcomes;
  }

  private Map<OutcomeId, Chance> row(List<OutcomeId> outcomes) {
    Map<OutcomeId, Chance> row = new LinkedHashMap<>();
    double[] p = dice.distribution(outcomes.size());
    for (int o = 0; o < p.length; o++) {
      row.put(outcomes.get(o), PackSketch.chance(p[o]));
    }
    return row;
  }

  private Observation ofSequence() {
    List<OutcomeId> stages = List.of(new OutcomeId("begins"), new OutcomeId("runs"));
    Map<NodeId, Chance> beforeKey = new LinkedHashMap<>();
    Map<NodeId, Map<OutcomeId, Chance>> stops = new LinkedHashMap<>();
    Map<NodeId, Map<OutcomeId, Chance>> loops = new LinkedHashMap<>();
    for (NodeId node : dice.someOf(nodes, 2)) {
      double[] p = dice.distribution(4);
      stops.put(node, Map.of(stages.get(0), PackSketch.chance(p[0])));
      if (dice.with(0.5)) {
        loops.put(node, Map.of(stages.get(dice.from(0, 1)), PackSketch.chance(p[1])));
      }
      if (dice.with(0.5)) {
        beforeKey.put(node, PackSketch.chance(p[2]));
      }
    }
    Chance reads = PackSketch.chance(dice.large());
    return new Sequence(stages, beforeKey, stops, loops, reads).observation();
  }

  private Observation ofTable() {
    List<NodeId> given = dice.someOf(nodes, dice.from(1, 2));
    List<OutcomeId> outcomes = outcomes();
    Map<List<Boolean>, List<Chance>> rows = new LinkedHashMap<>();
    for (int r = 0; r < 1 << given.size(); r++) {
      List<Boolean> when = new ArrayList<>();
      for (int i = 0; i < given.size(); i++) {
        when.add((r >> i & 1) == 1);
      }
      rows.put(List.copyOf(when), List.copyOf(row(outcomes).values()));
    }
    return new Observation.OfTable(given, outcomes, rows);
  }

  private void pinTable() {
    StepSketch step = new StepSketch("pin-table");
    if (dice.with(0.4)) {
      step.shows(observation());
    }
    List<Point> points = new ArrayList<>();
    int howMany = dice.from(1, 2);
    for (int p = 0; p < howMany; p++) {
      points.add(point("point-" + (char) ('a' + p)));
      step.reads(points.get(p));
    }
    if (dice.with(0.7)) {
      sketch.instrument(
          "meter",
          dice.between(0.2, 1.5),
          dice.has(PackFeature.REFERENCES, 0.4)
              ? Optional.of(new Quantity(dice.between(1.5, 3.5), Dimension.VOLTAGE))
              : Optional.empty());
      step.instrument("meter");
    }
    sketch.step(copies(provoking(step)));
    if (howMany == 2 && dice.has(PackFeature.COMPARED, 0.6)) {
      double differsBy = dice.between(0.1, 1.3);
      if (!(points.get(0).reference() instanceof Reference.Around a)
          || !(points.get(1).reference() instanceof Reference.Around b)
          || !PairModel.makesSense(a, b, differsBy)) {
        return;
      }
      Comparison comparison =
          new Comparison(new PointId("point-a"), new PointId("point-b"), differsBy, false);
      sketch.step(
          copies(provoking(new StepSketch("compare-points").compares(comparison, triggers()))));
    }
  }

  /** A point that lies at 1 V when it is normal, at 2 V and 3 V in its states, overlapping. */
  private Point point(String id) {
    List<Point.ReadingState> states = new ArrayList<>();
    int howMany = dice.from(1, 2);
    for (int s = 0; s < howMany; s++) {
      states.add(
          new Point.ReadingState(
              new StateId("state-" + (char) ('a' + s)), triggers(), Optional.of(reference(2 + s))));
    }
    return new Point(
        new PointId(id),
        id,
        Optional.empty(),
        reference(1),
        new Basis.Invented(),
        states,
        Set.of());
  }

  private Reference reference(double volts) {
    if (!dice.has(PackFeature.REFERENCES, 0.5)) {
      return new Reference.Around(Dimension.VOLTAGE, volts, 1);
    }
    return switch (dice.from(0, 3)) {
      case 0 -> Reference.Around.predicting(Dimension.VOLTAGE, samples(volts));
      case 1 -> Reference.Within.ofFactor(Dimension.VOLTAGE, volts, dice.between(1.2, 3));
      case 2 ->
          new Reference.Within(
              Dimension.VOLTAGE, OptionalDouble.of(volts - 0.5), OptionalDouble.empty());
      default ->
          new Reference.Within(
              Dimension.VOLTAGE, OptionalDouble.empty(), OptionalDouble.of(volts + 0.5));
    };
  }

  private List<Double> samples(double volts) {
    List<Double> samples = new ArrayList<>(List.of(volts - 0.1)); // not all equal
    int more = dice.from(1, 4);
    for (int i = 0; i < more; i++) {
      samples.add(volts + dice.between(0, 0.3));
    }
    return samples;
  }

  private List<String> repairs() {
    List<String> repairs = new ArrayList<>();
    int howMany = dice.has(PackFeature.REPAIRS) ? dice.from(1, 2) : 0;
    for (int r = 0; r < howMany; r++) {
      String id = "repair-" + (char) ('a' + r);
      StepSketch step = new StepSketch(id);
      for (String cause : dice.someOf(causes, dice.from(1, 2))) {
        step.changes(cause, dice.p(), dice.has(PackFeature.HIDES, 0.5) ? dice.p() : 0);
      }
      if (dice.has(PackFeature.REPEATABLE, 0.4)) {
        step.repeatable();
      }
      if (dice.has(PackFeature.HARMS, 0.4)) {
        step.mayCause(dice.oneOf(causes), dice.small());
      }
      if (dice.with(0.2)) {
        step.shows(observation());
      }
      sketch.step(step);
      repairs.add(id);
    }
    if (dice.has(PackFeature.HARMS, 0.4)) {
      sketch.step(
          new StepSketch("risky-test")
              .shows(observation())
              .mayCause(dice.oneOf(causes), dice.small()));
    }
    return repairs;
  }

  private void swap(List<String> repairs) {
    Set<String> carried = new TreeSet<>(dice.someOf(causes, dice.from(1, 2)));
    sketch.part(
        "part",
        carried,
        repairs.isEmpty() || dice.with(0.5) ? new String[0] : new String[] {repairs.get(0)});
    StepSketch step = new StepSketch("swap-part").swaps("part", dice.large());
    if (dice.with(0.3)) {
      step.changes(dice.oneOf(causes), dice.between(0.2, 0.9), 0);
    }
    sketch.step(step);
  }
}
