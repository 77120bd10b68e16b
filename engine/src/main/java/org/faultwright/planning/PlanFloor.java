package org.faultwright.planning;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.faultwright.casefile.Guard;
import org.faultwright.casefile.Situation;
import org.faultwright.pack.Step;
import org.faultwright.pack.StepId;
import org.faultwright.planning.RepairTable.Spread;

/**
 * What a job costs at least, whatever is done: what it would cost if the world were known, and
 * known again after each step.
 *
 * <p>In a known world only its troubles count: causes that lose a function in use as long as they
 * are there, whatever else is. A job ends by its end without repair, by a comeback, or once every
 * trouble has been cured; each cure has its price, its least function test included, and succeeds
 * with its probability by itself. What is left to choose is the order of the few repairs that cure
 * one of these troubles, which is worked out by trying all; with one trouble, the order is by price
 * per probability of a cure and needs no trying. On the bench the least way to the first of these
 * repairs and from there to a closed device is counted, or else closing alone.
 *
 * <p>This is below the cost of every policy in that world, and so is its mean over the worlds,
 * since a policy that does not know the world is one of those that may.
 */
final class PlanFloor {

  private static final int NONE = -1;

  /** The bench is taken to be wherever it should be. */
  static final int ANYWHERE = -1;

  /** Troubles that are looked at together. */
  private static final int MOST_TROUBLES = 4;

  /** Repairs of these troubles that are tried in every order. */
  private static final int MOST_REPAIRS = 9;

  private final DeviceModel device;
  private final FaultLogic logic;
  private final Costs costs;
  private final PlanWorlds worlds;
  private final Permissions permissions;
  private final PlanScene first;
  private final boolean sameTurns;
  private final double end;

  /** The repairs that may be planned, by step number. */
  private final int[] repairs;

  /** For each of them what it costs at least with its function tests, wherever the bench is. */
  private final double[] price;

  /** The least that it costs to see the function tests pass, by themselves or after a repair. */
  private double leastPass = Double.POSITIVE_INFINITY;

  private final boolean[] touched;
  private final boolean[] mayCause;
  private final Look look;
  private final double[] always;
  private final Map<CaseModel, List<int[]>> troubles = new HashMap<>();
  private final Map<List<Object>, Known> ofWorlds = new HashMap<>();
  private final Map<Causes, Together> together = new HashMap<>();
  private final Map<Integer, Boolean> closing = new HashMap<>();
  private final OnWorlds nothing;

  /**
   * Floors of a plan.
   *
   * @param costs what things cost if every turn of a switch were permitted
   * @param first the scene in which the plan begins
   */
  PlanFloor(
      DeviceModel device,
      Costs costs,
      PlanScenes scenes,
      Permissions permissions,
      PlanScene first) {
    this.device = device;
    this.first = first;
    this.logic = device.logic;
    this.costs = costs;
    this.worlds = scenes.worlds;
    nothing = numbers(world -> 0);
    this.permissions = permissions;
    end = Math.min(costs.exitFee(), costs.comeback);
    look = new Look(logic);
    always = new double[logic.causeCount()];
    Arrays.fill(always, 1);
    touched = new boolean[logic.causeCount()];
    mayCause = new boolean[logic.causeCount()];
    for (Effects e : device.effects) {
      Arrays.stream(e.touched).forEach(c -> touched[c] = true);
      e.mayCause().forEach(c -> mayCause[c] = true);
    }
    repairs = scenes.inPlan.stream().mapToInt(Integer::intValue).toArray();
    sameTurns =
        permissions.turns().values().stream()
            .allMatch(g -> asksForTheBenchAlone(new GuardReferences(g.condition())));
    price = new double[repairs.length];
    for (int s = 0; s < device.steps.size(); s++) {
      if (device.steps.get(s).proves().isPresent()) {
        leastPass = Math.min(leastPass, costs.ofStep(s));
      }
    }
    for (int r = 0; r < repairs.length; r++) {
      price[r] = costs.ofStep(repairs[r]) + leastProof(device.steps.get(repairs[r]));
      leastPass = Math.min(leastPass, price[r]);
    }
  }

  // What function tests cost at least.

