package org.faultwright.faulttree;

import java.util.Arrays;

/**
 * Decision diagrams over numbered variables, in one table of shared nodes: binary decision diagrams
 * of functions (BDD), and zero-suppressed ones of families of sets (ZDD). A node is named by its
 * index; 0 is the function false and the empty family, 1 the function true and the family of the
 * empty set alone. Children always have smaller indices than what is made of them, and smaller
 * variables are nearer to the root. Not thread-safe.
 *
 * <p>No operation recurses in Java: what is not yet known is put on a stack of its own, so that
 * long chains of events cannot exhaust the thread's stack. Nodes and remembered results are
 * bounded.
 *
 * @see "R. E. Bryant, Graph-based algorithms for Boolean function manipulation, IEEE Transactions
 *     on Computers C-35(8), 1986"
 * @see "S. Minato, Zero-suppressed BDDs for set manipulation in combinatorial problems, DAC 1993"
 */
final class Diagrams {

  static final int ZERO = 0;
  static final int ONE = 1;

  /** Below every variable. */
  private static final int NO_VARIABLE = Integer.MAX_VALUE;

  private static final int UNKNOWN = -1;

  /** Remembered results for each node that is allowed. */
  private static final int RESULTS_PER_NODE = 3;

  /** Results found in all for each node that is allowed: a bound on time. */
  private static final long WORK_PER_NODE = 50;

  private enum Operation {
    AND,
    OR,
    XOR,
    /** BDD: the first and not the second. */
    AND_NOT,
    /** BDD to ZDD: the smallest sets of true variables that make the function true. */
    MINIMAL,
    /** BDD to ZDD of literals: the prime implicants. */
    PRIME,
    /** ZDD: the sets of the first that contain no set of the second. */
    WITHOUT,
    /** ZDD: the sets of the first that are not in the second. */
    DIFFERENCE,
    /** ZDD and a number: the sets with at most so many elements. */
    AT_MOST,
    /** ZDD and a variable: the sets that contain it. */
    CONTAINING,
    /** ZDD of positive literals to BDD: some set is all true. */
    UNION
  }

  private static final Operation[] OPERATIONS = Operation.values();

  private final int mostNodes;
  private final int mostResults;
  private int[] variables = new int[1024];
  private int[] lows = new int[1024];
  private int[] highs = new int[1024];
  private int size = 2;
  private int[] buckets = new int[2048];
  private int[] chain = new int[1024];

  private final LongIntMap results = new LongIntMap();
  private long[] stack = new long[256];
  private int depth;
  private long work;

  /**
   * No diagrams yet.
   *
   * @param mostNodes the most nodes that may be made, at most 2^27
   */
  Diagrams(int mostNodes) {
    this.mostNodes = mostNodes;
    this.mostResults = (int) Math.min(1L << 27, (long) mostNodes * RESULTS_PER_NODE);
    Arrays.fill(buckets, UNKNOWN);
    variables[ZERO] = NO_VARIABLE;
    variables[ONE] = NO_VARIABLE;
  }

  int size() {
    return size;
  }

  int variable(int node) {
    return variables[node];
  }

  int low(int node) {
    return lows[node];
  }

  int high(int node) {
    return highs[node];
  }

  /** The function that is true where the variable is. */
  int function(int variable) throws OverBudgetException {
    return bddNode(variable, ZERO, ONE);
  }

  int and(int f, int g) throws OverBudgetException {
    return run(Operation.AND, f, g);
  }

  int or(int f, int g) throws OverBudgetException {
    return run(Operation.OR, f, g);
  }

  int xor(int f, int g) throws OverBudgetException {
    return run(Operation.XOR, f, g);
  }

  int not(int f) throws OverBudgetException {
    return run(Operation.XOR, f, ONE);
  }

  int andNot(int f, int g) throws OverBudgetException {
    return run(Operation.AND_NOT, f, g);
  }

  /**
   * The minimal elements of the family of the sets of variables that are true where the function
   * is: its minimal cut sets.
   *
   * @see "A. Rauzy, New algorithms for fault trees analysis, Reliability Engineering and System
   *     Safety 40, 1993"
   */
  int minimal(int f) throws OverBudgetException {
    return run(Operation.MINIMAL, f, 0);
  }

  /**
   * The prime implicants, as sets of literals: {@code 2 v} says that v is true, {@code 2 v + 1}
   * that it is not.
   *
   * @see "O. Coudert, J. C. Madre, Implicit and incremental computation of primes and essential
   *     primes of Boolean functions, DAC 1992"
   */
  int prime(int f) throws OverBudgetException {
    return run(Operation.PRIME, f, 0);
  }

  int difference(int family, int gone) throws OverBudgetException {
    return run(Operation.DIFFERENCE, family, gone);
  }

