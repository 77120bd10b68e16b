package org.faultwright.planning;

import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.Map;
import org.faultwright.planning.Assessment.Testing;

/**
 * Tests by information per cost: the test that is expected to take away most uncertainty about
 * which causes are present, for what it costs, one step ahead; where no test takes away as much as
 * {@value #LEAST_BITS} bit, repairs by {@link ProbabilityPerCost}. One step of entropy: J. de
 * Kleer, B. C. Williams, Diagnosing multiple faults, Artificial Intelligence 32, 1987, 97-130, here
 * per cost.
 */
final class MostInformation implements Policy {

  /** A test that takes away less, in bits, does not inform. Our own choice. */
  static final double LEAST_BITS = 0.05;

  private final Policy repairs = new ProbabilityPerCost();

  @Override
  public Choice choose(Place place) {
    Testing best = null;
    double most = 0;
    int[] causes = causeSets(place);
    double before = entropy(causes, place.p, place.p.length);
    for (Testing t : place.tests()) {
      double gain =
          before
              - (place.step(t.step()).isAttempt() ? afterHarm(place, t) : after(place, causes, t));
      boolean informs = gain >= LEAST_BITS;
      if (informs && (best == null || isMore(gain, t.cost(), most, best.cost()))) {
        best = t;
        most = gain;
      }
    }
    return best == null ? repairs.choose(place) : new Choice.Test(best);
  }

  /** Compares ratios of which a cost may be 0; then the greater gain is more. */
  private static boolean isMore(double gain, double cost, double than, double thanCost) {
    double a = gain * thanCost;
    double b = than * cost;
    double scale = RepairSearch.ROUNDING * Math.max(a, b);
    return a > b + scale
        || a >= b - scale && cost == 0 && gain > than * (1 + RepairSearch.ROUNDING);
  }

  /** For each world the number of its set of causes, of those that bear on what is lost. */
  private static int[] causeSets(Place place) {
    Map<Bits, Integer> numbers = new HashMap<>();
    int[] found = new int[place.p.length];
    for (int w = 0; w < found.length; w++) {
      Bits set = causeSet(place, place.worlds.get(w));
      found[w] = numbers.computeIfAbsent(set, s -> numbers.size());
    }
    return found;
  }

  private static Bits causeSet(Place place, byte[] world) {
    byte[] set = new byte[place.model().logic.causeCount()];
    for (int c = 0; c < set.length; c++) {
      set[c] = place.model().bearsOnLost(c) ? world[c] : 0;
    }
    return new Bits(set);
  }

  private static double entropy(int[] sets, double[] mass, int numbers) {
    double[] sum = new double[numbers];
    for (int w = 0; w < sets.length; w++) {
      sum[sets[w]] += mass[w];
    }
    return entropy(sum);
  }

  /** In bits, times the mass. */
  private static double entropy(double[] mass) {
    double total = 0;
    double sum = 0;
    for (double m : mass) {
      total += m;
      sum += m > 0 ? m * Math.log(m) : 0;
    }
    return total > 0 ? (total * Math.log(total) - sum) / Math.log(2) : 0;
  }

  private static double after(Place place, int[] causes, Testing test) {
    double[][] mass = new double[test.sight().findings.size()][place.p.length];
    for (int w = 0; w < place.p.length; w++) {
      for (double[] row : place.model().showing(place.worlds.get(w)).prospect(test.sight()).p()) {
        for (int y = 0; y < row.length; y++) {
          mass[y][w] += place.p[w] * row[y];
        }
      }
    }
    double sum = 0;
    for (double[] seen : mass) {
      sum += entropy(causes, seen, place.p.length);
    }
    return sum;
  }

  /** As above for a test that may bring about causes. */
  private static double afterHarm(Place place, Testing test) {
    Map<Integer, Map<Bits, Double>> mass = new LinkedHashMap<>();
    for (int w = 0; w < place.p.length; w++) {
      double pWorld = place.p[w];
      place.look(
          test,
          place.worlds.get(w),
          (y, world, q) ->
              mass.computeIfAbsent(y, k -> new LinkedHashMap<>())
                  .merge(causeSet(place, world), pWorld * q, Double::sum));
    }
    return mass.values().stream()
        .mapToDouble(m -> entropy(m.values().stream().mapToDouble(Double::doubleValue).toArray()))
        .sum();
  }
}