  private double leastProof(Step repair) {
    double least = Double.POSITIVE_INFINITY;
    if (repair.thenRepeat().isPresent()) {
      int repeat = device.number(repair.thenRepeat().get());
      if (isSurelyUsable(repeat)) {
        return costs.ofStep(repeat);
      }
      least = costs.ofStep(repeat);
    }
    for (Object complaint : first.now.lost().keySet()) {
      boolean isSure = false;
      for (int s = 0; s < device.steps.size() && !isSure; s++) {
        if (device.steps.get(s).proves().filter(complaint::equals).isPresent()) {
          least = Math.min(least, costs.ofStep(s));
          isSure = isSurelyUsable(s);
        }
      }
      least = isSure ? least : Math.min(least, costs.proofCost);
    }
    for (int s = 0; s < device.steps.size(); s++) {
      boolean isOfAnother =
          device.steps.get(s).proves().filter(c -> !first.now.lost().containsKey(c)).isPresent();
      least = isOfAnother ? Math.min(least, Math.min(costs.ofStep(s), costs.proofCost)) : least;
    }
    return least;
  }

  /** Whether nothing that is planned can keep a test from being carried out. */
  private boolean isSurelyUsable(int test) {
    StepId id = device.steps.get(test).id();
    Guard guard = permissions.steps().get(id);
    if (guard == null) {
      return false;
    }
    GuardReferences asked = new GuardReferences(guard.condition());
    boolean isReady =
        device.steps.get(test).conditions().bench().isEmpty()
            || sameTurns && first.costs.leadsSurely(first.bench, test);
    return isReady
        && asksForTheBenchAlone(asked)
        && asked.switches.isEmpty()
        && guard.holdsIn(first.now);
  }

  private static boolean asksForTheBenchAlone(GuardReferences asked) {
    return asked.steps.isEmpty() && asked.points.isEmpty() && asked.complaints.isEmpty();
  }

  // The floor.

  /** The floors of worlds in a scene, with the bench in some state. */
  OnWorlds of(PlanScene scene, int bench) {
    return known(scene.model, done(scene.now), bench, false).floor;
  }

  /** The floors of what follows a step of a scene, without what the step costs. */
  OnWorlds after(PlanScene scene, PlanScene.Step step, int bench) {
    long done = done(scene.now);
    if (step.repair().isPresent()) {
      int r = Arrays.binarySearch(repairs, step.step());
      return known(scene.model, then(done, r), bench, true).after(r);
    }
    return afterTest(scene.model, done, step.step(), step.test().orElseThrow().sight(), bench);
  }

  /** The floors of what follows a test, without what it costs. */
  OnWorlds afterTest(CaseModel model, long done, int test, Sight sight, int bench) {
    Known fails = known(model, done, bench, false);
    Step step = device.steps.get(test);
    if (step.proves().isEmpty() && !step.isAttempt()) {
      return fails.floor;
    }
    boolean ends = step.proves().filter(model.lost::contains).isPresent();
    if (ends && model.lost.size() > 1) {
      return nothing;
    }
    OnWorlds passes = ends ? known(model, done, bench, true).floor : fails.floor;
    PlanWorlds.Move move = worlds.test(test, sight);
    return fails.after.computeIfAbsent(
        sight,
        k ->
            numbers(
                world -> {
                  double[] sum = new double[1];
                  move.each(
                      world,
                      (y, to, p) -> sum[0] += p * (y == sight.pass ? passes : fails.floor).at(to));
                  return sum[0];
                }));
  }

  private OnWorlds numbers(java.util.function.IntToDoubleFunction of) {
    return new OnWorlds(worlds.identity(), of);
  }

  private Known known(CaseModel model, long done, int bench, boolean proved) {
    return ofWorlds.computeIfAbsent(
        List.of(model, done, bench, proved), k -> new Known(model, done, bench, proved));
  }

  /** The floors of worlds where the same repairs are left and the bench is the same. */
  private final class Known {
    private final CaseModel model;
    private final long done;
    private final int bench;
    private final boolean proved;
    private final OnWorlds floor = numbers(this::world);
    private final Map<Object, OnWorlds> after = new HashMap<>();

    Known(CaseModel model, long done, int bench, boolean proved) {
      this.model = model;
      this.done = done;
      this.bench = bench;
      this.proved = proved;
    }

