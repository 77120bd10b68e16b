package org.faultwright.planning;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.DoubleStream;
import java.util.stream.IntStream;

/**
 * The worlds that a plan meets, by number, and what steps lead to from each of them: worked out
 * once for each world and step, so that a belief is carried through a step by additions alone. Not
 * thread-safe.
 */
final class PlanWorlds {

  private static final double IMPOSSIBLE = 1e-15;

  /** The part of what may be left out that is left out where a step is worked out. */
  private static final double EARLY = 0.1;

  /** Worlds with probability 0 are forgotten where only one in so many is left. */
  private static final int SPARSE = 3;

  private final DeviceModel device;
  private final double negligible;
  private final Map<Bits, Integer> numbers = new HashMap<>();
  private final List<byte[]> worlds = new ArrayList<>();
  private final Map<Sight, Move> tests = new HashMap<>();
  private final Map<RepairKey, Move> repairs = new HashMap<>();
  private final Map<IntKey, WorldSet> sets = new HashMap<>();
  private int identities;
  private long kept;

  private record RepairKey(CaseModel model, int step, List<Integer> proofs) {}

  /** What may follow from a world: each with its finding, the world that is left, and P. */
  private record Row(int[] findings, int[] to, double[] p) {}

  /**
   * Worlds of a plan.
   *
   * @param negligible probability that may be left out at each step from each world
   */
  PlanWorlds(DeviceModel device, double negligible) {
    this.device = device;
    this.negligible = negligible;
  }

  /** The number of a world, which must not be changed afterwards. */
  int number(byte[] world) {
    Bits key = new Bits(world);
    Integer known = numbers.get(key);
    if (known == null) {
      known = worlds.size();
      numbers.put(key, known);
      worlds.add(world);
    }
    return known;
  }

  byte[] world(int number) {
    return worlds.get(number);
  }

  int size() {
    return worlds.size();
  }

  /** Numbers kept so far. */
  long kept() {
    return kept + (long) worlds.size() * device.logic.worldSize() / Double.BYTES;
  }

  /** A step with what may come out of it. */
  final class Move {
    final int findings;
    private final int id = identity();
    private Row[] rows = new Row[16];
    private final Source source;

    private Move(int findings, Source source) {
      this.findings = findings;
      this.source = source;
    }

    private Row row(int world) {
      if (world >= rows.length) {
        rows = Arrays.copyOf(rows, 2 * world);
      }
      if (rows[world] == null) {
        List<Map<Bits, Double>> sum = new ArrayList<>();
        for (int y = 0; y < findings; y++) {
          sum.add(new LinkedHashMap<>());
        }
        source.from(
            worlds.get(world).clone(),
            (y, after, p) -> {
              if (p > IMPOSSIBLE) {
                sum.get(y).merge(new Bits(after.clone()), p, Double::sum);
              }
            });
        rows[world] = flat(sum);
      }
      return rows[world];
    }

    /** Hands over what may follow from a world. */
    void each(int world, Each taker) {
      Row row = row(world);
      for (int j = 0; j < row.to.length; j++) {
        taker.take(row.findings[j], row.to[j], row.p[j]);
      }
    }

    private Row flat(List<Map<Bits, Double>> sum) {
      double[] all = sum.stream().flatMapToDouble(PlanWorlds::masses).toArray();
      double least = PlanBelief.leastKept(all, negligible * EARLY);
      int n = (int) Arrays.stream(all).filter(p -> p >= least).count();
      Row row = new Row(new int[n], new int[n], new double[n]);
      int i = 0;
      for (int y = 0; y < sum.size(); y++) {
        for (Map.Entry<Bits, Double> to : sum.get(y).entrySet()) {
          if (to.getValue() >= least) {
            row.findings[i] = y;
            row.to[i] = number(to.getKey().world);
            row.p[i++] = to.getValue();
          }
        }
      }
      kept += 2L * n;
      return row;
    }

