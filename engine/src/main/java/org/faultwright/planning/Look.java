package org.faultwright.planning;

import java.util.Arrays;
import org.faultwright.planning.FaultLogic.Inputs;

/**
 * One look at a world: what acts and which events hold, as far as is settled. Values are 0, 1 or
 * {@link FaultLogic#UNKNOWN}. Scratch space of a search; not thread-safe.
 *
 * <p>Unknown are the bits that nobody has resolved, whether a cause that comes and goes acts in
 * this look, and what the caller has made unknown. {@link #pivot} names one of the first two kinds
 * on which an unknown value hangs, so that a caller can try it both ways.
 */
final class Look {

  /** Nothing that can be tried both ways. */
  static final int NO_PIVOT = Integer.MAX_VALUE;

  private static final byte UNKNOWN = FaultLogic.UNKNOWN;

  private final FaultLogic logic;
  private final byte[] memo;
  private final int[] memoAt;
  private int now;

  private byte[] world;
  private double[] pActs;

  /** For each cause whether it acts in this look, where that has been tried. */
  private final byte[] draws;

  /** Whether hidden causes count as acting: to the customer they come back. */
  private boolean hiddenToo;

  Look(FaultLogic logic) {
    this.logic = logic;
    memo = new byte[logic.nodeCount()];
    memoAt = new int[logic.nodeCount()];
    draws = new byte[logic.causeCount()];
    Arrays.fill(draws, UNKNOWN);
  }

  /**
   * Turns to a world. The caller may change it while looking, and then says {@link #changed}.
   *
   * @param pActs for each cause P(it acts | present and not hidden)
   */
  void at(byte[] world, double[] pActs, boolean hiddenToo) {
    this.world = world;
    this.pActs = pActs;
    this.hiddenToo = hiddenToo;
    changed();
  }

  void changed() {
    now++;
  }

  byte[] world() {
    return world;
  }

  /** Whether a cause acts. */
  byte acts(int cause) {
    byte present = world[cause];
    if (present == 0) {
      return 0;
    }
    byte hidden = hiddenToo ? 0 : world[logic.hiddenPlace(cause)];
    if (hidden == 1) {
      return 0;
    }
    double p = pActs[cause];
    if (p == 0) {
      return 0;
    }
    byte acting = p == 1 ? 1 : draws[cause];
    return acting == 0 ? 0 : present == UNKNOWN || hidden == UNKNOWN ? UNKNOWN : acting;
  }

  /** Whether a node acts: a cause by itself, or an event. */
  byte value(int node) {
    return node < logic.causeCount() ? acts(node) : holds(node);
  }

  /** Whether the input of an event acts: for a cause, itself or a bad new part in its place. */
  byte inputValue(int node) {
    byte value = value(node);
    if (node < logic.causeCount()) {
      for (int bad : logic.standIns[node]) {
        value = or(value, acts(bad));
      }
    }
    return value;
  }

  private byte holds(int node) {
    if (memoAt[node] == now) {
      return memo[node];
    }
    int e = node - logic.causeCount();
    Inputs inputs = logic.inputs[e];
    int sure = 0;
    int possible = 0;
    for (int i = 0; i < inputs.nodes().length; i++) {
      byte v = and(inputValue(inputs.nodes()[i]), bit(inputs.bits()[i]));
      sure += v == 1 ? 1 : 0;
      possible += v == 0 ? 0 : 1;
    }
    byte met = sure >= logic.atLeast[e] ? 1 : possible >= logic.atLeast[e] ? UNKNOWN : 0;
    byte value = logic.negated[e] && met != UNKNOWN ? (byte) (1 - met) : met;
    value = or(value, bit(logic.otherwise[e]));
    memo[node] = value;
    memoAt[node] = now;
    return value;
  }

  /** A noisy any of nodes that look at the device directly. */
  byte any(Inputs triggers) {
    byte value = 0;
    for (int i = 0; i < triggers.nodes().length; i++) {
      value = or(value, and(value(triggers.nodes()[i]), bit(triggers.bits()[i])));
    }
    return value;
  }

  byte bit(int place) {
    return bit(world, place);
  }

  /** The value of a strength or otherwise in a world. */
  static byte bit(byte[] world, int place) {
    return place == FaultLogic.ALWAYS ? 1 : place == FaultLogic.NEVER ? 0 : world[place];
  }

  private static byte and(byte a, byte b) {
    return a == 0 || b == 0 ? 0 : a == UNKNOWN || b == UNKNOWN ? UNKNOWN : 1;
  }

  private static byte or(byte a, byte b) {
    return a == 1 || b == 1 ? 1 : a == UNKNOWN || b == UNKNOWN ? UNKNOWN : 0;
  }

  // What an unknown value hangs on.

  /**
   * Something on which the unknown value of a node hangs and which can be tried both ways: the
   * place of a bit, or {@code -1 - cause} for whether a cause acts in this look.
   */
  int pivot(int node) {
    return node < logic.causeCount() ? pivotOfCause(node) : pivotOfEvent(node);
  }

  private int pivotOfCause(int cause) {
    return acts(cause) == UNKNOWN && pActs[cause] < 1 && draws[cause] == UNKNOWN
        ? -1 - cause
        : NO_PIVOT;
  }

  private int pivotOfInput(int node) {
    int pivot = value(node) == UNKNOWN ? pivot(node) : NO_PIVOT;
    if (node < logic.causeCount()) {
      for (int bad : logic.standIns[node]) {
        pivot = pivot != NO_PIVOT ? pivot : pivotOfCause(bad);
      }
    }
    return pivot;
  }

  private int pivotOfEvent(int node) {
    int e = node - logic.causeCount();
    Inputs inputs = logic.inputs[e];
    for (int i = 0; i < inputs.nodes().length; i++) {
      byte value = inputValue(inputs.nodes()[i]);
      byte bit = bit(inputs.bits()[i]);
      if (and(value, bit) != UNKNOWN) {
        continue;
      }
      int pivot = value == UNKNOWN ? pivotOfInput(inputs.nodes()[i]) : NO_PIVOT;
      if (pivot == NO_PIVOT && bit == UNKNOWN && logic.isBit(inputs.bits()[i])) {
        pivot = inputs.bits()[i];
      }
      if (pivot != NO_PIVOT) {
        return pivot;
      }
    }
    return bit(logic.otherwise[e]) == UNKNOWN ? logic.otherwise[e] : NO_PIVOT;
  }

  /** As {@link #pivot}, for a noisy any. */
  int pivotOfAny(Inputs triggers) {
    for (int i = 0; i < triggers.nodes().length; i++) {
      byte value = value(triggers.nodes()[i]);
      byte bit = bit(triggers.bits()[i]);
      if (and(value, bit) == UNKNOWN) {
        int pivot = value == UNKNOWN ? pivot(triggers.nodes()[i]) : NO_PIVOT;
        pivot = pivot == NO_PIVOT && bit == UNKNOWN ? triggers.bits()[i] : pivot;
        if (pivot != NO_PIVOT) {
          return pivot;
        }
      }
    }
    return NO_PIVOT;
  }

  /** P(1) of a pivot where nothing is known of it. */
  double pOf(int pivot) {
    return pivot < 0 ? pActs[-1 - pivot] : logic.pBit(pivot);
  }

  /** Tries a pivot one way; {@link FaultLogic#UNKNOWN} takes the trial back. */
  void set(int pivot, byte value) {
    if (pivot < 0) {
      draws[-1 - pivot] = value;
    } else {
      world[pivot] = value;
    }
    changed();
  }
}
