package org.faultwright.planning;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.function.BiFunction;
import org.faultwright.planning.PlanNode.Ending;

/**
 * Jobs on devices that are drawn from what is believed: each device is in one world, its steps show
 * and change what chance has them, and the policy sees no more than a technician would. Harm is
 * counted by what it costs on average; a comeback is drawn. Not thread-safe.
 */
final class Simulation {

  private final PolicyTree.Node root;
  private final Shop shop;
  private final SplittableRandom random;

  /** What may come of what is done at a node in a world. */
  private final Map<PolicyTree.Node, Map<Bits, Chances>> chances = new IdentityHashMap<>();

  /**
   * What may come, with running sums of probabilities.
   *
   * @param branches after a test the finding; after a repair 0: passed, 1: failed
   */
  private record Chances(List<byte[]> worlds, List<Integer> branches, List<Double> sums) {
    int draw(SplittableRandom random) {
      double left = random.nextDouble() * sums.get(sums.size() - 1);
      int low = 0;
      int high = sums.size() - 1;
      while (low < high) {
        int middle = (low + high) / 2;
        if (sums.get(middle) > left) {
          high = middle;
        } else {
          low = middle + 1;
        }
      }
      return low;
    }
  }

  /** How one job went. */
  private record Went(Spend spend, Ending ending, boolean comesBack) {}

  private Simulation(PolicyTree.Node root, Shop shop, SplittableRandom random) {
    this.root = root;
    this.shop = shop;
    this.random = random;
  }

  /**
   * Simulates a policy that has been worked out.
   *
   * @param devices how many, at least 2
   * @param seed the same seed gives the same jobs
   */
  static Simulated of(PolicyTree tree, Shop shop, int devices, long seed) {
    return new Simulation(tree.root(), shop, new SplittableRandom(seed)).run(devices);
  }

  private Simulated run(int devices) {
    double[] cost = new double[devices];
    double[] hands = new double[devices];
    Map<Ending, Double> endings = new EnumMap<>(Ending.class);
    for (Ending e : Ending.values()) {
      endings.put(e, 0.0);
    }
    double comebacks = 0;
    double[] sums = new double[root.place.p.length];
    double sum = 0;
    for (int w = 0; w < sums.length; w++) {
      sum += root.place.p[w];
      sums[w] = sum;
    }
    for (int d = 0; d < devices; d++) {
      double left = random.nextDouble() * sum;
      int world = 0;
      while (world < sums.length - 1 && sums[world] <= left) {
        world++;
      }
      Went went = job(root.place.worlds.get(world));
      cost[d] = went.spend.cost(shop);
      hands[d] = went.spend.hands();
      endings.merge(went.ending, 1.0 / devices, Double::sum);
      comebacks += went.comesBack ? 1.0 / devices : 0;
    }
    return new Simulated(
        devices, mean(cost), error(cost), mean(hands), error(hands), endings, comebacks);
  }

  private Went job(byte[] device) {
    PolicyTree.Node at = root;
    byte[] world = device;
    Spend spend = Spend.NOTHING;
    while (true) {
      PlanNode written = at.written();
      if (written instanceof PlanNode.DoTest test) {
        Chances c = chances(at, world, Simulation::afterTest);
        int drawn = c.draw(random);
        spend = spend.plus(test.spend());
        world = c.worlds.get(drawn);
        Seen seen = finding(at, c.branches.get(drawn));
        at = at.next.get(at.seen.indexOf(seen));
      } else if (written instanceof PlanNode.DoRepair repair) {
        Chances c = chances(at, world, Simulation::afterRepair);
        int drawn = c.draw(random);
        spend = spend.plus(repair.spend());
        world = c.worlds.get(drawn);
        if (c.branches.get(drawn) == 0 || at.next.isEmpty()) {
          return handedOver(at, world, spend, (PlanNode.End) repair.ifPassed());
        }
        at = at.next.get(0);
      } else {
        PlanNode.End end = (PlanNode.End) written;
        return end.ending() == Ending.REPAIRED
            ? handedOver(at, world, spend, end)
            : new Went(spend.plus(end.spend()), end.ending(), false);
      }
    }
  }

  private Went handedOver(PolicyTree.Node at, byte[] world, Spend before, PlanNode.End end) {
    boolean comesBack = random.nextDouble() < at.place.pLost(world);
    Spend close = new Spend(end.spend().hands(), end.spend().waiting(), end.spend().money(), 0);
    Spend comeback = new Spend(0, 0, 0, comesBack ? at.place.costs().comeback : 0);
    return new Went(before.plus(close).plus(comeback), Ending.REPAIRED, comesBack);
  }

  private Chances chances(
      PolicyTree.Node node, byte[] world, BiFunction<PolicyTree.Node, byte[], Chances> find) {
    return chances
        .computeIfAbsent(node, n -> new HashMap<>())
        .computeIfAbsent(new Bits(world), b -> find.apply(node, world));
  }

  private static Seen finding(PolicyTree.Node at, int finding) {
    return ((Policy.Choice.Test) at.choice).test().sight().findings.get(finding);
  }

  private static Chances afterTest(PolicyTree.Node at, byte[] world) {
    Chances found = new Chances(new ArrayList<>(), new ArrayList<>(), new ArrayList<>());
    double[] sum = new double[1];
    at.place.look(
        ((Policy.Choice.Test) at.choice).test(),
        world,
        (y, after, q) -> {
          if (at.seen.contains(finding(at, y))) {
            add(found, sum, y, after, q);
          }
        });
    return found;
  }

  private static Chances afterRepair(PolicyTree.Node at, byte[] world) {
    Chances found = new Chances(new ArrayList<>(), new ArrayList<>(), new ArrayList<>());
    double[] sum = new double[1];
    at.place.tryOut(
        ((Policy.Choice.Repair) at.choice).repair(),
        world,
        (passes, after, q) -> add(found, sum, passes ? 0 : 1, after, q));
    return found;
  }

  private static void add(Chances found, double[] sum, int branch, byte[] after, double q) {
    sum[0] += q;
    found.worlds.add(after.clone());
    found.branches.add(branch);
    found.sums.add(sum[0]);
  }

  private static double mean(double[] values) {
    double sum = 0;
    for (double v : values) {
      sum += v;
    }
    return sum / values.length;
  }

  private static double error(double[] values) {
    double mean = mean(values);
    double squares = 0;
    for (double v : values) {
      squares += (v - mean) * (v - mean);
    }
    return Math.sqrt(squares / (values.length - 1) / values.length);
  }
}
