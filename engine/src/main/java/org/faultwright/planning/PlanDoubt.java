package org.faultwright.planning;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;

/**
 * What it costs at least that the world is not known, over and above what each world costs where it
 * is ({@link PlanFloor}).
 *
 * <p>For masses m of worlds, which need not sum to 1, let V(m) be the least cost of any policy, and
 * g(m) = V(m) - the sum of m(w) floor(w). V is the least of sums that are linear in m, so that V(a
 * + b) is at least V(a) + V(b), and so is g; since g is never negative, it grows with m. So a mass
 * may be cut in layers: with masses r to compare with and m = r x, let A(1), A(2), ... be the sets
 * of the worlds with the largest x, one world more each time; then g(m) is at least the sum of
 * (x(i) - x(i+1)) g(r on A(i)), where x(i) is the i-th largest.
 *
 * <p>What is needed is g(r on A) for the sets A of a few worlds, by a table. It is filled from
 * small sets to large ones: the first step is the end of the job, a repair, or a test. After a test
 * the mass left by each finding is cut in layers again, and the layer on A itself, which is there
 * where every world of A may have this finding, is moved to the other side. After a repair that
 * fails the layers are those of the table where that repair is done. The layers of a noisy test are
 * what it would show if the noise were known, so that this floor knows the noise, and that tests
 * may be repeated; it does not know the world.
 *
 * <p>Worlds are shared out among parts, since a table has 2^n numbers; what is doubtful between
 * worlds of different parts is not counted.
 */
final class PlanDoubt {

  /** Worlds of the first part, and of each of the others. */
  private static final int FIRST = 10;

  private static final int OTHERS = 8;

  /** Parts, at most. */
  private static final int MOST_PARTS = 3;

  /** The time is looked at for one set in so many, less one; these are bits. */
  private static final int EVERY = 15;

  /** What doubt within a part comes to is not counted below this part of the fee of sending on. */
  private static final double SLIGHT = 1e-5;

  /** Tables that are kept: each for some repairs done. */
  private static final int MOST_TABLES = 64;

  private final PlanFloor floor;
  private final PlanWorlds worlds;
  private final DeviceModel device;
  private final Costs costs;
  private final Map<List<Object>, Table> tables = new HashMap<>();

  /** No table is begun after this, by {@link System#nanoTime}. */
  private final long until;

  /** The tests, by step number, and their places; -1: no test. */
  private final int[] tests;

  private final int[] placeOfTest;

  /**
   * Tables for a plan.
   *
   * @param costs what steps cost
   * @param tests the tests that may be planned, by step number
   * @param until no table is begun after this, by {@link System#nanoTime}
   */
  PlanDoubt(
      PlanFloor floor,
      PlanWorlds worlds,
      DeviceModel device,
      Costs costs,
      int[] tests,
      long until) {
    this.floor = floor;
    this.worlds = worlds;
    this.device = device;
    this.costs = costs;
    this.tests = tests;
    this.until = until;
    placeOfTest = new int[device.steps.size()];
    Arrays.fill(placeOfTest, -1);
    for (int t = 0; t < tests.length; t++) {
      placeOfTest[tests[t]] = t;
    }
  }

  /**
   * The table where some repairs are done; null where there is none.
   *
   * @param like a belief that is like those that will be asked for
   */
  Table table(CaseModel model, long done, PlanBelief like) {
    if (model.lost.size() != 1) {
      return null;
    }
    List<Object> key = List.of(model, done);
    Table found = tables.get(key);
    if (found == null && tables.size() < MOST_TABLES && System.nanoTime() < until) {
      found = new Table(model, done, like);
      tables.put(key, found);
      found.fill();
    }
    return found;
  }

  /** What doubt costs at least where some repairs are done. */
  final class Table {
    private final CaseModel model;
    private final long done;
    private final PlanBelief like;
    private final List<Part> parts = new ArrayList<>();
    private final Repair[] repairs;
    private PlanBelief lastRead;

    /** All worlds of the parts, in order; for each its part, and its place there. */
    private final int[] worldsOfParts;

    private final int[] partOf;
    private final int[] withinPart;