    private double world(int world) {
      Spread rows = rows(world);
      double sum = 0;
      for (int i = 0; i < rows.states().length; i++) {
        sum += rows.p()[i] * of(trouble(rows.states()[i]), lost(rows.states()[i]));
      }
      return sum;
    }

    private Spread rows(int world) {
      return model.tree.rowsOf(model.showing(worlds.world(world)).future);
    }

    private int[] trouble(int row) {
      return troubles(model, model.tree.stateOf(row));
    }

    private boolean lost(int row) {
      return model.tree.lost(row) > 0;
    }

    /** What follows at least after a repair, which is done by now, on a world as it was before. */
    OnWorlds after(int repair) {
      return after.computeIfAbsent(repair, r -> numbers(world -> after(world, repair)));
    }

    private double after(int world, int repair) {
      Spread rows = rows(world);
      double sum = 0;
      for (int i = 0; i < rows.states().length; i++) {
        int[] there = trouble(rows.states()[i]);
        double least =
            there.length == 0
                ? Math.min(of(there, false), of(there, lost(rows.states()[i])))
                : afterCures(there, repair, 0, new int[0]);
        sum += rows.p()[i] * least;
      }
      return sum;
    }

    private double afterCures(int[] there, int repair, int at, int[] left) {
      if (at == there.length) {
        return of(left, left.length > 0);
      }
      double stays = device.effects[repairs[repair]].pStays(there[at]);
      int[] more = Arrays.copyOf(left, left.length + 1);
      more[left.length] = there[at];
      return (stays > 0 ? stays * afterCures(there, repair, at + 1, more) : 0)
          + (stays < 1 ? (1 - stays) * afterCures(there, repair, at + 1, left) : 0);
    }

    private double of(int[] there, boolean lost) {
      // repairs that are done and would not help count for nothing
      Together all = together.computeIfAbsent(new Causes(there), Together::new);
      return all.known.computeIfAbsent(
          new Case(there.length == 0 ? done : done & all.helpful, bench, proved, lost),
          k -> PlanFloor.this.of(there, lost, done, bench, proved));
    }
  }

  /** Causes, as a key of a map. */
  private record Causes(int[] of) {
    @Override
    public boolean equals(Object other) {
      return other instanceof Causes c && Arrays.equals(of, c.of);
    }

    @Override
    public int hashCode() {
      return Arrays.hashCode(of);
    }
  }

  private record Case(long done, int bench, boolean proved, boolean lost) {}

  /** Troubles that are there together, and what they cost at least. */
  private final class Together {
    /** The repairs that help with any of them, as bits. */
    final long helpful;

    final Map<Case, Double> known = new HashMap<>();

    Together(Causes there) {
      long found = 0;
      for (int r = 0; r < repairs.length && r < Long.SIZE; r++) {
        found |= Arrays.stream(there.of).anyMatch(curedBy(r)::helps) ? 1L << r : 0;
      }
      helpful = found;
    }
  }

  // What the floors of worlds that are not known are made of.

  /** The floors of worlds, whatever state the bench is in. */
  OnWorlds known(CaseModel model, long done) {
    return known(model, done, ANYWHERE, false).floor;
  }

  /** The cost of ending the job without a repair, closing left out. */
  double exitFee() {
    return costs.exitFee();
  }

  /** The least price of a repair with its function test. */
  double price(int r) {
    return price[r];
  }

  /** The repairs that may be planned, by step number. */
  int[] repairs() {
    return repairs;
  }

  /** The floors of what follows a repair, whatever state the bench is in. */
  OnWorlds afterRepair(CaseModel model, long done, int r) {
    return known(model, then(done, r), ANYWHERE, true).after(r);
  }

  /** The repairs that are done once one more is. */
  long then(long done, int r) {
    return r < 0 || r >= Long.SIZE || isRepeatable(r) ? done : done | 1L << r;
  }

