package org.faultwright.planning;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.Change;
import org.faultwright.pack.Step;

/** What an attempt does to the causes of a world. Immutable. */
final class Effects {

  private final FaultLogic logic;

  /** Causes that the attempt touches, in the order in which they are tried. */
  final int[] touched;

  private final double[] cures;
  private final double[] hides;
  private final double[] harms;

  /** The bad new part that the attempt may bring, by its place in {@link #touched}; -1: none. */
  private final int newPart;

  /** Takes a world that may result, and its probability. The world belongs to the taker. */
  interface Taker {
    void take(byte[] world, double p);
  }

  Effects(FaultLogic logic, Step step) {
    this.logic = logic;
    Map<CauseId, Change> changes = logic.lineage.changes(step);
    Map<CauseId, Double> mayCause = logic.lineage.harms(step);
    Set<CauseId> all = groupsInOrder(logic, changes.keySet(), mayCause.keySet());
    touched = logic.numbersOf(all);
    cures = new double[touched.length];
    hides = new double[touched.length];
    harms = new double[touched.length];
    int i = 0;
    for (CauseId c : all) {
      cures[i] = changes.containsKey(c) ? changes.get(c).cures().p() : 0;
      hides[i] = changes.containsKey(c) ? changes.get(c).hides().p() : 0;
      harms[i++] = mayCause.getOrDefault(c, 0.0);
    }
    newPart =
        step.swap()
            .map(s -> new ArrayList<>(all).indexOf(logic.pack.parts().get(s.part()).bad()))
            .orElse(-1);
  }

  /** All causes of both, with members of a group in the order of the group. */
  private static Set<CauseId> groupsInOrder(
      FaultLogic logic, Set<CauseId> changed, Set<CauseId> harmed) {
    Set<CauseId> all = new LinkedHashSet<>(changed);
    all.addAll(harmed);
    Set<CauseId> ordered = new LinkedHashSet<>();
    for (CauseId c : all) {
      for (int member : logic.group[logic.number(c)]) {
        if (all.contains(logic.causes.get(member))) {
          ordered.add(logic.causes.get(member));
        }
      }
      ordered.add(c);
    }
    return ordered;
  }

  /** P(the attempt cures a cause | it is present), by the cause's place in {@link #touched}. */
  double pCures(int place) {
    return cures[place];
  }

  /** P(a cause is there after the attempt | it is present), at least. */
  double pStays(int cause) {
    int place = place(cause);
    return place < 0 ? 1 : place == newPart ? harms[place] : 1 - cures[place];
  }

  /** P(the attempt hides a cause | it is there afterwards). */
  double pHides(int cause) {
    int place = place(cause);
    return place < 0 ? 0 : hides[place];
  }

  /** P(the attempt brings about no cause), at least. */
  double pNoHarm() {
    double p = 1;
    for (double harm : harms) {
      p *= 1 - harm;
    }
    return p;
  }

  private int place(int cause) {
    for (int i = 0; i < touched.length; i++) {
      if (touched[i] == cause) {
        return i;
      }
    }
    return -1;
  }

  /** Causes that the attempt may bring about. */
  List<Integer> mayCause() {
    List<Integer> found = new ArrayList<>();
    for (int i = 0; i < touched.length; i++) {
      if (harms[i] > 0) {
        found.add(touched[i]);
      }
    }
    return found;
  }

  /** Hands over each world that the attempt may leave behind. */
  void spread(byte[] before, Taker taker) {
    byte[] after = before.clone();
    for (int c = 0; c < logic.causeCount(); c++) {
      after[logic.hiddenPlace(c)] = 0;
    }
    touch(0, before, after, 1, taker);
  }

  private void touch(int i, byte[] before, byte[] after, double p, Taker taker) {
    if (i == touched.length) {
      follow(0, after, p, taker);
      return;
    }
    int c = touched[i];
    if (i == newPart) {
      branch(i, before, with(after, c, 1), p * harms[i], taker);
      branch(i, before, with(after, c, 0), p * (1 - harms[i]), taker);
    } else if (before[c] == 1) {
      branch(i, before, with(after, c, 0), p * cures[i], taker);
      branch(i, before, after, p * (1 - cures[i]), taker);
    } else if (harms[i] > 0 && groupIsFree(c, before) && groupIsFree(c, after)) {
      branch(i, before, with(after, c, 1), p * harms[i], taker);
      branch(i, before, after, p * (1 - harms[i]), taker);
    } else {
      branch(i, before, after, p, taker);
    }
  }

  private void branch(int i, byte[] before, byte[] after, double p, Taker taker) {
    if (p > 0) {
      touch(i + 1, before, after, p, taker);
    }
  }

  private boolean groupIsFree(int cause, byte[] world) {
    for (int member : logic.group[cause]) {
      if (world[member] == 1) {
        return false;
      }
    }
    return true;
  }

  /** A cause comes back where a root that it follows is present. */
  private void follow(int from, byte[] world, double p, Taker taker) {
    for (int i = from; i < logic.rootsFirst.length; i++) {
      int c = logic.rootsFirst[i];
      FaultLogic.Inputs roots = logic.follows[c];
      for (int j = 0; j < roots.nodes().length && world[c] == 0; j++) {
        int bit = roots.bits()[j];
        if (world[roots.nodes()[j]] == 0 || bit == FaultLogic.NEVER) {
          continue;
        }
        if (bit == FaultLogic.ALWAYS || world[bit] == 1) {
          world[c] = 1;
        } else if (world[bit] == FaultLogic.UNKNOWN) {
          follow(i, with(world, bit, 1), p * logic.pBit(bit), taker);
          follow(i, with(world, bit, 0), p * (1 - logic.pBit(bit)), taker);
          return;
        }
      }
    }
    hide(0, world, p, taker);
  }

  /** Whatever is present now may be hidden, even if it came with the attempt. */
  private void hide(int i, byte[] world, double p, Taker taker) {
    int next = i;
    while (next < touched.length && (hides[next] == 0 || world[touched[next]] != 1)) {
      next++;
    }
    if (next == touched.length) {
      taker.take(world, p);
      return;
    }
    if (hides[next] < 1) {
      hide(next + 1, world.clone(), p * (1 - hides[next]), taker);
    }
    hide(next + 1, with(world, logic.hiddenPlace(touched[next]), 1), p * hides[next], taker);
  }

  private static byte[] with(byte[] world, int place, int value) {
    byte[] other = world.clone();
    other[place] = (byte) value;
    return other;
  }
}