    private Table(CaseModel model, long done, PlanBelief like) {
      this.model = model;
      this.done = done;
      this.like = like;
      int[] byMass =
          IntStream.range(0, like.p.length)
              .filter(i -> like.p[i] > 0)
              .boxed()
              .sorted((a, b) -> Double.compare(like.p[b], like.p[a]))
              .mapToInt(Integer::intValue)
              .toArray();
      int from = 0;
      while (from < byMass.length - 1 && parts.size() < MOST_PARTS) {
        int to = Math.min(byMass.length, from + (from == 0 ? FIRST : OTHERS));
        parts.add(new Part(this, Arrays.copyOfRange(byMass, from, to)));
        from = to;
      }
      worldsOfParts = parts.stream().flatMapToInt(p -> Arrays.stream(p.worldOf)).sorted().toArray();
      partOf = new int[worldsOfParts.length];
      withinPart = new int[worldsOfParts.length];
      for (int i = 0; i < parts.size(); i++) {
        for (int k = 0; k < parts.get(i).n; k++) {
          int at = place(parts.get(i).worldOf[k]);
          partOf[at] = i;
          withinPart[at] = k;
        }
      }
      repairs = new Repair[floor.repairs().length];
      for (int r = 0; r < repairs.length; r++) {
        if (!PlanFloor.isDone(done, r)) {
          repairs[r] = new Repair(this, r);
        }
      }
    }

    private void fill() {
      parts.forEach(Part::fill);
    }

    /** The place of a world among those of the parts; negative: in none. */
    private int place(int world) {
      return Arrays.binarySearch(worldsOfParts, world);
    }

    /** What doubt costs at least. */
    double of(PlanBelief belief) {
      read(belief);
      double sum = 0;
      for (Part part : parts) {
        sum += part.isSlight ? 0 : part.layers(part.times);
      }
      return sum;
    }

    private void read(PlanBelief belief) {
      if (belief != lastRead) {
        lastRead = belief;
        parts.forEach(part -> part.read(belief));
      }
    }

    /** What doubt costs at least after a test. */
    double afterTest(PlanBelief belief, int step) {
      int t = placeOfTest[step];
      if (t < 0) {
        return 0;
      }
      read(belief);
      double sum = 0;
      for (Part part : parts) {
        sum += part.isSlight ? 0 : part.after(t);
      }
      return sum;
    }

    /** What doubt costs at least after a repair. */
    double afterRepair(PlanBelief belief, int step) {
      int r = Arrays.binarySearch(floor.repairs(), step);
      return r < 0 || repairs[r] == null ? 0 : repairs[r].after(belief);
    }
  }

  /** A repair, and the doubt that is left where its function test does not pass. */
  private final class Repair {
    private final Table before;
    private final int r;
    private final int id = worlds.identity();
    private boolean isSought;
    private Table next;
    private PlanWorlds.Move[] moves;

    Repair(Table before, int r) {
      this.before = before;
      this.r = r;
    }

    private Table next() {
      if (!isSought) {
        isSought = true;
        long then = floor.then(before.done, r);
        if (then == before.done || System.nanoTime() > until) {
          return null;
        }
        moves =
            floor.proofsAfter(before.model, r).stream()
                .map(p -> worlds.repair(before.model, floor.repairs()[r], new int[] {p}))
                .toArray(PlanWorlds.Move[]::new);
        PlanBelief failed = moves[0].after(before.like)[PlanWorlds.FAILED];
        if (failed.mass > 0) {
          next = table(before.model, then, failed);
        }
      }
      return next;
    }

    double after(PlanBelief belief) {
      if (next() == null) {
        return 0;
      }
      Object noted = belief.set.noted(id);
      Fails[] fails =
          noted == null ? belief.set.note(id, fails(belief.set.worlds)) : (Fails[]) noted;
      double sum = 0;
      for (int i = 0; i < fails.length; i++) {
        Part part = next.parts.get(i);
        double[] x = part.scratch;
        Arrays.fill(x, 0);
        fails[i].add(belief.p, x);
        sum += part.layers(x);
      }
      return sum;
    }

    /** For each part of the table that follows. */
    private Fails[] fails(int[] from) {
      Fails[] fails = new Fails[next.parts.size()];
      Arrays.setAll(fails, i -> new Fails());
      for (int i = 0; i < from.length; i++) {
        Map<Integer, Double> least = failed(moves[0], from[i]);
        for (int m = 1; m < moves.length; m++) {
          Map<Integer, Double> other = failed(moves[m], from[i]);
          least.replaceAll((w, p) -> Math.min(p, other.getOrDefault(w, 0.0)));
        }
        add(fails, i, least);
      }
      return fails;
    }

    private void add(Fails[] fails, int i, Map<Integer, Double> failed) {
      failed.forEach(
          (world, p) -> {
            int at = next.place(world);
            if (at >= 0) {
              Part part = next.parts.get(next.partOf[at]);
              fails[next.partOf[at]].add(
                  i, next.withinPart[at], p / part.mass[next.withinPart[at]]);
            }
          });
    }

