package org.faultwright.compile;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import org.faultwright.casefile.Fact;
import org.faultwright.casefile.ReadingCorrection;
import org.faultwright.casefile.ReadingUncertainty;
import org.faultwright.casefile.SharedSetup;
import org.faultwright.measurement.ReadingModel;
import org.faultwright.measurement.ReadingValue;
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
    double noise) {

  static PointReadings of(
      Pack pack, Step step, Point point, ReadingModel model, List<Fact.ReadingTaken> readings) {
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

  /** P(readings | state, z), up to a factor that all states and all z share. */
  double[] likelihood(double z) {
    return model.likelihood(taken, z * uSystematic, noise);
  }

  /** P(readings | state), as if they shared nothing with other points. */
  double[] ofTheirOwn() {
    return model.likelihood(taken, 0, Math.hypot(uSystematic, noise));
  }

  /** Whether z moves the likelihood at all. */
  boolean feels(double reach) {
    return setup.isPresent() && uSystematic > 0 && Double.isFinite(finest(reach));
  }

  /** The smallest change of z over which the likelihood changes, for z up to the reach. */
  double finest(double reach) {
    return model.finest(taken, reach * uSystematic, noise) / uSystematic;
  }

  /** At least as large as any likelihood. */
  double most() {
    return model.mostLikelihood(taken, noise);
  }
}
