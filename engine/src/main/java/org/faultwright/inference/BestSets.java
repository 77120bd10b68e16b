package org.faultwright.inference;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.PriorityQueue;

/**
 * The most probable complete accounts of some variables: which of certain states they are in and
 * which not, all other variables summed over. Found exactly, best first: the probability of a
 * partial account bounds that of every account that completes it, and one evaluation of the circuit
 * gives the bounds of both ways to go on.
 *
 * @see "J. Park, A. Darwiche, Solving MAP exactly using systematic search, UAI 2003, from which
 *     this differs by bounding with the plain sum"
 */
public final class BestSets {

  /** Closer than this to 0 or 1, a marginal is taken for settled. */
  private static final double SETTLED = 1e-15;

  /**
   * A state of a variable.
   *
   * @param variable a variable that can be observed
   */
  public record Literal(int variable, int state) {}

  /**
   * An account.
   *
   * @param holds for each literal whether it holds
   * @param p P(account | evidence)
   */
  public record Account(boolean[] holds, double p) {}

  /**
   * What was found.
   *
   * @param accounts the most probable first; fewer than asked for where there are no more
   * @param isExact false when the search was given up: then likelier accounts may be missing
   */
  public record Found(List<Account> accounts, boolean isExact) {}

  private record Partial(byte[] decided, double p, int number) {}

  private static final byte OPEN = -1;

  private final Evaluation evaluation;
  private final List<Literal> literals;
  private final double[][] start;
  private final double logTotal;

  private BestSets(Circuit circuit, List<Literal> literals) {
    this.literals = literals;
    int[] variables = literals.stream().mapToInt(Literal::variable).distinct().toArray();
    evaluation = circuit.asking(variables).evaluation();
    start = new double[circuit.variables()][];
    for (int v : variables) {
      start[v] = new double[circuit.states(v)];
      for (int s = 0; s < start[v].length; s++) {
        start[v][s] = evaluation.weight(v, s);
      }
    }
    logTotal = evaluation.upward();
  }

  /**
   * Finds the most probable accounts.
   *
   * @param circuit with the evidence as its starting weights, as {@link Evaluation#given} makes it;
   *     the evidence is possible
   * @param count how many
   * @param mostEvaluations when to give up
   */
  public static Found find(
      Circuit circuit, List<Literal> literals, int count, int mostEvaluations) {
    return new BestSets(circuit, literals).search(count, mostEvaluations);
  }

  private Found search(int count, int mostEvaluations) {
    PriorityQueue<Partial> open =
        new PriorityQueue<>(
            Comparator.comparingDouble((Partial a) -> -a.p).thenComparingInt(a -> a.number));
    byte[] nothing = new byte[literals.size()];
    Arrays.fill(nothing, OPEN);
    int number = 0;
    open.add(new Partial(nothing, 1, number++));
    List<Account> accounts = new ArrayList<>();
    int evaluations = 0;
    while (accounts.size() < count && !open.isEmpty() && evaluations++ < mostEvaluations) {
      Partial best = open.poll();
      double p = evaluate(best.decided);
      if (p == 0) {
        continue;
      }
      int split = mostUncertain(best.decided);
      if (split < 0) {
        accounts.add(new Account(settled(best.decided), p));
        continue;
      }
      double holds = marginal(split);
      for (byte value = 1; value >= 0; value--) {
        byte[] more = best.decided.clone();
        more[split] = value;
        open.add(new Partial(more, p * (value == 1 ? holds : 1 - holds), number++));
      }
    }
    accounts.sort(Comparator.comparingDouble(a -> -a.p));
    return new Found(List.copyOf(accounts), accounts.size() == count || open.isEmpty());
  }

  private double evaluate(byte[] decided) {
    for (Literal l : literals) {
      for (int s = 0; s < start[l.variable].length; s++) {
        evaluation.setWeight(l.variable, s, start[l.variable][s]);
      }
    }
    for (int i = 0; i < decided.length; i++) {
      Literal l = literals.get(i);
      for (int s = 0; decided[i] != OPEN && s < start[l.variable].length; s++) {
        if ((s == l.state) != (decided[i] == 1)) {
          evaluation.setWeight(l.variable, s, 0);
        }
      }
    }
    double logP = evaluation.upward();
    evaluation.downwardEvenIfImpossible();
    return Math.exp(logP - logTotal);
  }

  private double marginal(int literal) {
    Literal l = literals.get(literal);
    return Math.min(1, evaluation.marginal(l.variable, l.state));
  }

  private int mostUncertain(byte[] decided) {
    int split = -1;
    double most = SETTLED;
    for (int i = 0; i < decided.length; i++) {
      if (decided[i] == OPEN) {
        double p = marginal(i);
        if (Math.min(p, 1 - p) > most) {
          most = Math.min(p, 1 - p);
          split = i;
        }
      }
    }
    return split;
  }

  private boolean[] settled(byte[] decided) {
    boolean[] holds = new boolean[decided.length];
    for (int i = 0; i < holds.length; i++) {
      holds[i] = decided[i] == 1 || decided[i] == OPEN && marginal(i) > 0.5;
    }
    return holds;
  }
}
