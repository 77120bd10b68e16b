package org.faultwright.faulttree;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.PriorityQueue;

/**
 * A family of sets in a zero-suppressed diagram, with a probability for each element: counts, sums
 * and the most likely sets, none of which needs all sets to be written out.
 */
final class Family {

  /** Paths that may be open while sets are listed: a bound on memory. */
  private static final int MOST_OPEN = 1_000_000;

  private final Diagrams diagrams;
  private final int root;
  private final double[] p;
  private final double[] counts;
  private final double[] sums;
  private final double[] best;

  /**
   * A family.
   *
   * @param p probability of each variable of the diagram
   */
  Family(Diagrams diagrams, int root, double[] p) {
    this.diagrams = diagrams;
    this.root = root;
    this.p = p;
    counts = new double[root + 2];
    sums = new double[root + 2];
    best = new double[root + 2];
    counts[Diagrams.ONE] = 1;
    sums[Diagrams.ONE] = 1;
    best[Diagrams.ONE] = 1;
    boolean[] used = used();
    for (int n = 2; n <= root; n++) {
      if (used[n]) {
        int low = diagrams.low(n);
        int high = diagrams.high(n);
        double pv = p[diagrams.variable(n)];
        counts[n] = counts[low] + counts[high];
        sums[n] = sums[low] + pv * sums[high];
        best[n] = Math.max(best[low], pv * best[high]);
      }
    }
  }

  private boolean[] used() {
    boolean[] used = new boolean[root + 2];
    used[root] = true;
    for (int n = root; n >= 2; n--) {
      if (used[n]) {
        used[diagrams.low(n)] = true;
        used[diagrams.high(n)] = true;
      }
    }
    return used;
  }

  double count() {
    return counts[root];
  }

  double pSum() {
    return sums[root];
  }

  /** How many sets have how many elements, up to a number of elements. */
  Map<Integer, Double> countsByOrder(int most) {
    Map<Integer, Double> found = new LinkedHashMap<>();
    boolean[] used = used();
    double[] fewer = new double[root + 2];
    double left = count();
    for (int order = 0; order <= most && left > 0; order++) {
      double[] exactly = new double[root + 2];
      exactly[Diagrams.ONE] = order == 0 ? 1 : 0;
      for (int n = 2; n <= root; n++) {
        if (used[n]) {
          exactly[n] = exactly[diagrams.low(n)] + fewer[diagrams.high(n)];
        }
      }
      if (exactly[root] > 0) {
        found.put(order, exactly[root]);
        left -= exactly[root];
      }
      fewer = exactly;
    }
    return found;
  }

  /** 1 - prod(1 - P(set)); empty where there are more sets than that. */
  OptionalDouble minCutUpperBound(double most) {
    if (count() > most) {
      return OptionalDouble.empty();
    }
    double logNone = 0;
    List<Integer> nodes = new ArrayList<>();
    List<Double> products = new ArrayList<>();
    nodes.add(root);
    products.add(1.0);
    while (!nodes.isEmpty()) {
      int n = nodes.remove(nodes.size() - 1);
      double product = products.remove(products.size() - 1);
      if (n == Diagrams.ONE) {
        logNone += Math.log1p(-product);
      } else if (n != Diagrams.ZERO) {
        nodes.add(diagrams.low(n));
        products.add(product);
        nodes.add(diagrams.high(n));
        products.add(product * p[diagrams.variable(n)]);
      }
    }
    return OptionalDouble.of(Math.max(0, -Math.expm1(logNone)));
  }

  /** A set in the making: what has been chosen, and what can still be reached. */
  private record Path(
      int node, double product, double bound, int length, Chosen chosen, long age) {}

  private record Chosen(int variable, Chosen before) {}

  /**
   * The most likely sets.
   *
   * @param sets their elements and probabilities, most likely first
   * @param tooUnlikely how many are below the cutoff, and the sum of their probabilities
   * @param noRoom how many more there are, and the sum of their probabilities
   */
  record Listing(
      List<Listed> sets, CutSets.LeftOut.Part tooUnlikely, CutSets.LeftOut.Part noRoom) {}

  /** A set of elements and the product of their probabilities. */
  record Listed(int[] elements, double p) {}

  /** Finds the most likely sets, best first: what cannot lead to one is never looked at. */
  Listing list(double pCutoff, int most) {
    PriorityQueue<Path> open =
        new PriorityQueue<>(
            Comparator.comparingDouble((Path x) -> -x.bound)
                .thenComparingInt(Path::length)
                .thenComparingLong(Path::age));
    long age = 0;
    List<Listed> found = new ArrayList<>();
    if (root != Diagrams.ZERO) {
      open.add(new Path(root, 1, best[root], 0, null, age++));
    }
    while (!open.isEmpty()
        && open.peek().bound >= pCutoff
        && found.size() < most
        && open.size() < MOST_OPEN) {
      Path path = open.poll();
      if (path.node == Diagrams.ONE) {
        found.add(new Listed(elements(path), path.product));
        continue;
      }
      int low = diagrams.low(path.node);
      int high = diagrams.high(path.node);
      int v = diagrams.variable(path.node);
      double product = path.product * p[v];
      open.add(
          new Path(
              high,
              product,
              product * best[high],
              path.length + 1,
              new Chosen(v, path.chosen),
              age++));
      if (low != Diagrams.ZERO) {
        open.add(
            new Path(low, path.product, path.product * best[low], path.length, path.chosen, age++));
      }
    }
    CutSets.LeftOut.Part unlikely = CutSets.LeftOut.Part.NONE;
    CutSets.LeftOut.Part noRoom = CutSets.LeftOut.Part.NONE;
    for (Path path : open) {
      double more = counts[path.node];
      double pMore = path.product * sums[path.node];
      if (path.bound < pCutoff) {
        unlikely = unlikely.and(more, pMore);
      } else {
        noRoom = noRoom.and(more, pMore);
      }
    }
    return new Listing(found, unlikely, noRoom);
  }

  private static int[] elements(Path path) {
    int[] elements = new int[path.length];
    Chosen chosen = path.chosen;
    for (int i = path.length - 1; i >= 0; i--) {
      elements[i] = chosen.variable;
      chosen = chosen.before;
    }
    return elements;
  }
}
