package org.faultwright.planning;

/**
 * All ways in which what is unknown in a world, and matters to a look, can come out: bits that
 * nobody has resolved, and draws of what comes and goes.
 */
final class Leaves {

  private final Look look;
  private final Sight sight;
  private final Taker taker;

  /** Takes a world in which all that matters is resolved; world and row are lent. */
  interface Taker {
    void take(byte[] world, double p, double[] row);
  }

  private Leaves(Look look, Sight sight, Taker taker) {
    this.look = look;
    this.sight = sight;
    this.taker = taker;
  }

  /** Hands over each leaf; the world is lent out and left as it was. */
  static void of(FaultLogic logic, Sight sight, byte[] world, Taker taker) {
    of(new Look(logic), sight, world, taker);
  }

  /** As above, with a look to reuse. */
  static void of(Look look, Sight sight, byte[] world, Taker taker) {
    look.at(world, sight.pActs, sight.hiddenToo);
    new Leaves(look, sight, taker).visit(1, new double[sight.findings.size()]);
  }

  private void visit(double p, double[] row) {
    int pivot = sight.settle(look, row);
    if (pivot == Facet.SETTLED) {
      taker.take(look.world(), p, row);
      return;
    }
    double pOne = look.pOf(pivot);
    look.set(pivot, (byte) 1);
    visit(p * pOne, row);
    look.set(pivot, (byte) 0);
    visit(p * (1 - pOne), row);
    look.set(pivot, FaultLogic.UNKNOWN);
  }
}