  int atMost(int family, int elements) throws OverBudgetException {
    return run(Operation.AT_MOST, family, elements);
  }

  int containing(int family, int variable) throws OverBudgetException {
    return run(Operation.CONTAINING, family, variable);
  }

  int union(int family) throws OverBudgetException {
    return run(Operation.UNION, family, 0);
  }

  private int run(Operation operation, int f, int g) throws OverBudgetException {
    depth = 0;
    int result = need(operation, f, g);
    while (depth > 0) {
      long key = stack[depth - 1];
      if (results.get(key) != UNKNOWN) {
        depth--;
        continue;
      }
      int before = depth;
      int value =
          step(
              OPERATIONS[(int) (key >>> 56)],
              (int) (key >>> 28) & 0xFFFFFFF,
              (int) key & 0xFFFFFFF);
      if (value != UNKNOWN) {
        depth = before - 1;
        if (results.size() >= mostResults || ++work > WORK_PER_NODE * mostNodes) {
          throw new OverBudgetException();
        }
        results.put(key, value);
      }
    }
    int value = result != UNKNOWN ? result : need(operation, f, g);
    if (results.size() > mostResults / 2) {
      // what is remembered only saves time
      results.clear();
    }
    return value;
  }

  /** The result where it is known; else what is to be found is put on the stack. */
  private int need(Operation operation, int f, int g) {
    int simple = simple(operation, f, g);
    if (simple != UNKNOWN) {
      return simple;
    }
    boolean swap =
        f > g
            && (operation == Operation.AND
                || operation == Operation.OR
                || operation == Operation.XOR);
    long key = (long) operation.ordinal() << 56 | (long) (swap ? g : f) << 28 | (swap ? f : g);
    int known = results.get(key);
    if (known == UNKNOWN) {
      if (depth == stack.length) {
        stack = Arrays.copyOf(stack, depth * 2);
      }
      stack[depth++] = key;
    }
    return known;
  }

  private int simple(Operation operation, int f, int g) {
    return switch (operation) {
      case AND -> f == ZERO || g == ZERO ? ZERO : f == ONE || f == g ? g : g == ONE ? f : UNKNOWN;
      case OR -> f == ONE || g == ONE ? ONE : f == ZERO || f == g ? g : g == ZERO ? f : UNKNOWN;
      case XOR -> f == g ? ZERO : f == ZERO ? g : g == ZERO ? f : UNKNOWN;
      case AND_NOT -> f == ZERO || g == ONE || f == g ? ZERO : g == ZERO ? f : UNKNOWN;
      case MINIMAL, PRIME, UNION -> f <= ONE ? f : UNKNOWN;
      case WITHOUT -> f == ZERO || g == ONE || f == g ? ZERO : g == ZERO ? f : UNKNOWN;
      case DIFFERENCE -> f == ZERO || f == g ? ZERO : g == ZERO ? f : UNKNOWN;
      case AT_MOST -> f <= ONE ? f : UNKNOWN;
      case CONTAINING -> variables[f] > g ? ZERO : UNKNOWN;
    };
  }

  private int step(Operation operation, int f, int g) throws OverBudgetException {
    return switch (operation) {
      case AND, OR, XOR, AND_NOT -> pointwise(operation, f, g);
      case MINIMAL -> {
        int low = need(operation, lows[f], 0);
        int high = need(operation, highs[f], 0);
        int fresh =
            low == UNKNOWN || high == UNKNOWN ? UNKNOWN : need(Operation.WITHOUT, high, low);
        yield fresh == UNKNOWN ? UNKNOWN : zddNode(variables[f], low, fresh);
      }
      case PRIME -> prime(lows[f], highs[f], variables[f]);
      case WITHOUT -> without(f, g);
      case DIFFERENCE -> minus(f, g);
      case AT_MOST -> {
        int low = need(operation, lows[f], g);
        int high = g == 0 ? ZERO : need(operation, highs[f], g - 1);
        yield low == UNKNOWN || high == UNKNOWN ? UNKNOWN : zddNode(variables[f], low, high);
      }
      case CONTAINING -> {
        if (variables[f] == g) {
          yield zddNode(g, ZERO, highs[f]);
        }
        int low = need(operation, lows[f], g);
        int high = need(operation, highs[f], g);
        yield low == UNKNOWN || high == UNKNOWN ? UNKNOWN : zddNode(variables[f], low, high);
      }
      case UNION -> {
        int low = need(operation, lows[f], 0);
        int high = need(operation, highs[f], 0);
        int either = low == UNKNOWN || high == UNKNOWN ? UNKNOWN : need(Operation.OR, low, high);
        yield either == UNKNOWN ? UNKNOWN : bddNode(variables[f], low, either);
      }
    };
  }

