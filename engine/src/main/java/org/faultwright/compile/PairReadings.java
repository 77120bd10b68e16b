package org.faultwright.compile;

import java.util.Optional;
import org.faultwright.casefile.SharedSetup;
import org.faultwright.measurement.PairModel;

/**
 * What the readings of two points that are compared say on top of what each says by itself: a ratio
 * for each state of {@link Observations#pair}. Where both were read in one setup, both feel its z;
 * in two setups their readings share nothing with others (see {@link PointReadings#alone}).
 *
 * @param first readings of the first point; empty where it has none that can be compared
 * @param second of the second; at least one of the two is there
 */
record PairReadings(PairModel model, Optional<PointReadings> first, Optional<PointReadings> second)
    implements SetupReadings {

  /** Whether both points have been read. */
  boolean isOfBoth() {
    return first.isPresent() && second.isPresent();
  }

  private PointReadings one() {
    return first.or(this::second).orElseThrow();
  }

  @Override
  public Optional<SharedSetup> setup() {
    return first.flatMap(PointReadings::setup).or(() -> second.flatMap(PointReadings::setup));
  }

  @Override
  public double[] likelihood(double z) {
    return isOfBoth()
        ? model.ofBoth(first.get().at(z), second.get().at(z))
        : model.ofOne(second.isPresent(), one().at(z));
  }

  @Override
  public double[] mostFrom(double z, int side) {
    double most = most();
    return new double[] {most, most, most};
  }

  @Override
  public double[] ofTheirOwn() {
    return isOfBoth()
        ? model.ofBoth(first.get().whole(), second.get().whole())
        : model.ofOne(second.isPresent(), one().whole());
  }

  @Override
  public boolean feels(double reach) {
    return setup().isPresent() && Double.isFinite(finest(reach));
  }

  @Override
  public double finest(double reach) {
    return isOfBoth()
        ? model.finest(
            first.get().at(0),
            first.get().uSystematic(),
            second.get().at(0),
            second.get().uSystematic())
        : model.finestOfOne(second.isPresent(), one().at(0), one().uSystematic());
  }

  @Override
  public double most() {
    return isOfBoth()
        ? model.mostOfBoth(first.get().at(0), second.get().at(0))
        : model.mostOfOne(second.isPresent(), one().at(0));
  }
}
