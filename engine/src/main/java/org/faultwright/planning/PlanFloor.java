package org.faultwright.planning;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;
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

  /** The least that each further try of a function test costs where an attempt comes between. */
  private final double leastTry;

  /** How many steps prove a function. */
  private final int functionTests;

  private final boolean[] touched;
  private final boolean[] mayCause;
  private final boolean[] mayBeHidden;
  private final Look look;
  private final double[] always;
  private final Map<CaseModel, List<Troubles>> troubles = new HashMap<>();
  private final Map<List<Object>, Known> ofWorlds = new HashMap<>();
  private final Map<Troubles, Together> together = new HashMap<>();
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
    mayBeHidden = new boolean[logic.causeCount()];
    for (Effects e : device.effects) {
      Arrays.stream(e.touched).forEach(c -> touched[c] = true);
      e.mayCause().forEach(c -> mayCause[c] = true);
      Arrays.stream(e.touched).forEach(c -> mayBeHidden[c] |= e.pHides(c) > 0);
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
    double leastPrice = Double.POSITIVE_INFINITY;
    for (int r = 0; r < repairs.length; r++) {
      price[r] = costs.ofStep(repairs[r]) + leastProof(device.steps.get(repairs[r]));
      leastPass = Math.min(leastPass, price[r]);
      leastPrice = Math.min(leastPrice, price[r]);
    }
    functionTests = (int) device.steps.stream().filter(s -> s.proves().isPresent()).count();
    leastTry = leastTry(leastPrice);
  }

  /**
   * An attempt puts function tests in question, so that each may be carried out once more; a repair
   * has one of its own besides.
   */
  private double leastTry(double leastPrice) {
    double again = functionTests == 0 ? 0 : functionTests * leastPass;
    double least = (leastPrice + again) / (functionTests + 1);
    for (int s = 0; s < device.steps.size(); s++) {
      Step step = device.steps.get(s);
      boolean isRepair = !step.changes().isEmpty() || step.swap().isPresent();
      if (!isRepair && step.isAttempt() && functionTests > 0) {
        least = Math.min(least, (costs.ofStep(s) + again) / functionTests);
      }
    }
    return least;
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

    private Troubles trouble(int row) {
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
        Troubles there = trouble(rows.states()[i]);
        double least =
            there.size() == 0
                ? Math.min(of(there, false), of(there, lost(rows.states()[i])))
                : afterCures(there, repair, 0, 0);
        sum += rows.p()[i] * least;
      }
      return sum;
    }

    private double afterCures(Troubles there, int repair, int at, int left) {
      if (at == there.size()) {
        return left == 0 ? of(Troubles.NONE, false) : afterTest(there.some(left));
      }
      double stays = device.effects[repairs[repair]].pStays(there.causes[at]);
      return (stays > 0 ? stays * afterCures(there, repair, at + 1, left | 1 << at) : 0)
          + (stays < 1 ? (1 - stays) * afterCures(there, repair, at + 1, left) : 0);
    }

    /** What a function test that is carried out leads to, with troubles that are there. */
    private double afterTest(Troubles there) {
      return mixed(
          there.pPasses((1 << there.size()) - 1),
          costs.comeback + close(bench),
          of(there, true, false));
    }

    private double of(Troubles there, boolean lost) {
      return of(there, lost, proved);
    }

    private double of(Troubles there, boolean lost, boolean isProved) {
      // repairs that are done and would not help count for nothing
      Together all = together.computeIfAbsent(there, Together::new);
      return all.known.computeIfAbsent(
          new Case(there.size() == 0 ? done : done & all.helpful, bench, isProved, lost),
          k -> PlanFloor.this.of(there, lost, done, bench, isProved));
    }
  }

  /** A cost where passing by mistake, at most as likely as given, is used only if it is cheaper. */
  private static double mixed(double pPasses, double ifPassed, double ifFailed) {
    return pPasses * Math.min(ifPassed, ifFailed) + (1 - pPasses) * ifFailed;
  }

  /**
   * Troubles that are there together.
   *
   * @param causes in the pack's order
   * @param pPasses for each P(a function test passes while it is there), at most
   */
  private record Troubles(int[] causes, double[] pPasses) {

    static final Troubles NONE = new Troubles(new int[0], new double[0]);

    int size() {
      return causes.length;
    }

    /** P(a function test passes while some of them are there), at most. */
    double pPasses(int set) {
      double least = 1;
      for (int rest = set; rest != 0; rest &= rest - 1) {
        least = Math.min(least, pPasses[Integer.numberOfTrailingZeros(rest)]);
      }
      return least;
    }

    Troubles some(int set) {
      int[] places = IntStream.range(0, size()).filter(i -> (set >> i & 1) == 1).toArray();
      return new Troubles(
          Arrays.stream(places).map(i -> causes[i]).toArray(),
          Arrays.stream(places).mapToDouble(i -> pPasses[i]).toArray());
    }

    @Override
    public boolean equals(Object other) {
      return other instanceof Troubles t
          && Arrays.equals(causes, t.causes)
          && Arrays.equals(pPasses, t.pPasses);
    }

    @Override
    public int hashCode() {
      return 31 * Arrays.hashCode(causes) + Arrays.hashCode(pPasses);
    }
  }

  private record Case(long done, int bench, boolean proved, boolean lost) {}

  /** Troubles that are there together, and what they cost at least. */
  private final class Together {
    /** The repairs that help with any of them, as bits. */
    final long helpful;

    final Map<Case, Double> known = new HashMap<>();

    Together(Troubles there) {
      long found = 0;
      for (int r = 0; r < repairs.length && r < Long.SIZE; r++) {
        found |= Arrays.stream(there.causes).anyMatch(curedBy(r)::helps) ? 1L << r : 0;
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

  private double of(Troubles there, boolean lost, long done, int bench, boolean proved) {
    double toClose = close(bench);
    int all = (1 << there.size()) - 1;
    double best = costs.exitFee() + toClose;
    if (proved || all == 0) {
      best = Math.min(best, (lost ? costs.comeback : 0) + (proved ? 0 : leastPass) + toClose);
    } else {
      best = Math.min(best, stopped(there.pPasses(all)) + toClose);
    }
    for (int r = 0; r < repairs.length; r++) {
      boolean helps = all == 0 || Arrays.stream(there.causes).anyMatch(curedBy(r)::helps);
      if (isDone(done, r) || !helps) {
        continue;
      }
      double way = bench == ANYWHERE ? 0 : costs.ofWay(bench, repairs[r]);
      if (way < Double.POSITIVE_INFINITY && (lost || all != 0 || !proved)) {
        double after = all == 0 ? 0 : after(r, there, all, done);
        best = Math.min(best, way + leastClose(r, bench) + price[r] + after);
      }
    }
    return proved || all == 0
        ? best
        : tried(there.pPasses(all), costs.comeback + toClose, best, functionTests);
  }

  /**
   * What a job costs at least, closing left out, in which nothing is repaired any more: it is sent
   * on, or attempts are made for no other reason than that a function test may pass by mistake.
   */
  private double stopped(double pPasses) {
    double forOnePass = pPasses <= 0 ? Double.POSITIVE_INFINITY : leastTry / pPasses;
    return Math.min(costs.exitFee(), costs.comeback + forOnePass);
  }

  /**
   * A cost where function tests may be tried first, in the hope that one passes by mistake. Between
   * two attempts each of them tells once only.
   */
  private double tried(double pPasses, double ifPassed, double otherwise, int tests) {
    double least = otherwise;
    for (int test = 0; test < tests; test++) {
      least = Math.min(least, leastPass + mixed(pPasses, ifPassed, least));
    }
    return least;
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
  private double after(int r, Troubles there, int left, long done) {
    List<Integer> able = new ArrayList<>();
    for (int q = 0; q < repairs.length; q++) {
      if (!isDone(done, q) && Arrays.stream(there.causes).anyMatch(curedBy(q)::helps)) {
        able.add(q);
      }
    }
    if (able.size() > MOST_REPAIRS) {
      double most = 0;
      for (int c : there.causes) {
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
    private final Troubles there;
    private final List<Integer> able;
    private final double[] least;

    Orders(Troubles there, List<Integer> able) {
      this.there = there;
      this.able = able;
      least = new double[1 << (there.size() + able.size())];
      Arrays.fill(least, Double.NaN);
    }

    /** The least where some troubles are left and some repairs are done. */
    double of(int left, int done) {
      if (left == 0) {
        return 0;
      }
      int at = left << able.size() | done;
      if (Double.isNaN(least[at])) {
        double best = stopped(there.pPasses(left));
        for (int q = 0; q < able.size(); q++) {
          if ((done >> q & 1) == 0) {
            best = Math.min(best, from(q, left, done));
          }
        }
        least[at] = tried(there.pPasses(left), costs.comeback, best, functionTests);
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
        // carried out until it does something, or until its test passes by mistake
        double then = price[able.get(q)] + afterSome(q, left, done, true);
        double passes = 1 - Math.pow(1 - there.pPasses(left), functionTests + 1);
        double mistaken = then + none * passes * costs.comeback;
        return Math.min(then / (1 - none), mistaken / (1 - none * (1 - passes)));
      }
      return price[able.get(q)] + afterSome(q, left, done | 1 << q, false);
    }

    double after(int q, int left, int done) {
      return afterSome(q, left, done, false);
    }

    private double pNone(int q, int left) {
      double p = 1;
      for (int i = 0; i < there.size(); i++) {
        p *= (left >> i & 1) == 1 ? stays(q, i) : 1;
      }
      return p;
    }

    private double stays(int q, int i) {
      return device.effects[repairs[able.get(q)]].pStays(there.causes[i]);
    }

    /** What a function test leads to where some troubles are left. */
    private double afterTest(int left, int done) {
      return left == 0 ? 0 : mixed(there.pPasses(left), costs.comeback, of(left, done));
    }

    /** The mean over what is cured; where nothing is, only if that is wanted. */
    private double afterSome(int q, int left, int done, boolean onlyIfCured) {
      double sum = 0;
      for (int rest = left; ; rest = rest - 1 & left) {
        if (rest != left || !onlyIfCured) {
          double p = 1;
          for (int i = 0; i < there.size() && p > 0; i++) {
            if ((left >> i & 1) == 1) {
              p *= (rest >> i & 1) == 1 ? stays(q, i) : 1 - stays(q, i);
            }
          }
          sum += p > 0 ? p * afterTest(rest, done) : 0;
        }
        if (rest == 0) {
          return sum;
        }
      }
    }
  }

  // Troubles.

  /** The dearest causes of a state that lose a function in use as long as they are there. */
  private Troubles troubles(CaseModel model, int state) {
    List<Troubles> ofModel = troubles.computeIfAbsent(model, m -> new ArrayList<>());
    while (ofModel.size() <= state) {
      ofModel.add(null);
    }
    if (ofModel.get(state) == null) {
      byte[] world = model.tree.table.world(state);
      List<RepairTable.Trouble> found = new ArrayList<>();
      for (RepairTable.Trouble trouble : model.tree.table.troubles(state)) {
        int c = trouble.cause();
        if (model.bearsOnLost(c) && losesWhileThere(model, world, c)) {
          found.add(trouble);
        }
      }
      found.sort(Comparator.comparingDouble(t -> -ofOne(t.cause(), NONE, 0)));
      List<RepairTable.Trouble> few =
          found.stream()
              .limit(MOST_TROUBLES)
              .sorted(Comparator.comparingInt(RepairTable.Trouble::cause))
              .toList();
      ofModel.set(
          state,
          new Troubles(
              few.stream().mapToInt(RepairTable.Trouble::cause).toArray(),
              few.stream().mapToDouble(t -> pPasses(t, world)).toArray()));
    }
    return ofModel.get(state);
  }

  /** P(a function test passes while a trouble is there), at most, whatever is done to others. */
  private double pPasses(RepairTable.Trouble trouble, byte[] world) {
    if (mayBeHidden[trouble.cause()] || world[logic.hiddenPlace(trouble.cause())] != 0) {
      return 1;
    }
    return 1 - trouble.pFails().stream().mapToDouble(Double::doubleValue).min().orElse(0);
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
