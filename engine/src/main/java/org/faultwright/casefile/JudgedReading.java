package org.faultwright.casefile;

import java.util.Optional;
import org.faultwright.measurement.Conformance;
import org.faultwright.measurement.GuardBand;
import org.faultwright.measurement.ReadingValue;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Point;
import org.faultwright.pack.Step;

/**
 * A reading of a case held to the reference of its point, by itself: what other facts say of the
 * point or of the instrument does not come in.
 *
 * @param uncertainty how far the reading may be off
 */
public record JudgedReading(
    FactId fact, Point point, Conformance conformance, ReadingUncertainty uncertainty) {

  /** Less of its uncertainty than this is left where reading again is worth a word. */
  private static final double HELPS = 0.9;

  /**
   * Judges a fact.
   *
   * @param guardFactor the guard factor in use, see {@link GuardBand}; 0: no guard band
   * @return empty where the fact is no reading, or one of a known-good board
   */
  public static Optional<JudgedReading> of(Pack pack, Told told, double guardFactor) {
    if (!(told.fact() instanceof Fact.ReadingTaken taken) || taken.setup().knownGood()) {
      return Optional.empty();
    }
    Step step =
        pack.stepOf(taken.point())
            .orElseThrow(
                () ->
                    new IllegalArgumentException(
                        "point must be one of the pack: " + taken.point()));
    Point point = pack.point(taken.point()).orElseThrow();
    return Optional.of(of(pack, step, point, told.id(), taken, guardFactor));
  }

  /** Judges a reading of a point of a step, as {@link #of(Pack, Told, double)} does. */
  public static JudgedReading of(
      Pack pack, Step step, Point p, FactId id, Fact.ReadingTaken taken, double guardFactor) {
    ReadingUncertainty u = ReadingUncertainty.of(pack, step, p, taken);
    ReadingValue value = ReadingCorrection.of(pack, step, p, taken).value();
    GuardBand guard = new GuardBand(guardFactor, u.combined());
    return new JudgedReading(id, p, Conformance.of(p.reference(), value, guard), u);
  }

  /** The standard uncertainty of the mean of so many readings with the same instrument. */
  public double uOfMean(int readings) {
    return Math.hypot(uncertainty.systematic(), uncertainty.random() / Math.sqrt(readings));
  }

  /**
   * Whether a second reading with the same instrument would lessen the uncertainty by a tenth or
   * more: the random part shrinks, the instrument's own error stays.
   */
  public boolean readingAgainHelps() {
    return uOfMean(2) < HELPS * uncertainty.combined();
  }
}
