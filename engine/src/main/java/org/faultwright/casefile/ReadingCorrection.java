package org.faultwright.casefile;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.faultwright.measurement.Dimension;
import org.faultwright.measurement.DiodeDrop;
import org.faultwright.measurement.Meter;
import org.faultwright.measurement.Quantity;
import org.faultwright.measurement.ReadingValue;
import org.faultwright.pack.Instrument;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Point;
import org.faultwright.pack.Step;

/**
 * What is known to make a reading differ from what the reference means, and what is not known of
 * it. Three things count: a voltmeter loads what it measures; leads that are not subtracted add to
 * a resistance; a drop in diode mode depends on temperature and test current (only where the
 * reference says at which it was taken).
 *
 * @param value the reading as the reference means it
 * @param uncertainty standard uncertainty of the correction, in SI units, from 0: common to the
 *     readings of one setup
 * @param reasons what has been corrected, in words
 */
public record ReadingCorrection(ReadingValue value, double uncertainty, List<String> reasons) {

  /** Room temperatures lie so far around the one of the reference. Common practice. */
  private static final double ROOM = 10;

  /** Ideality of a junction of which nothing is known: between 1 and 2. */
  private static final double IDEALITY = 1.5;

  private static final double IDEALITY_HALF_WIDTH = 0.5;

  /** Test currents of meters lie within a factor of this either way. Common practice. */
  private static final double CURRENTS = 2;

  /** Copies the list. */
  public ReadingCorrection {
    reasons = List.copyOf(reasons);
  }

  /** What there is to correct in a reading. */
  public static ReadingCorrection of(Pack pack, Step step, Point point, Fact.ReadingTaken taken) {
    if (!(taken.value() instanceof ReadingValue.Measured m)) {
      return new ReadingCorrection(taken.value(), 0, List.of());
    }
    Meter meter =
        ReadingUncertainty.instrument(pack, step, taken.setup().instrument())
            .map(Instrument::meter)
            .orElse(Meter.UNKNOWN);
    return new Correcting(point, meter, m.quantity()).by(taken.setup());
  }

  private static final class Correcting {
    private final Point point;
    private final Meter meter;
    private final Dimension kind;
    private final double shown;
    private double value;
    private double variance;
    private final List<String> reasons = new ArrayList<>();

    Correcting(Point point, Meter meter, Quantity quantity) {
      this.point = point;
      this.meter = meter;
      this.kind = quantity.dimension();
      this.shown = quantity.si();
      this.value = shown;
    }

    ReadingCorrection by(Fact.Setup setup) {
      if (kind == Dimension.RESISTANCE) {
        leads();
      } else if (kind == Dimension.VOLTAGE && meter.diode()) {
        temperature(setup.celsius());
        current(setup.celsius());
      } else if (kind == Dimension.VOLTAGE) {
        loading();
      }
      // what would be no value at all is left as it was shown
      double sound = Math.max(kind.least(), Math.min(kind.most(), value));
      return new ReadingCorrection(
          new ReadingValue.Measured(new Quantity(sound, kind)), Math.sqrt(variance), reasons);
    }

    private void leads() {
      if (meter.leadResistance().isPresent()) {
        double leads = meter.leadResistance().getAsDouble();
        move(-leads, "the leads");
        rectangular(leads / 2);
      }
    }

    private void loading() {
      OptionalDouble source = point.conditions().sourceResistance();
      if (source.isPresent()) {
        move(meter.unloaded(shown, source.getAsDouble()) - shown, "the load of the meter");
      }
    }

    private void temperature(OptionalDouble celsius) {
      OptionalDouble reference = point.conditions().celsius();
      if (reference.isEmpty()) {
        return;
      }
      double slope = DiodeDrop.perKelvin(shown, reference.getAsDouble());
      if (celsius.isPresent()) {
        move(-slope * (celsius.getAsDouble() - reference.getAsDouble()), "its temperature");
      } else {
        rectangular(slope * ROOM);
      }
    }

    private void current(OptionalDouble celsius) {
      OptionalDouble reference = point.conditions().testCurrent();
      if (reference.isEmpty()) {
        return;
      }
      double warm = celsius.orElse(point.conditions().celsius().orElse(25));
      double to = reference.getAsDouble();
      if (meter.testCurrent().isPresent()) {
        double from = meter.testCurrent().getAsDouble();
        move(DiodeDrop.byCurrent(from, to, IDEALITY, warm), "the meter's test current");
        rectangular(DiodeDrop.byCurrent(from, to, IDEALITY_HALF_WIDTH, warm));
      } else {
        rectangular(DiodeDrop.byCurrent(to, CURRENTS * to, IDEALITY, warm));
      }
    }

    private void move(double by, String reason) {
      if (by != 0) {
        value += by;
        reasons.add(reason);
      }
    }

    /** By JCGM 100:2008, 4.3.7: a / sqrt 3. */
    private void rectangular(double halfWidth) {
      variance += halfWidth * halfWidth / 3;
    }
  }

  /** What has been corrected, in words; empty where nothing has. */
  public Optional<String> words() {
    return reasons.isEmpty() ? Optional.empty() : Optional.of(String.join(" and ", reasons));
  }
}