  /** The function tests of which one follows a repair where one function is lost. */
  List<Integer> proofsAfter(CaseModel model, int r) {
    List<Integer> found = new ArrayList<>();
    int repeat = device.steps.get(repairs[r]).thenRepeat().map(device::number).orElse(-1);
    for (boolean isRepeat : new boolean[] {true, false}) {
      for (int p = 0; p < model.proofs.size(); p++) {
        CaseModel.Proof proof = model.proofs.get(p);
        if (isRepeat ? repeat >= 0 && proof.step() == repeat : proof.complaint() == 0) {
          found.add(p);
          if (proof.step() < 0 || isSurelyUsable(proof.step())) {
            return found;
          }
        }
      }
    }
    return found;
  }

  /** The repairs that are done and cannot be done again, as bits by their places. */
  long done(Situation now) {
    long done = 0;
    for (int r = 0; r < repairs.length && r < Long.SIZE; r++) {
      Step step = device.steps.get(repairs[r]);
      done |= now.done().contains(step.id()) && !step.repeatable() ? 1L << r : 0;
    }
    return done;
  }

  private double of(int[] there, boolean lost, long done, int bench, boolean proved) {
    double toClose = close(bench);
    double prove = proved ? 0 : leastPass;
    double best = costs.exitFee() + toClose;
    best = Math.min(best, (lost ? costs.comeback : 0) + prove + toClose);
    int all = (1 << there.length) - 1;
    for (int r = 0; r < repairs.length; r++) {
      boolean helps = there.length == 0 || Arrays.stream(there).anyMatch(curedBy(r)::helps);
      if (isDone(done, r) || !helps) {
        continue;
      }
      double way = bench == ANYWHERE ? 0 : costs.ofWay(bench, repairs[r]);
      if (way < Double.POSITIVE_INFINITY && (lost || there.length > 0 || !proved)) {
        double after = there.length == 0 ? 0 : after(r, there, all, done);
        best = Math.min(best, way + leastClose(r, bench) + price[r] + after);
      }
    }
    return best;
  }

  static boolean isDone(long done, int r) {
    return r < Long.SIZE && (done >> r & 1) == 1;
  }

  private double close(int bench) {
    return bench != ANYWHERE && surelyCloses(bench) ? costs.close(bench) : 0;
  }

  private double leastClose(int r, int bench) {
    return bench != ANYWHERE && surelyCloses(bench) ? costs.leastClose(repairs[r]) : 0;
  }

  /** Whether the device can be closed from wherever the bench can be brought to. */
  private boolean surelyCloses(int bench) {
    return closing.computeIfAbsent(bench, b -> costs.ways.leadsSurely(b, BenchWays.CLOSED));
  }

  // Cures.

  /** What a repair does about causes. */
  private Cures curedBy(int r) {
    return new Cures(device.effects[repairs[r]]);
  }

  private record Cures(Effects effects) {
    boolean helps(int cause) {
      return effects.pStays(cause) < 1;
    }
  }

  /** What follows, at least, after a repair on some troubles. */
  private double after(int r, int[] there, int left, long done) {
    List<Integer> able = new ArrayList<>();
    for (int q = 0; q < repairs.length; q++) {
      if (!isDone(done, q) && Arrays.stream(there).anyMatch(curedBy(q)::helps)) {
        able.add(q);
      }
    }
    if (able.size() > MOST_REPAIRS) {
      double most = 0;
      for (int c : there) {
        double stays = device.effects[repairs[r]].pStays(c);
        most = Math.max(most, stays * ofOne(c, r, done));
      }
      return most;
    }
    int place = able.indexOf(r);
    return new Orders(there, able).after(place, left, isRepeatable(r) ? 0 : 1 << place);
  }

  private boolean isRepeatable(int r) {
    return device.steps.get(repairs[r]).repeatable();
  }

  /** One trouble: repairs in the order of price per probability of a cure. */
  private double ofOne(int cause, int without, long done) {
    List<double[]> able = new ArrayList<>();
    for (int q = 0; q < repairs.length; q++) {
      double cures = 1 - device.effects[repairs[q]].pStays(cause);
      if (cures > 0 && !isDone(done, q) && (q != without || isRepeatable(q))) {
        able.add(new double[] {price[q] / cures, price[q], isRepeatable(q) ? 1 : cures, cures});
      }
    }
    able.sort((a, b) -> Double.compare(b[0], a[0]));
    double least = end;
    for (double[] a : able) {
      least = Math.min(least, a[2] == 1 && a[3] < 1 ? a[0] : a[1] + (1 - a[2]) * least);
    }
    return least;
  }

