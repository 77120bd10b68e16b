package org.faultwright.oracle;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Function;

/**
 * Runs a program that draws chances once for every way in which its draws can come out.
 *
 * <p>The program runs from its start for each path. A draw that an earlier run has not met takes
 * its first alternative; after each run, the last draw that has an alternative left takes the next
 * one, and what was drawn after it is forgotten. Only draws that a program asks for branch, so what
 * does not matter costs nothing: the probabilities of its alternatives would sum to 1.
 */
final class EveryPath implements Chances {

  /** A draw on the current path: its name, its alternatives, and the one that is taken. */
  private static final class Fork {
    final double[] p;
    int taken;

    Fork(double[] p) {
      this.p = p.clone();
      this.taken = firstPossible(p, 0);
    }
  }

  private final List<Fork> path = new ArrayList<>();
  private final Map<Object, Integer> drawn = new HashMap<>();
  private int length;

  private EveryPath() {}

  @Override
  public int draw(Object name, double[] p) {
    Integer known = drawn.get(name);
    if (known != null) {
      return known;
    }
    if (length == path.size()) {
      path.add(new Fork(p));
    }
    int taken = path.get(length++).taken;
    drawn.put(name, taken);
    return taken;
  }

  /** Whether something of this name has been drawn on the current path. */
  boolean isDrawn(Object name) {
    return drawn.containsKey(name);
  }

  /**
   * What a program yields on one path.
   *
   * @param weight P(what is known | this path); 0: the path is dropped
   */
  record Outcome<T>(double weight, T result) {}

  /**
   * P(what is known, result) for every result that the program can yield.
   *
   * @param mostPaths how many paths may be run
   * @throws TooManyWorldsException when there are more
   */
  static <T> Map<T, Double> sum(Function<EveryPath, Outcome<T>> program, long mostPaths) {
    Map<T, Double> sums = new LinkedHashMap<>();
    EveryPath every = new EveryPath();
    for (long run = 1; ; run++) {
      if (run > mostPaths) {
        throw new TooManyWorldsException(mostPaths);
      }
      every.length = 0;
      every.drawn.clear();
      Outcome<T> outcome = program.apply(every);
      if (outcome.weight() > 0) {
        sums.merge(outcome.result(), every.pPath() * outcome.weight(), Double::sum);
      }
      if (!every.turnToNext()) {
        return sums;
      }
    }
  }

  private double pPath() {
    double p = 1;
    for (Fork fork : path) {
      p *= fork.p[fork.taken];
    }
    return p;
  }

  private boolean turnToNext() {
    while (!path.isEmpty()) {
      Fork last = path.get(path.size() - 1);
      last.taken = firstPossible(last.p, last.taken + 1);
      if (last.taken < last.p.length) {
        return true;
      }
      path.remove(path.size() - 1);
    }
    return false;
  }

  private static int firstPossible(double[] p, int from) {
    int i = from;
    while (i < p.length && p[i] == 0) {
      i++;
    }
    return i;
  }
}
