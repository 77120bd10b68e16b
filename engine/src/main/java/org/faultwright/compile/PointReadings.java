package org.faultwright.compile;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.TreeMap;
import org.faultwright.casefile.Fact;
import org.faultwright.casefile.ReadingCorrection;
import org.faultwright.casefile.ReadingUncertainty;
import org.faultwright.casefile.SharedSetup;
import org.faultwright.measurement.PairModel;
import org.faultwright.measurement.ReadingModel;
import org.faultwright.measurement.ReadingValue;
import org.faultwright.pack.InstrumentId;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Point;
import org.faultwright.pack.Step;

/**
 * The readings of one point in one epoch.
 *
 * <p>Their systematic error is {@code z * uSystematic}, where z is a standard normal number that
 * all readings of one setup share. Readings of one point with several instruments are weighted by
 * their precision and share nothing with other points.
 *
 * @param setup what they share with other points; empty: nothing
 * @param uSystematic the standard deviation of what they share, in SI units
 * @param noise the standard uncertainty that is left to the mean, in SI units
 */
record PointReadings(
    ReadingModel model,
    ReadingModel.Taken taken,
    Optional<SharedSetup> setup,
    double uSystematic,
    double noise)
    implements SetupReadings {

  static PointReadings of(
      Pack pack, Step step, Point point, ReadingModel unlimited, List<Fact.ReadingTaken> readings) {
    ReadingModel model = limited(pack, step, point, unlimited, readings);
    Map<SharedSetup, List<Fact.ReadingTaken>> bySetup = new TreeMap<>();
    for (Fact.ReadingTaken r : readings) {
      if (r.value() instanceof ReadingValue.Measured) {
        bySetup.computeIfAbsent(SharedSetup.of(step, r), s -> new ArrayList<>()).add(r);
      }
    }
    ReadingModel.Taken all = model.taken(readings.stream().map(Fact.ReadingTaken::value).toList());
    if (bySetup.isEmpty()) {
      return new PointReadings(model, all, Optional.empty(), 0, 0);
    }
    List<PointReadings> each = new ArrayList<>();
    bySetup.forEach((setup, of) -> each.add(ofOneSetup(pack, step, point, model, setup, of)));
    PointReadings first = each.get(0);
    if (each.size() == 1) {
      return new PointReadings(model, all, first.setup, first.uSystematic, first.noise);
    }
    double precision = 0;
    double sum = 0;
    for (PointReadings p : each) {
      double own = Math.hypot(p.uSystematic, p.noise);
      double weight = 1 / Math.max(own * own, Double.MIN_NORMAL);
      precision += weight;
      sum += weight * p.taken.mean();
    }
    return new PointReadings(
        model, all.withMean(sum / precision), Optional.empty(), 0, 1 / Math.sqrt(precision));
  }

  /** The model for instruments that show no more than so much: the least of those that did not. */
  private static ReadingModel limited(
      Pack pack, Step step, Point point, ReadingModel model, List<Fact.ReadingTaken> readings) {
    double most = Double.POSITIVE_INFINITY;
    double u = 0;
    for (Fact.ReadingTaken r : readings) {
      if (r.value() instanceof ReadingValue.OverRange) {
        Optional<InstrumentId> with = r.setup().instrument();
        OptionalDouble largest = ReadingUncertainty.largest(pack, step, point, with);
        if (largest.isPresent() && largest.getAsDouble() < most) {
          most = largest.getAsDouble();
          u = ReadingUncertainty.at(pack, step, point, with, most).combined();
        }
      }
    }
    return Double.isInfinite(most) ? model : model.showingUpTo(most, u);
  }

  private static PointReadings ofOneSetup(
      Pack pack,
      Step step,
      Point point,
      ReadingModel model,
      SharedSetup setup,
      List<Fact.ReadingTaken> readings) {
    ReadingModel.Taken taken = taken(pack, step, point, model, readings);
    List<ReadingUncertainty> u =
        readings.stream()
            .map(r -> ReadingUncertainty.of(pack, step, point, r))
            .sorted(Comparator.comparingDouble(ReadingUncertainty::random))
            .toList();
    double systematic = u.stream().mapToDouble(ReadingUncertainty::systematic).max().orElseThrow();
    double variance = 0;
    for (ReadingUncertainty one : u) {
      variance += one.random() * one.random() / u.size();
    }
    return new PointReadings(
        model, taken, Optional.of(setup), systematic, taken.ofMean(Math.sqrt(variance)));
  }

  private static ReadingModel.Taken taken(
      Pack pack, Step step, Point point, ReadingModel model, List<Fact.ReadingTaken> readings) {
    return model.taken(
        readings.stream().map(r -> ReadingCorrection.of(pack, step, point, r).value()).toList());
  }

  @Override
  public double[] likelihood(double z) {
    return model.likelihood(taken, z * uSystematic, noise);
  }

  @Override
  public double[] mostFrom(double z, int side) {
    return model.mostFrom(taken, z * uSystematic, side, noise);
  }

  @Override
  public double[] ofTheirOwn() {
    return model.likelihood(taken, 0, Math.hypot(uSystematic, noise));
  }

  @Override
  public boolean feels(double reach) {
    return setup.isPresent() && uSystematic > 0 && Double.isFinite(finest(reach));
  }

  @Override
  public double finest(double reach) {
    return model.finest(taken, reach * uSystematic, noise) / uSystematic;
  }

  @Override
  public double most() {
    return model.mostLikelihood(taken, noise);
  }

  /** As if they shared nothing with other points. */
  PointReadings alone() {
    return new PointReadings(model, taken, Optional.empty(), 0, Math.hypot(uSystematic, noise));
  }

  /** Whether they are numbers only, so that they can be compared with those of another point. */
  boolean isComparable() {
    return taken.measured() > 0 && taken.over() == 0;
  }

  /** Their mean for comparing it with another, at a value of z. */
  PairModel.Reading at(double z) {
    return new PairModel.Reading(taken.mean(), z * uSystematic, noise);
  }

  /** As {@link #at} with the whole of their uncertainty. */
  PairModel.Reading whole() {
    return new PairModel.Reading(taken.mean(), 0, Math.hypot(uSystematic, noise));
  }
}