    /**
     * What is believed after each finding; empty beliefs where it is impossible. Masses sum to 1,
     * whatever has been left out.
     */
    PlanBelief[] after(PlanBelief before) {
      Object noted = before.set.noted(id);
      Way[] ways = noted == null ? before.set.note(id, ways(before.set)) : (Way[]) noted;
      double[][] masses = new double[findings][];
      double[] sums = new double[findings];
      double total = 0;
      for (int y = 0; y < findings; y++) {
        masses[y] = ways[y].carry(before.p);
        for (double m : masses[y]) {
          sums[y] += m;
        }
        total += sums[y];
      }
      PlanBelief[] after = new PlanBelief[findings];
      for (int y = 0; y < findings; y++) {
        if (total != 1) {
          for (int i = 0; i < masses[y].length; i++) {
            masses[y][i] /= total;
          }
        }
        after[y] = belief(ways[y].to, masses[y], sums[y] / total, 1 - total);
      }
      return after;
    }

    private Way[] ways(WorldSet from) {
      // rows first: working one out may add worlds
      Row[] all = new Row[from.size()];
      for (int i = 0; i < all.length; i++) {
        all[i] = row(from.worlds[i]);
      }
      Way[] ways = new Way[findings];
      for (int y = 0; y < findings; y++) {
        ways[y] = way(from, all, y);
        kept += 2L * ways[y].p.length;
      }
      return ways;
    }

    private Way way(WorldSet from, Row[] all, int finding) {
      int n = 0;
      for (Row row : all) {
        for (int y : row.findings) {
          n += y == finding ? 1 : 0;
        }
      }
      int[] source = new int[n];
      int[] to = new int[n];
      double[] p = new double[n];
      int next = 0;
      for (int i = 0; i < all.length; i++) {
        for (int j = 0; j < all[i].to.length; j++) {
          if (all[i].findings[j] == finding) {
            source[next] = i;
            to[next] = all[i].to[j];
            p[next++] = all[i].p[j];
          }
        }
      }
      if (Arrays.equals(to, from.worlds)) {
        return new Way(from, null, null, p);
      }
      WorldSet set = set(Arrays.stream(to).sorted().distinct().toArray());
      for (int j = 0; j < n; j++) {
        to[j] = Arrays.binarySearch(set.worlds, to[j]);
      }
      return new Way(set, source, to, p);
    }
  }

  /**
   * Where the worlds of a set go with a finding: from place to place, with probabilities; without
   * places, each stays where it is.
   */
  private record Way(WorldSet to, int[] source, int[] place, double[] p) {

    double[] carry(double[] before) {
      double[] after = new double[to.size()];
      if (source == null) {
        for (int i = 0; i < after.length; i++) {
          after[i] = before[i] * p[i];
        }
      } else {
        for (int j = 0; j < p.length; j++) {
          after[place[j]] += before[source[j]] * p[j];
        }
      }
      return after;
    }
  }

  // Sets of worlds.

  /** The set of some worlds, given in order. */
  WorldSet set(int[] of) {
    return sets.computeIfAbsent(new IntKey(of), k -> new WorldSet(of));
  }

  private record IntKey(int[] numbers) {
    @Override
    public boolean equals(Object other) {
      return other instanceof IntKey k && Arrays.equals(numbers, k.numbers);
    }

    @Override
    public int hashCode() {
      return Arrays.hashCode(numbers);
    }
  }

  /** An identity under which something may be noted on sets of worlds. */
  int identity() {
    return identities++;
  }

