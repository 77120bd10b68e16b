package org.faultwright.planning;

import java.time.Duration;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import org.faultwright.casefile.Guard;
import org.faultwright.casefile.Intake;
import org.faultwright.casefile.Situation;
import org.faultwright.compile.Coordinate;
import org.faultwright.compile.LikelyWorlds;
import org.faultwright.pack.BenchState;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.ComplaintId;
import org.faultwright.pack.Condition;
import org.faultwright.pack.Effort;
import org.faultwright.pack.Goal;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Step;
import org.faultwright.pack.StepId;
import org.faultwright.pack.Switch;
import org.faultwright.pack.SwitchId;

/** What the tests of planning have at hand: steps with prices, shops, situations, worlds. */
final class Bench {

  /** A price that no sequence of repairs reaches. */
  static final double PROHIBITIVE = 1e6;

  /** One unit of money for a minute; nothing else costs anything. */
  static final Shop PLAIN = new Shop(1, 0, PROHIBITIVE, 0, 0, 0, Map.of(), new Shop.Proof(0, 1, 0));

  private Bench() {}

  static Shop sendingOnFor(double fee) {
    return new Shop(1, 0, fee, 0, 0, 0, Map.of(), PLAIN.proof());
  }

  static Shop with(double sendOnFee, double comeback, Shop.Proof proof) {
    return new Shop(1, 0, sendOnFee, 0, comeback, 0, Map.of(), proof);
  }

  // Steps.

  static Step costing(Step s, double minutes) {
    return costing(s, minutes, s.thenRepeat(), s.conditions());
  }

  static Step costing(Step s, double minutes, Optional<StepId> then, Step.Needs needs) {
    Effort effort = new Effort(Duration.ofMillis(Math.round(minutes * 60_000)), Duration.ZERO);
    return with(s, effort, then, needs);
  }

  static Step thenRepeat(Step s, String then) {
    return with(s, s.effort(), Optional.of(new StepId(then)), s.conditions());
  }

  private static Step with(Step s, Effort effort, Optional<StepId> then, Step.Needs needs) {
    return new Step(
        s.id(),
        s.title(),
        s.how(),
        effort,
        s.consumables(),
        needs,
        s.provokes(),
        s.shows(),
        s.proves(),
        s.pinTable(),
        s.changes(),
        s.swap(),
        s.mayCause(),
        then,
        s.repeatable(),
        s.copies(),
        s.dataRisk(),
        s.limits(),
        s.cautions(),
        s.does(),
        s.boards(),
        s.compares());
  }

  static Step needing(Step s, BenchState... bench) {
    Step.Needs n = s.conditions();
    Set<BenchState> all = new LinkedHashSet<>(n.bench());
    all.addAll(List.of(bench));
    return needing(
        s,
        new Step.Needs(all, n.working(), n.onlyIf(), n.after(), n.tools(), n.consent(), n.skill()));
  }

  static Step needing(Step s, Step.Needs needs) {
    return costing(s, s.effort().handsMinutes(), s.thenRepeat(), needs);
  }

  // Switches.

  static BenchState on(String id) {
    return new BenchState(new SwitchId(id), true);
  }

  static BenchState off(String id) {
    return new BenchState(new SwitchId(id), false);
  }

  static Switch.Turn turn(double minutes, BenchState... needs) {
    return new Switch.Turn(
        new Effort(Duration.ofMillis(Math.round(minutes * 60_000)), Duration.ZERO),
        Set.of(needs),
        Set.of(),
        Set.of(),
        Set.of(),
        0);
  }

  static Switch benchSwitch(
      String id, boolean startsOn, Switch.Turn on, Switch.Turn off, boolean closedWhenOff) {
    return new Switch(
        new SwitchId(id),
        id,
        new SwitchId("not-" + id),
        startsOn,
        Optional.ofNullable(on),
        Optional.ofNullable(off),
        Set.of(),
        closedWhenOff);
  }

  // Situations and permissions.

