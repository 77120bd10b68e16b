package org.faultwright.planning;

import java.util.Arrays;
import org.faultwright.planning.CaseModel.Prospect;
import org.faultwright.planning.CaseModel.Showing;
import org.faultwright.planning.OpenSteps.Test;
import org.faultwright.planning.RepairTable.Spread;
import org.faultwright.planning.RepairTree.Belief;

/**
 * How likely each world is, summed over what no repair tells apart: what is believed now, and after
 * a finding of a test. Not thread-safe.
 */
final class WorldMasses {

  private final CaseModel model;
  private final DeviceModel device;
  private final Showing[] showings;
  private final double[] p;

  private double[] sums = new double[64];
  private int[] touched = new int[64];
  private int touchedCount;

  /** Worlds with what they show, and their probabilities. */
  WorldMasses(CaseModel model, Showing[] showings, double[] p) {
    this.model = model;
    this.device = model.device;
    this.showings = showings;
    this.p = p;
  }

  /** For each cause P(it is present). */
  double[] pPresent() {
    double[] pPresent = new double[model.logic.causeCount()];
    for (int w = 0; w < showings.length; w++) {
      for (int c : showings[w].present) {
        pPresent[c] += p[w];
      }
    }
    return pPresent;
  }

  /** For each world what may come out of a look. */
  Prospect[] prospects(Sight sight) {
    Prospect[] prospects = new Prospect[showings.length];
    for (int w = 0; w < prospects.length; w++) {
      prospects[w] = showings[w].prospect(sight);
    }
    return prospects;
  }

  /** For each world what may come out of two looks. */
  Prospect[] prospects(Sight first, Sight then) {
    Prospect[] prospects = new Prospect[showings.length];
    for (int w = 0; w < prospects.length; w++) {
      prospects[w] = showings[w].prospect(first, then);
    }
    return prospects;
  }

  /** Whether every finding is as likely in each world as in any other. */
  boolean tellsNothing(Prospect[] prospects) {
    double[] first = prospects[0].p()[0];
    for (int w = 0; w < prospects.length; w++) {
      if (prospects[w].futures().length != 1 || prospects[w].futures()[0] != showings[w].future) {
        return false;
      }
      double[] row = prospects[w].p()[0];
      for (int y = 0; y < row.length; y++) {
        if (Math.abs(row[y] - first[y]) > RepairSearch.ROUNDING) {
          return false;
        }
      }
    }
    return true;
  }

  /** Fills a belief with what is believed now. */
  void fill(Belief belief) {
    fill(belief, showings, p);
  }

  /** The same for other worlds, with other probabilities. */
  void fill(Belief belief, Showing[] worlds, double[] pOfWorlds) {
    touchedCount = 0;
    for (int w = 0; w < worlds.length; w++) {
      if (pOfWorlds[w] > 0) {
        addFuture(worlds[w].future, pOfWorlds[w]);
      }
    }
    handOver(belief);
  }

  /** Fills a belief with what is believed after a finding of a test, times its probability. */
  void fill(Belief belief, Test test, Prospect[] prospects, int finding) {
    boolean isAttempt = device.steps.get(test.step()).isAttempt();
    touchedCount = 0;
    for (int w = 0; w < showings.length; w++) {
      Prospect prospect = prospects[w];
      for (int f = 0; f < prospect.futures().length; f++) {
        double mass = p[w] * pOf(test, prospect.p()[f], finding);
        if (mass <= 0) {
          continue;
        }
        if (!isAttempt) {
          addFuture(prospect.futures()[f], mass);
        } else {
          Spread to = model.after(test.step(), prospect.futures()[f]);
          for (int i = 0; i < to.states().length; i++) {
            addFuture(to.states()[i], mass * to.p()[i]);
          }
        }
      }
    }
    handOver(belief);
  }

  private void handOver(Belief belief) {
    belief.clear();
    for (int i = 0; i < touchedCount; i++) {
      belief.add(touched[i], sums[touched[i]]);
      sums[touched[i]] = 0;
    }
  }

  /** P(finding and future | world), where a repeat may copy what came out before. */
  private double pOf(Test test, double[] row, int finding) {
    if (test.before().isEmpty()) {
      return row[finding];
    }
    double copies = device.steps.get(test.step()).copies();
    double fresh = (1 - copies) * row[finding];
    if (!test.sight().findings.get(finding).equals(test.before().get())) {
      return fresh;
    }
    double all = 0;
    for (double q : row) {
      all += q;
    }
    return fresh + copies * all;
  }

  private void addFuture(int future, double mass) {
    Spread spread = model.tree.rowsOf(future);
    if (sums.length < model.tree.rows()) {
      sums = Arrays.copyOf(sums, 2 * model.tree.rows());
      touched = Arrays.copyOf(touched, sums.length);
    }
    for (int i = 0; i < spread.states().length; i++) {
      double more = mass * spread.p()[i];
      int state = spread.states()[i];
      if (more > 0) {
        if (sums[state] == 0) {
          touched[touchedCount++] = state;
        }
        sums[state] += more;
      }
    }
  }
}
