package org.faultwright.inference;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * Independent causes, and findings that each are a noisy any of some of them. What is found is
 * answered without building anything: negative findings are absorbed into the priors, and over the
 * positive ones runs a sum over which of them are explained so far, one cause after another,
 * forward and backward. Only sums and products of numbers that are not negative, so that no digits
 * are lost. Immutable; safe for any number of threads.
 *
 * <p>Cost: about {@code 4 n 2^k} operations for k positive findings and the n causes that can bring
 * one of them about, whatever the number of causes and negative findings.
 *
 * @see "D. Heckerman, A tractable inference algorithm for diagnosing multiple diseases, UAI 1989,
 *     which sums over the subsets of the positive findings by inclusion and exclusion"
 */
public final class TwoLevelNetwork {

  /**
   * A finding.
   *
   * @param causes numbers of the causes that bring it about, each once
   * @param pActs for each of them P(it alone brings the finding about | it is present)
   * @param pOtherwise P(finding | no cause present)
   */
  public record Finding(int[] causes, double[] pActs, double pOtherwise) {

    /** Copies the arrays and checks the domain. */
    public Finding {
      causes = causes.clone();
      pActs = pActs.clone();
      if (causes.length != pActs.length) {
        throw new IllegalArgumentException(
            "pActs must be as many as causes: " + pActs.length + " for " + causes.length);
      }
      check("pOtherwise", pOtherwise);
      for (double p : pActs) {
        check("pActs", p);
      }
    }
  }

  private final double[] priors;
  private final List<Finding> findings;

  /**
   * A network.
   *
   * @param priors P(present) of each cause
   */
  public TwoLevelNetwork(double[] priors, List<Finding> findings) {
    this.priors = priors.clone();
    this.findings = List.copyOf(findings);
    for (double p : priors) {
      check("prior", p);
    }
    for (Finding f : findings) {
      for (int c : f.causes) {
        if (c < 0 || c >= priors.length) {
          throw new IllegalArgumentException("cause must be one of " + priors.length + ": " + c);
        }
      }
    }
  }

  private static void check(String name, double p) {
    if (!(p >= 0 && p <= 1)) {
      throw new IllegalArgumentException(name + " must be in [0, 1]: " + p);
    }
  }

  /**
   * A cause on the way: what it weighs absent and present, and which positive findings it feeds.
   */
  private record Stage(int cause, double absent, double present, int[] bits, double[] pActs) {

    /** What becomes of a distribution over explained findings when the cause is present. */
    void forward(double[] masks) {
      for (int i = 0; i < bits.length; i++) {
        double acts = pActs[i];
        double fails = 1 - acts;
        int bit = 1 << bits[i];
        for (int m = 0; m < masks.length; m++) {
          if ((m & bit) == 0) {
            masks[m | bit] += acts * masks[m];
            masks[m] *= fails;
          }
        }
      }
    }

    /** The transpose of {@link #forward}. */
    void backward(double[] masks) {
      for (int i = bits.length - 1; i >= 0; i--) {
        double acts = pActs[i];
        double fails = 1 - acts;
        int bit = 1 << bits[i];
        for (int m = 0; m < masks.length; m++) {
          if ((m & bit) == 0) {
            masks[m] = fails * masks[m] + acts * masks[m | bit];
          }
        }
      }
    }
  }

