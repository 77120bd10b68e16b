package org.faultwright.planning;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.DoubleStream;

/**
 * The worlds that a plan meets, by number, and what steps lead to from each of them: worked out
 * once for each world and step, so that a belief is carried through a step by additions alone. Not
 * thread-safe.
 */
final class PlanWorlds {

  private static final double IMPOSSIBLE = 1e-15;

  /** The part of what may be left out that is left out where a step is worked out. */
  private static final double EARLY = 0.1;

  private final DeviceModel device;
  private final double negligible;
  private final Map<Bits, Integer> numbers = new HashMap<>();
  private final List<byte[]> worlds = new ArrayList<>();
  private final Map<Sight, Move> tests = new HashMap<>();
  private final Map<RepairKey, Move> repairs = new HashMap<>();
  private double[][] sums = {};
  private int[][] touched = {};
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
      // rows first: working one out may add worlds
      Row[] from = new Row[before.worlds.length];
      for (int i = 0; i < from.length; i++) {
        from[i] = row(before.worlds[i]);
      }
      grow(findings);
      int[] count = new int[findings];
      for (int i = 0; i < from.length; i++) {
        Row row = from[i];
        double p = before.p[i];
        for (int j = 0; j < row.to.length; j++) {
          int y = row.findings[j];
          int to = row.to[j];
          if (sums[y][to] == 0) {
            touched[y][count[y]++] = to;
          }
          sums[y][to] += p * row.p[j];
        }
      }
      double total = 0;
      for (int y = 0; y < findings; y++) {
        for (int i = 0; i < count[y]; i++) {
          total += sums[y][touched[y][i]];
        }
      }
      PlanBelief[] after = new PlanBelief[findings];
      for (int y = 0; y < findings; y++) {
        int[] at = Arrays.copyOf(touched[y], count[y]);
        Arrays.sort(at);
        double[] p = new double[at.length];
        for (int i = 0; i < p.length; i++) {
          p[i] = sums[y][at[i]] / total;
          sums[y][at[i]] = 0;
        }
        after[y] = PlanBelief.of(at, p, negligible, 1 - total);
      }
      return after;
    }
  }

  private static DoubleStream masses(Map<Bits, Double> sum) {
    return sum.values().stream().mapToDouble(Double::doubleValue);
  }

  private void grow(int findings) {
    if (sums.length < findings || sums[0].length < worlds.size()) {
      sums = new double[Math.max(findings, sums.length)][2 * worlds.size()];
      touched = new int[sums.length][2 * worlds.size()];
    }
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