  /**
   * A belief, without the worlds that may be left out.
   *
   * @param masses those of the worlds; they become the belief's
   * @param total what they sum to
   * @param leftOut the part that has been left out already
   */
  PlanBelief belief(WorldSet set, double[] masses, double total, double leftOut) {
    PlanBelief whole = new PlanBelief(set, masses, total, negligible, leftOut);
    if (whole.leftOut <= 0 || whole.count() * SPARSE > masses.length) {
      return whole;
    }
    int n = whole.count();
    int[] some = new int[n];
    double[] p = new double[n];
    int at = 0;
    for (int i = 0; i < masses.length; i++) {
      if (whole.p[i] > 0) {
        some[at] = set.worlds[i];
        p[at++] = whole.p[i] * total;
      }
    }
    return new PlanBelief(set(some), p, total, 0, whole.leftOut);
  }

  /** The likeliest worlds of a belief, so many at most, as likely as they are among themselves. */
  PlanBelief likeliest(PlanBelief belief, int most) {
    if (belief.p.length <= most) {
      return belief;
    }
    int[] places =
        IntStream.range(0, belief.p.length)
            .boxed()
            .sorted((a, b) -> Double.compare(belief.p[b], belief.p[a]))
            .limit(most)
            .mapToInt(Integer::intValue)
            .filter(i -> belief.p[i] > 0)
            .sorted()
            .toArray();
    double[] p = Arrays.stream(places).mapToDouble(i -> belief.p[i]).toArray();
    int[] some = Arrays.stream(places).map(i -> belief.set.worlds[i]).toArray();
    return new PlanBelief(set(some), p, Arrays.stream(p).sum(), 0, 0);
  }

  private static DoubleStream masses(Map<Bits, Double> sum) {
    return sum.values().stream().mapToDouble(Double::doubleValue);
  }

  /** Takes a finding, the world that is left, and P(both). */
  interface Each {
    void take(int finding, int world, double p);
  }

  /** Hands over what may follow from a world, which it may change. */
  private interface Source {
    void from(byte[] world, Taker taker);
  }

  private interface Taker {
    void take(int finding, byte[] after, double p);
  }

  /** A test: a finding for each of its sight. */
  Move test(int step, Sight sight) {
    return tests.computeIfAbsent(
        sight, s -> new Move(s.findings.size(), (world, taker) -> test(step, s, world, taker)));
  }

  private void test(int step, Sight sight, byte[] world, Taker taker) {
    boolean isAttempt = device.steps.get(step).isAttempt();
    Leaves.of(
        device.logic,
        sight,
        world,
        (leaf, p, row) -> {
          for (int y = 0; y < row.length; y++) {
            int finding = y;
            double m = p * row[y];
            if (m > IMPOSSIBLE && isAttempt) {
              device.effects[step].spread(leaf, (after, q) -> taker.take(finding, after, m * q));
            } else {
              taker.take(finding, leaf, m);
            }
          }
        });
  }

  /** The findings of a repair. */
  static final int PASSED = 0;

  static final int FAILED = 1;

  /** A repair with its function tests, by their places in the model: all passed, or not. */
  Move repair(CaseModel model, int step, int[] proofs) {
    return repairs.computeIfAbsent(
        new RepairKey(model, step, Arrays.stream(proofs).boxed().toList()),
        k ->
            new Move(
                2,
                (world, taker) ->
                    device.effects[step].spread(
                        world, (after, q) -> prove(model, proofs, 0, after, q, true, taker))));
  }

  private void prove(
      CaseModel model, int[] proofs, int at, byte[] world, double p, boolean passes, Taker taker) {
    if (at == proofs.length) {
      taker.take(passes ? PASSED : FAILED, world, p);
      return;
    }
    Sight sight = model.proofs.get(proofs[at]).sight();
    Leaves.of(
        device.logic,
        sight,
        world.clone(),
        (leaf, q, row) -> {
          double pPass = row[sight.pass];
          if (p * q * pPass > IMPOSSIBLE) {
            prove(model, proofs, at + 1, leaf, p * q * pPass, passes, taker);
          }
          if (p * q * (1 - pPass) > IMPOSSIBLE) {
            prove(model, proofs, at + 1, leaf, p * q * (1 - pPass), false, taker);
          }
        });
  }
}