  /**
   * How likely each cause is.
   *
   * @param positive numbers of the findings that are there, each once
   * @param negative numbers of the findings that are not
   * @param budget the most numbers that may be kept
   * @return {@link Marginals.Exact} with P(absent) and P(present) of each cause, {@link
   *     Marginals.Impossible} or {@link Marginals.OverBudget}
   */
  public Marginals posteriors(int[] positive, int[] negative, double budget) {
    double[] present = priors.clone();
    double logP = 0;
    for (int f : negative) {
      Finding finding = findings.get(f);
      logP += Math.log(1 - finding.pOtherwise);
      for (int i = 0; i < finding.causes.length; i++) {
        present[finding.causes[i]] *= 1 - finding.pActs[i];
      }
    }
    double[][] p = new double[priors.length][];
    for (int c = 0; c < p.length; c++) {
      double total = 1 - priors[c] + present[c];
      logP += Math.log(total);
      p[c] = new double[] {(1 - priors[c]) / total, present[c] / total};
    }
    if (logP == Double.NEGATIVE_INFINITY) {
      return new Marginals.Impossible();
    }
    List<Stage> stages = stages(positive, p);
    double size = (stages.size() + 2) * Math.pow(2, positive.length);
    if (size > budget) {
      return new Marginals.OverBudget(Double.POSITIVE_INFINITY, size, budget);
    }
    double pPositive = sweep(stages, positive, p);
    if (pPositive == 0) {
      return new Marginals.Impossible();
    }
    Map<Integer, double[]> all = new LinkedHashMap<>();
    for (int c = 0; c < p.length; c++) {
      all.put(c, p[c]);
    }
    return new Marginals.Exact(Marginals.Route.PER_CASE, size, logP + Math.log(pPositive), all);
  }

  private List<Stage> stages(int[] positive, double[][] p) {
    int[] count = new int[priors.length];
    int[] order = new int[priors.length];
    int n = 0;
    for (int f : positive) {
      for (int c : findings.get(f).causes) {
        if (count[c]++ == 0) {
          order[n++] = c;
        }
      }
    }
    List<Stage> stages = new ArrayList<>(n);
    Stage[] of = new Stage[priors.length];
    for (int i = 0; i < n; i++) {
      int c = order[i];
      of[c] = new Stage(c, p[c][0], p[c][1], new int[count[c]], new double[count[c]]);
      stages.add(of[c]);
    }
    for (int j = 0; j < positive.length; j++) {
      Finding f = findings.get(positive[j]);
      for (int i = 0; i < f.causes.length; i++) {
        Stage stage = of[f.causes[i]];
        int at = --count[f.causes[i]];
        stage.bits[at] = j;
        stage.pActs[at] = f.pActs[i];
      }
    }
    return stages;
  }

  /** Fills in what the positive findings make of the causes; returns their probability. */
  private double sweep(List<Stage> stages, int[] positive, double[][] p) {
    int size = 1 << positive.length;
    double[][] before = new double[stages.size() + 1][];
    before[0] = new double[size];
    before[0][0] = 1;
    for (int j = 0; j < positive.length; j++) {
      double pOtherwise = findings.get(positive[j]).pOtherwise;
      for (int m = (1 << j) - 1; m >= 0; m--) {
        before[0][m | 1 << j] = before[0][m] * pOtherwise;
        before[0][m] *= 1 - pOtherwise;
      }
    }
    for (int i = 0; i < stages.size(); i++) {
      Stage stage = stages.get(i);
      double[] moved = before[i].clone();
      stage.forward(moved);
      for (int m = 0; m < size; m++) {
        moved[m] = stage.absent * before[i][m] + stage.present * moved[m];
      }
      before[i + 1] = moved;
    }
    double pPositive = before[stages.size()][size - 1];
    double[] after = new double[size];
    after[size - 1] = 1;
    for (int i = stages.size() - 1; i >= 0 && pPositive > 0; i--) {
      Stage stage = stages.get(i);
      double[] ifPresent = after.clone();
      stage.backward(ifPresent);
      double joint = 0;
      double other = 0;
      for (int m = 0; m < size; m++) {
        joint += before[i][m] * ifPresent[m];
        other += before[i][m] * after[m];
        after[m] = stage.absent * after[m] + stage.present * ifPresent[m];
      }
      p[stage.cause] =
          new double[] {stage.absent * other / pPositive, stage.present * joint / pPositive};
    }
    return pPositive;
  }
}