    private Map<Integer, Double> failed(PlanWorlds.Move move, int world) {
      Map<Integer, Double> sum = new LinkedHashMap<>(4);
      move.each(
          world,
          (y, to, p) -> {
            if (y == PlanWorlds.FAILED) {
              sum.merge(to, p, Double::sum);
            }
          });
      return sum;
    }
  }

  /** How much of each world goes to each of a part, as a part of what is compared with there. */
  private static final class Fails {
    private int[] from = new int[16];
    private int[] to = new int[16];
    private double[] p = new double[16];
    private int n;

    void add(int i, int k, double q) {
      if (q > 0) {
        if (n == p.length) {
          from = Arrays.copyOf(from, 2 * n);
          to = Arrays.copyOf(to, 2 * n);
          p = Arrays.copyOf(p, 2 * n);
        }
        from[n] = i;
        to[n] = k;
        p[n++] = q;
      }
    }

    void add(double[] mass, double[] sum) {
      for (int j = 0; j < n; j++) {
        sum[to[j]] += mass[from[j]] * p[j];
      }
    }
  }

  /** A few worlds, with what doubt costs among each set of them. */
  private final class Part {
    private final Table table;
    private final int n;
    private final int[] worldOf;

    /** The masses to compare with. */
    private final double[] mass;

    private final int id = worlds.identity();
    private final double[] least;

    /** P(finding | world), at least, by test, finding and world. */
    private final double[][][] pFinding = new double[tests.length][][];

    private final Map<Repair, Fails[]> failsAfter = new HashMap<>();

    /** How many times the masses to compare with a belief is, and whether that can come to much. */
    private final double[] times;

    private boolean isSlight;
    private final double[] scratch;
    private final double[] sorted;
    private final int[] sets;

    Part(Table table, int[] places) {
      this.table = table;
      n = places.length;
      worldOf = Arrays.stream(places).map(i -> table.like.set.worlds[i]).toArray();
      mass = Arrays.stream(places).mapToDouble(i -> table.like.p[i]).toArray();
      least = new double[1 << n];
      times = new double[n];
      scratch = new double[n];
      sorted = new double[n];
      sets = new int[n];
      for (int t = 0; t < tests.length; t++) {
        pFinding[t] = pFinding(tests[t]);
      }
    }

    private double[][] pFinding(int test) {
      Sight sight = device.sight(test).orElseThrow();
      if (!isWhole(test)) {
        return new double[0][];
      }
      double[][] p = new double[sight.findings.size()][n];
      for (int k = 0; k < n; k++) {
        Map<Integer, double[]> byWorld = new HashMap<>();
        worlds
            .test(test, sight)
            .each(
                worldOf[k],
                (y, to, q) -> byWorld.computeIfAbsent(to, w -> new double[p.length])[y] += q);
        for (int y = 0; y < p.length; y++) {
          double lowest = 1;
          for (double[] row : byWorld.values()) {
            // where the test settles something, given that it is settled so
            lowest = Math.min(lowest, row[y] / Arrays.stream(row).sum());
          }
          p[y][k] = lowest;
        }
      }
      if (device.steps.get(test).proves().filter(table.model.lost::contains).isPresent()) {
        Arrays.fill(p[sight.pass], 0); // the job is over
      }
      return p;
    }

    private void fill() {
      double[] known = over(floor.known(table.model, table.done));
      double[] exit = new double[n];
      Arrays.setAll(exit, k -> mass[k] * (floor.exitFee() - known[k]));
      double[][] repairing = new double[table.repairs.length][];
      double[][] testing = new double[tests.length][];
      int[][][] orders = new int[tests.length][][];
      for (int r = 0; r < repairing.length; r++) {
        if (table.repairs[r] != null) {
          double price = floor.price(r);
          double[] after = over(floor.afterRepair(table.model, table.done, r));
          double[] more = new double[n];
          Arrays.setAll(more, k -> mass[k] * (price + after[k] - known[k]));
          repairing[r] = more;
        }
      }
      for (int t = 0; t < tests.length; t++) {
        double cost = costs.ofStep(tests[t]);
        Sight sight = device.sight(tests[t]).orElseThrow();
        double[] after =
            over(floor.afterTest(table.model, table.done, tests[t], sight, PlanFloor.ANYWHERE));
        double[] more = new double[n];
        Arrays.setAll(more, k -> mass[k] * (cost + after[k] - known[k]));
        testing[t] = more;
        orders[t] = new int[pFinding[t].length][];
        for (int y = 0; y < orders[t].length; y++) {
          orders[t][y] = largestFirst(pFinding[t][y]);
        }
      }
      for (int a = 1; a < least.length; a++) {
        if ((a & a - 1) == 0) {
          continue; // nothing is in doubt
        }
        if ((a & EVERY) == 0 && System.nanoTime() > until) {
          return; // 0 is never too much
        }
        double best = sum(exit, a);
        for (int t = 0; t < tests.length && best > 0; t++) {
          best = Math.min(best, afterTest(a, t, sum(testing[t], a), orders[t]));
        }
        for (int r = 0; r < repairing.length && best > 0; r++) {
          if (repairing[r] != null) {
            double now = sum(repairing[r], a);
            if (now < best) {
              best = Math.min(best, now + afterRepair(table.repairs[r], a));
            }
          }
        }
        for (int rest = a; rest != 0; rest &= rest - 1) {
          best = Math.max(best, least[a & ~Integer.lowestOneBit(rest)]);
        }
        least[a] = best;
      }
    }