  /** The complaints are reported, the switches are as they start, nothing has been done. */
  static Situation reported(Pack pack, String... complaints) {
    Map<ComplaintId, Boolean> lost = new LinkedHashMap<>();
    for (String c : complaints) {
      lost.put(new ComplaintId(c), true);
    }
    Set<SwitchId> on = new LinkedHashSet<>();
    pack.switches().values().stream().filter(Switch::startsOn).forEach(s -> on.add(s.id()));
    return new Situation(
        Map.of(),
        Map.of(),
        Map.of(),
        Map.of(),
        on,
        Set.of(),
        lost,
        Map.of(),
        Goal.WORKING,
        Optional.empty());
  }

  /** Everything is allowed that the pack has. */
  static Permissions everything(Pack pack) {
    Map<StepId, Guard> steps = new LinkedHashMap<>();
    pack.steps().keySet().forEach(s -> steps.put(s, new Guard(new Condition.Always())));
    return new Permissions(steps, turns(pack));
  }

  static Map<BenchState, Guard> turns(Pack pack) {
    Map<BenchState, Guard> turns = new LinkedHashMap<>();
    for (Switch s : pack.switches().values()) {
      s.turnOn().ifPresent(t -> turns.put(new BenchState(s.id(), true), always()));
      s.turnOff().ifPresent(t -> turns.put(new BenchState(s.id(), false), always()));
    }
    return turns;
  }

  static Guard always() {
    return new Guard(new Condition.Always());
  }

  /** The same permissions, but for one step. */
  static Permissions with(Permissions all, String step, Condition condition) {
    Map<StepId, Guard> steps = new LinkedHashMap<>(all.steps());
    steps.put(new StepId(step), new Guard(condition));
    return new Permissions(steps, all.turns());
  }

  static Permissions without(Permissions all, String step) {
    Map<StepId, Guard> steps = new LinkedHashMap<>(all.steps());
    steps.remove(new StepId(step));
    return new Permissions(steps, all.turns());
  }

  static final Intake INTAKE = Intake.PLAIN;

  static Intake worth(double deviceValue) {
    return new Intake(
        Optional.empty(),
        Goal.WORKING,
        Set.of(),
        Set.of(),
        OptionalDouble.empty(),
        OptionalDouble.of(deviceValue),
        false,
        Set.of(),
        Step.Skill.BOARD);
  }

  // Worlds.

  /** One world for each cause, in which it alone is present. Probabilities are normalised. */
  static LikelyWorlds single(Map<String, Double> p) {
    List<String> ids = new ArrayList<>(p.keySet());
    ids.sort((a, b) -> Double.compare(p.get(b), p.get(a)));
    List<Set<String>> sets = new ArrayList<>();
    List<Double> masses = new ArrayList<>();
    for (String id : ids) {
      sets.add(Set.of(id));
      masses.add(p.get(id));
    }
    return worlds(List.copyOf(p.keySet()), sets, masses);
  }

  /** One world for each set of causes, which alone are present. Probabilities are normalised. */
  static LikelyWorlds worlds(List<String> causes, List<Set<String>> sets, List<Double> masses) {
    double sum = masses.stream().mapToDouble(Double::doubleValue).sum();
    List<Integer> order = new ArrayList<>();
    for (int w = 0; w < sets.size(); w++) {
      order.add(w);
    }
    order.sort((a, b) -> Double.compare(masses.get(b), masses.get(a)));
    byte[][] bits = new byte[sets.size()][causes.size()];
    double[] p = new double[sets.size()];
    for (int w = 0; w < p.length; w++) {
      p[w] = masses.get(order.get(w)) / sum;
      for (int c = 0; c < causes.size(); c++) {
        bits[w][c] = (byte) (sets.get(order.get(w)).contains(causes.get(c)) ? 1 : 0);
      }
    }
    List<Coordinate> coordinates = new ArrayList<>();
    causes.forEach(c -> coordinates.add(new Coordinate.Present(new CauseId(c))));
    return new LikelyWorlds(coordinates, bits, p, 0);
  }

  static Weighing look(Pack pack, Shop shop, LikelyWorlds worlds, Situation now) {
    return Planner.of(DeviceModel.of(pack), shop).look(worlds, now, INTAKE, everything(pack));
  }

  static Worth worthOf(Weighing weighing, String test) {
    return weighing.tests().stream()
        .filter(w -> w.step().value().equals(test))
        .findFirst()
        .orElseThrow();
  }
}