  /** All orders of a few repairs on a few troubles. */
  private final class Orders {
    private final int[] there;
    private final List<Integer> able;
    private final double[] least;

    Orders(int[] there, List<Integer> able) {
      this.there = there;
      this.able = able;
      least = new double[1 << (there.length + able.size())];
      Arrays.fill(least, Double.NaN);
    }

    /** The least where some troubles are left and some repairs are done. */
    double of(int left, int done) {
      if (left == 0) {
        return 0;
      }
      int at = left << able.size() | done;
      if (Double.isNaN(least[at])) {
        double best = end;
        for (int q = 0; q < able.size(); q++) {
          if ((done >> q & 1) == 0) {
            best = Math.min(best, from(q, left, done));
          }
        }
        least[at] = best;
      }
      return least[at];
    }

    /** What a repair costs and what follows; infinite where it can do nothing. */
    private double from(int q, int left, int done) {
      double none = pNone(q, left);
      if (none >= 1) {
        return Double.POSITIVE_INFINITY;
      }
      if (isRepeatable(able.get(q))) {
        // carried out until it does something: what is left is less each time
        return (price[able.get(q)] + afterSome(q, left, done, true)) / (1 - none);
      }
      return price[able.get(q)] + afterSome(q, left, done | 1 << q, false);
    }

    double after(int q, int left, int done) {
      return afterSome(q, left, done, false);
    }

    private double pNone(int q, int left) {
      double p = 1;
      for (int i = 0; i < there.length; i++) {
        p *= (left >> i & 1) == 1 ? stays(q, i) : 1;
      }
      return p;
    }

    private double stays(int q, int i) {
      return device.effects[repairs[able.get(q)]].pStays(there[i]);
    }

    /** The mean over what is cured; where nothing is, only if that is wanted. */
    private double afterSome(int q, int left, int done, boolean onlyIfCured) {
      double sum = 0;
      for (int rest = left; ; rest = rest - 1 & left) {
        if (rest != left || !onlyIfCured) {
          double p = 1;
          for (int i = 0; i < there.length && p > 0; i++) {
            if ((left >> i & 1) == 1) {
              p *= (rest >> i & 1) == 1 ? stays(q, i) : 1 - stays(q, i);
            }
          }
          sum += p > 0 ? p * of(rest, done) : 0;
        }
        if (rest == 0) {
          return sum;
        }
      }
    }
  }

  // Troubles.

  /** The dearest causes of a state that lose a function in use as long as they are there. */
  private int[] troubles(CaseModel model, int state) {
    List<int[]> ofModel = troubles.computeIfAbsent(model, m -> new ArrayList<>());
    while (ofModel.size() <= state) {
      ofModel.add(null);
    }
    if (ofModel.get(state) == null) {
      byte[] world = model.tree.table.world(state);
      List<Integer> found = new ArrayList<>();
      for (int c = 0; c < logic.causeCount(); c++) {
        if (world[c] == 1 && model.bearsOnLost(c) && losesWhileThere(model, world, c)) {
          found.add(c);
        }
      }
      found.sort(Comparator.comparingDouble(c -> -ofOne(c, NONE, 0)));
      ofModel.set(
          state,
          found.stream().limit(MOST_TROUBLES).sorted().mapToInt(Integer::intValue).toArray());
    }
    return ofModel.get(state);
  }

  private boolean losesWhileThere(CaseModel model, byte[] world, int cause) {
    byte[] haze = world.clone();
    for (int c : logic.rootsFirst) {
      boolean appears = mayCause[c];
      FaultLogic.Inputs roots = logic.follows[c];
      for (int j = 0; j < roots.nodes().length; j++) {
        appears |= haze[roots.nodes()[j]] != 0 && Look.bit(haze, roots.bits()[j]) != 0;
      }
      haze[c] = (byte) (world[c] == 1 ? (touched[c] ? 2 : 1) : appears ? 2 : 0);
      haze[logic.hiddenPlace(c)] = 0;
      if (c == cause) {
        haze[c] = 1;
      }
    }
    look.at(haze, always, true);
    for (int node : model.lostNodes) {
      if (look.value(node) == 1) {
        return true;
      }
    }
    return false;
  }
}