    private double[] over(OnWorlds numbers) {
      return Arrays.stream(worldOf).mapToDouble(numbers::at).toArray();
    }

    private double afterTest(int a, int t, double now, int[][] orders) {
      double sum = now;
      double stays = 0;
      for (int y = 0; y < orders.length; y++) {
        double[] p = pFinding[t][y];
        double before = 0;
        int set = 0;
        for (int k : orders[y]) {
          if ((a >> k & 1) == 1) {
            sum += (before - p[k]) * least[set];
            before = p[k];
            set |= 1 << k;
          }
        }
        stays += before;
      }
      return stays < 1 ? sum / (1 - stays) : Double.POSITIVE_INFINITY;
    }

    private double afterRepair(Repair repair, int a) {
      if (repair.next() == null) {
        return 0;
      }
      double sum = 0;
      Fails[] fails = failsAfter.computeIfAbsent(repair, r -> r.fails(worldOf));
      double[] on = new double[n];
      for (int k = 0; k < n; k++) {
        on[k] = (a >> k & 1) == 1 ? mass[k] : 0;
      }
      for (int i = 0; i < fails.length; i++) {
        Part part = repair.next.parts.get(i);
        Arrays.fill(part.scratch, 0);
        fails[i].add(on, part.scratch);
        sum += part.layers(part.scratch);
      }
      return sum;
    }

    private double sum(double[] x, int set) {
      double sum = 0;
      for (int rest = set; rest != 0; rest &= rest - 1) {
        sum += x[Integer.numberOfTrailingZeros(rest)];
      }
      return sum;
    }

    private int[] largestFirst(double[] p) {
      return IntStream.range(0, n)
          .boxed()
          .sorted((a, b) -> Double.compare(p[b], p[a]))
          .mapToInt(Integer::intValue)
          .toArray();
    }

    /** The places of the worlds in a set; -1: not there. */
    private int[] placesIn(WorldSet set) {
      Object noted = set.noted(id);
      return noted == null
          ? set.note(
              id, Arrays.stream(worldOf).map(w -> Arrays.binarySearch(set.worlds, w)).toArray())
          : (int[]) noted;
    }

    private void read(PlanBelief belief) {
      int[] at = placesIn(belief.set);
      double most = 0;
      for (int k = 0; k < n; k++) {
        times[k] = at[k] < 0 ? 0 : belief.p[at[k]] / mass[k];
        most = Math.max(most, times[k]);
      }
      isSlight = most * least[least.length - 1] < SLIGHT * floor.exitFee();
    }

    private double after(int t) {
      double sum = 0;
      for (double[] p : pFinding[t]) {
        for (int k = 0; k < n; k++) {
          scratch[k] = times[k] * p[k];
        }
        sum += layers(scratch);
      }
      return sum;
    }

    /** The layers of masses that are so many times those to compare with. */
    private double layers(double[] x) {
      int count = 0;
      for (int k = 0; k < n; k++) {
        double here = x[k];
        if (here > 0) {
          int at = count++;
          while (at > 0 && sorted[at - 1] < here) {
            sorted[at] = sorted[at - 1];
            sets[at] = sets[at - 1];
            at--;
          }
          sorted[at] = here;
          sets[at] = 1 << k;
        }
      }
      double sum = 0;
      int set = 0;
      for (int i = 0; i < count; i++) {
        set |= sets[i];
        sum += (sorted[i] - (i + 1 < count ? sorted[i + 1] : 0)) * least[set];
      }
      return sum;
    }
  }

  /** Whether a test, where it may be done, always shows the same things. */
  private boolean isWhole(int test) {
    return DeviceModel.points(device.steps.get(test)).isEmpty()
        && !device.steps.get(test).isAttempt();
  }
}
