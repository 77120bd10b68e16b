package org.faultwright.casefile;

import java.util.Optional;
import java.util.OptionalDouble;
import org.faultwright.measurement.Accuracy;
import org.faultwright.measurement.Meter;
import org.faultwright.measurement.ReadingValue;
import org.faultwright.measurement.Reference;
import org.faultwright.pack.Instrument;
import org.faultwright.pack.InstrumentId;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Point;
import org.faultwright.pack.Step;

/**
 * How far a reading may be off, as standard uncertainties in SI units.
 *
 * <p>What the case states with a reading is taken as its random part. The instrument's accuracy in
 * the range that holds the value gives the systematic part, which repeating does not lessen, and so
 * does what is not known of the conditions (see {@link ReadingCorrection}); its resolution belongs
 * to the random part.
 *
 * @param systematic common to all readings of a point with one instrument, from 0
 * @param random of each reading by itself, from 0
 */
public record ReadingUncertainty(double systematic, double random) {

  /** The uncertainty of a reading taken in a case, once it is corrected. */
  public static ReadingUncertainty of(Pack pack, Step step, Point point, Fact.ReadingTaken taken) {
    Optional<Instrument> instrument = instrument(pack, step, taken.setup().instrument());
    double value =
        taken.value() instanceof ReadingValue.Measured m ? m.quantity().si() : scale(point);
    ReadingUncertainty stated = at(instrument, point, value);
    double systematic =
        Math.hypot(stated.systematic, ReadingCorrection.of(pack, step, point, taken).uncertainty());
    return new ReadingUncertainty(systematic, taken.uncertainty().orElse(stated.random));
  }

  /** The uncertainty to expect of a reading near the reference of a point. */
  public static ReadingUncertainty expected(Pack pack, Step step, Point point) {
    return at(instrument(pack, step, Optional.empty()), point, scale(point));
  }

  /**
   * The largest value that a reading of a point can show with an instrument, in SI units; beyond it
   * the display says over-range. Empty: not known.
   *
   * @param stated the instrument that the case states, if it does
   */
  public static OptionalDouble largest(
      Pack pack, Step step, Point point, Optional<InstrumentId> stated) {
    return instrument(pack, step, stated)
        .map(i -> i.meter().largest(point.reference().dimension()))
        .orElse(OptionalDouble.empty());
  }

  /** The uncertainty of a value that one reads with an instrument at a point. */
  public static ReadingUncertainty at(
      Pack pack, Step step, Point point, Optional<InstrumentId> stated, double value) {
    return at(instrument(pack, step, stated), point, value);
  }

  /** The value of one count of the display at a reading, in SI units. */
  public static double count(Pack pack, Step step, Point point, Fact.ReadingTaken taken) {
    double value =
        taken.value() instanceof ReadingValue.Measured m ? m.quantity().si() : scale(point);
    return accuracy(instrument(pack, step, taken.setup().instrument()), point, value).resolution();
  }

  /** Both parts together. */
  public double combined() {
    return Math.hypot(systematic, random);
  }

  static Optional<Instrument> instrument(Pack pack, Step step, Optional<InstrumentId> stated) {
    return stated
        .or(() -> step.pinTable().flatMap(Step.PinTable::instrument))
        .map(pack.instruments()::get);
  }

  private static ReadingUncertainty at(Optional<Instrument> instrument, Point point, double value) {
    Accuracy a = accuracy(instrument, point, value);
    double systematic = new Accuracy(a.ofReading(), a.absolute(), 0).standardUncertainty(value);
    double random = new Accuracy(0, 0, a.resolution()).standardUncertainty(value);
    return new ReadingUncertainty(systematic, random);
  }

  private static Accuracy accuracy(Optional<Instrument> instrument, Point point, double value) {
    return instrument
        .map(Instrument::meter)
        .orElse(Meter.UNKNOWN)
        .accuracyAt(
            value,
            instrument
                .flatMap(Instrument::accuracy)
                .orElse(Accuracy.whenUnstated(point.reference().dimension())));
  }

  /** The order of magnitude of readings at a point, in SI units. */
  private static double scale(Point point) {
    if (point.reference() instanceof Reference.Around r) {
      return Math.max(Math.abs(r.nominal()), r.tolerance());
    } else if (point.reference() instanceof Reference.Within r) {
      return Math.max(Math.abs(r.low().orElse(0)), Math.abs(r.high().orElse(0)));
    }
    return 1;
  }
}