  private int pointwise(Operation operation, int f, int g) throws OverBudgetException {
    int v = Math.min(variables[f], variables[g]);
    boolean splitF = variables[f] == v;
    boolean splitG = variables[g] == v;
    int low = need(operation, splitF ? lows[f] : f, splitG ? lows[g] : g);
    int high = need(operation, splitF ? highs[f] : f, splitG ? highs[g] : g);
    return low == UNKNOWN || high == UNKNOWN ? UNKNOWN : bddNode(v, low, high);
  }

  /** Those that do not mention the variable are the prime implicants of both halves together. */
  private int prime(int low, int high, int v) throws OverBudgetException {
    int both = need(Operation.AND, low, high);
    int silent = both == UNKNOWN ? UNKNOWN : need(Operation.PRIME, both, 0);
    int ifTrue = need(Operation.PRIME, high, 0);
    int ifFalse = need(Operation.PRIME, low, 0);
    if (silent == UNKNOWN || ifTrue == UNKNOWN || ifFalse == UNKNOWN) {
      return UNKNOWN;
    }
    int onlyTrue = need(Operation.DIFFERENCE, ifTrue, silent);
    int onlyFalse = need(Operation.DIFFERENCE, ifFalse, silent);
    return onlyTrue == UNKNOWN || onlyFalse == UNKNOWN
        ? UNKNOWN
        : zddNode(2 * v, zddNode(2 * v + 1, silent, onlyFalse), onlyTrue);
  }

  private int without(int f, int g) throws OverBudgetException {
    if (variables[f] < variables[g]) {
      int low = need(Operation.WITHOUT, lows[f], g);
      int high = need(Operation.WITHOUT, highs[f], g);
      return low == UNKNOWN || high == UNKNOWN ? UNKNOWN : zddNode(variables[f], low, high);
    } else if (variables[f] > variables[g]) {
      return need(Operation.WITHOUT, f, lows[g]);
    }
    int low = need(Operation.WITHOUT, lows[f], lows[g]);
    int some = need(Operation.WITHOUT, highs[f], highs[g]);
    int high = some == UNKNOWN ? UNKNOWN : need(Operation.WITHOUT, some, lows[g]);
    return low == UNKNOWN || high == UNKNOWN ? UNKNOWN : zddNode(variables[f], low, high);
  }

  private int minus(int f, int g) throws OverBudgetException {
    if (variables[f] < variables[g]) {
      int low = need(Operation.DIFFERENCE, lows[f], g);
      return low == UNKNOWN ? UNKNOWN : zddNode(variables[f], low, highs[f]);
    } else if (variables[f] > variables[g]) {
      return need(Operation.DIFFERENCE, f, lows[g]);
    }
    int low = need(Operation.DIFFERENCE, lows[f], lows[g]);
    int high = need(Operation.DIFFERENCE, highs[f], highs[g]);
    return low == UNKNOWN || high == UNKNOWN ? UNKNOWN : zddNode(variables[f], low, high);
  }

  private int bddNode(int variable, int low, int high) throws OverBudgetException {
    return low == high ? low : node(variable, low, high);
  }

  private int zddNode(int variable, int low, int high) throws OverBudgetException {
    return high == ZERO ? low : node(variable, low, high);
  }

  private int node(int variable, int low, int high) throws OverBudgetException {
    int hash = hash(variable, low, high);
    for (int n = buckets[hash & buckets.length - 1]; n != UNKNOWN; n = chain[n]) {
      if (variables[n] == variable && lows[n] == low && highs[n] == high) {
        return n;
      }
    }
    if (size >= mostNodes) {
      throw new OverBudgetException();
    }
    if (size == variables.length) {
      grow();
    }
    variables[size] = variable;
    lows[size] = low;
    highs[size] = high;
    int bucket = hash & buckets.length - 1;
    chain[size] = buckets[bucket];
    buckets[bucket] = size;
    return size++;
  }

  private void grow() {
    int more = size * 2;
    variables = Arrays.copyOf(variables, more);
    lows = Arrays.copyOf(lows, more);
    highs = Arrays.copyOf(highs, more);
    chain = Arrays.copyOf(chain, more);
    buckets = new int[more * 2];
    Arrays.fill(buckets, UNKNOWN);
    for (int n = 2; n < size; n++) {
      int bucket = hash(variables[n], lows[n], highs[n]) & buckets.length - 1;
      chain[n] = buckets[bucket];
      buckets[bucket] = n;
    }
  }

  private static int hash(int a, int b, int c) {
    int h = a * 0x9E3779B1 + b * 0x85EBCA6B + c * 0xC2B2AE35;
    return h ^ h >>> 15;
  }
}
