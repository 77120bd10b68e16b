package org.faultwright.cli.text;

import java.util.OptionalDouble;
import org.faultwright.measurement.Dimension;
import org.faultwright.measurement.Quantity;
import org.faultwright.measurement.knowngood.PinReadings;
import org.faultwright.measurement.knowngood.PinReference;
import org.faultwright.measurement.knowngood.ReferencePolicy;
import org.faultwright.measurement.knowngood.Side;

/** References from known-good boards in words. */
final class ReferenceWords {

  private ReferenceWords() {}

  static String promise(ReferencePolicy policy) {
    return Figures.percent(policy.pCoverage())
        + " of good boards, with "
        + Figures.percent(policy.pConfidence())
        + " confidence";
  }

  static String boards(int number) {
    return number + (number == 1 ? " board" : " boards");
  }

  /** Why a pin has no reference. */
  static String reason(PinReference pin, PinReference.Missing missing) {
    return switch (missing.reason()) {
      case NOT_READ -> "not read on any board";
      case SOMETIMES_OVER_RANGE ->
          "it reads OL on "
              + pin.overRange()
              + " of "
              + boards(pin.of().readings().size())
              + " and a value on the others; look for bad contact or another kind of board, and"
              + " empty the cells that should not count";
      case BOARDS_DISAGREE ->
          boards(pin.used())
              + " differ by more than the tolerance of practice; read them again, or find more"
              + " boards";
      case TOO_WIDE -> "the boards differ so much that no limit makes sense";
    };
  }

  /** The tolerance of practice for this kind of quantity. Common practice, no source. */
  static String rule(Dimension dimension) {
    return switch (dimension) {
      case VOLTAGE -> "10 % or 30 mV, whichever is larger";
      case RESISTANCE -> "10 % or 0.5 ohm, whichever is larger";
      default -> "10 % or ten steps of the display, whichever is more";
    };
  }

  /** Why a narrow interval is no promise for another bench. Common practice, no source. */
  static final String SAME_WAY =
      "It holds for readings taken the same way. Meters differ by 5 to 15 % in diode mode, so"
          + " that another meter can read outside on a good board.";

  /** What a tolerance of practice is worth. */
  static String practice(PinReference pin, OptionalDouble factor, ReferencePolicy policy) {
    int boards = pin.used();
    Side side = pin.of().side();
    String worth = "from " + boards(boards) + " nothing follows about how far good boards differ";
    return factor.isEmpty()
        ? worth
        : worth
            + ": to hold "
            + promise(policy)
            + ", it would take "
            + String.format(java.util.Locale.ROOT, "%.1f", factor.getAsDouble())
            + " standard deviations"
            + (side == Side.BOTH ? " on each side" : "");
  }

  /** What smallest and largest are worth. */
  static String sorted(PinReference pin, PinReference.DistributionFreely free, ReferencePolicy p) {
    boolean enough = free.pCoverage() >= p.pCoverage();
    String between =
        switch (pin.of().side()) {
              case BOTH -> nth(free.rank(), "smallest") + " to " + nth(free.rank(), "largest");
              case AT_LEAST -> "from the " + nth(free.rank(), "smallest");
              case AT_MOST -> "up to the " + nth(free.rank(), "largest");
            }
            + " of "
            + boards(pin.used());
    return between
        + ", whatever the distribution: holds "
        + (enough
            ? promise(p)
            : "only "
                + Figures.percent(free.pCoverage())
                + " of good boards with "
                + Figures.percent(p.pConfidence())
                + " confidence; "
                + Figures.percent(p.pCoverage())
                + " takes "
                + boards(free.boardsNeeded()));
  }

  private static String nth(int rank, String end) {
    return rank == 1 ? end : "number " + rank + " from the " + end;
  }

  static String outlier(PinReadings.OnBoard reading) {
    return "board " + reading.board() + " reads " + reading.value();
  }

  static String quantity(OptionalDouble si, PinReference pin, int digits) {
    return si.isEmpty() ? "-" : new Quantity(si.getAsDouble(), pin.of().dimension()).format(digits);
  }
}
