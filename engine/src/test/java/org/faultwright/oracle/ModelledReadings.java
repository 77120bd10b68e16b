package org.faultwright.oracle;

import static java.util.stream.Collectors.groupingBy;
import static java.util.stream.Collectors.toList;

import java.util.Comparator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.TreeMap;
import org.faultwright.casefile.Fact;
import org.faultwright.casefile.ReadingCorrection;
import org.faultwright.casefile.ReadingUncertainty;
import org.faultwright.casefile.SharedSetup;
import org.faultwright.measurement.PairModel;
import org.faultwright.measurement.ReadingModel;
import org.faultwright.measurement.ReadingValue;
import org.faultwright.measurement.Reference;
import org.faultwright.pack.Comparison;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Point;
import org.faultwright.pack.Step;

/** Likelihoods of readings by the reading model of the measurement package. */
public record ModelledReadings(Pack pack) implements ReadingLikelihood {

  @Override
  public double[] of(Point point, List<Fact.ReadingTaken> readings) {
    return of(point, readings, Optional.empty());
  }

  @Override
  public double[] of(Point point, List<Fact.ReadingTaken> readings, double z) {
    return of(point, readings, shares(point, readings).map(x -> z));
  }

  /** The instrument and its leads; nothing where no value was read, or with several of them. */
  @Override
  public Optional<Object> shares(Point point, List<Fact.ReadingTaken> readings) {
    Set<Object> setups = new LinkedHashSet<>();
    measured(readings).forEach(r -> setups.add(SharedSetup.of(stepOf(point), r)));
    return setups.size() == 1 ? setups.stream().findFirst() : Optional.empty();
  }

  private static List<Fact.ReadingTaken> measured(List<Fact.ReadingTaken> readings) {
    return readings.stream().filter(r -> r.value() instanceof ReadingValue.Measured).toList();
  }

  private static ReadingModel model(Point point) {
    return ReadingModel.of(
        point.reference(),
        point.states().stream()
            .map(s -> new ReadingModel.StateRange(s.id().value(), s.lies()))
            .toList());
  }

  @Override
  public Optional<double[]> ofPair(
      Comparison comparison, Optional<Read> first, Optional<Read> second, OptionalDouble z) {
    Point one = pack.point(comparison.point()).orElseThrow();
    Point other = pack.point(comparison.with()).orElseThrow();
    PairModel pair =
        PairModel.of(
            model(one),
            (Reference.Around) one.reference(),
            model(other),
            (Reference.Around) other.reference(),
            comparison.halfWidth(one.reference()).orElseThrow());
    Optional<PairModel.Reading> ofFirst = first.map(r -> mean(r, z));
    Optional<PairModel.Reading> ofSecond = second.map(r -> mean(r, z));
    if (ofFirst.isPresent() && ofSecond.isPresent()) {
      return Optional.of(pair.ofBoth(ofFirst.get(), ofSecond.get()));
    }
    return Optional.of(pair.ofOne(second.isPresent(), ofFirst.or(() -> ofSecond).orElseThrow()));
  }

  private PairModel.Reading mean(Read read, OptionalDouble z) {
    boolean shared = z.isPresent() && shares(read.point(), read.readings()).isPresent();
    Summed summed =
        summed(
            read.point(),
            read.readings(),
            shared ? Optional.of(z.getAsDouble()) : Optional.empty());
    return new PairModel.Reading(summed.mean(), summed.offset(), summed.noise());
  }

  /** An instrument that read over-range shows no more than so much; of several the least. */
  private ReadingModel limited(Point point, List<Fact.ReadingTaken> readings) {
    Step step = stepOf(point);
    return readings.stream()
        .filter(r -> r.value() instanceof ReadingValue.OverRange)
        .map(r -> r.setup().instrument())
        .filter(i -> ReadingUncertainty.largest(pack, step, point, i).isPresent())
        .min(
            Comparator.comparingDouble(
                i -> ReadingUncertainty.largest(pack, step, point, i).getAsDouble()))
        .map(
            i -> {
              double most = ReadingUncertainty.largest(pack, step, point, i).getAsDouble();
              return model(point)
                  .showingUpTo(most, ReadingUncertainty.at(pack, step, point, i, most).combined());
            })
        .orElse(model(point));
  }

  /** What readings of a point come to. */
  private record Summed(double mean, double offset, double noise) {}

  private double[] of(Point point, List<Fact.ReadingTaken> readings, Optional<Double> z) {
    ReadingModel model = limited(point, readings);
    List<ReadingValue> values = readings.stream().map(r -> corrected(point, r)).toList();
    Summed summed = summed(point, readings, z);
    return model.likelihood(
        model.taken(values).withMean(summed.mean()), summed.offset(), summed.noise());
  }

  private Summed summed(Point point, List<Fact.ReadingTaken> readings, Optional<Double> z) {
    // each setup gives a mean with its variance; their inverses are the weights
    Map<SharedSetup, List<Fact.ReadingTaken>> bySetup =
        measured(readings).stream()
            .collect(groupingBy(r -> SharedSetup.of(stepOf(point), r), TreeMap::new, toList()));
    double weights = 0;
    double mean = 0;
    double shared = 0;
    for (List<Fact.ReadingTaken> of : bySetup.values()) {
      double sum = 0;
      double variance = 0;
      double systematic = 0;
      for (Fact.ReadingTaken r : of) {
        ReadingUncertainty u = ReadingUncertainty.of(pack, stepOf(point), point, r);
        sum += ((ReadingValue.Measured) corrected(point, r)).quantity().si();
        variance += u.random() * u.random() / of.size() / of.size();
        systematic = Math.max(systematic, u.systematic());
      }
      double weight = 1 / (variance + (z.isPresent() ? 0 : systematic * systematic));
      weights += weight;
      mean += weight * sum / of.size();
      shared = systematic;
    }
    return measured(readings).isEmpty()
        ? new Summed(0, 0, 0)
        : new Summed(mean / weights, z.orElse(0.0) * shared, 1 / Math.sqrt(weights));
  }

  private ReadingValue corrected(Point point, Fact.ReadingTaken reading) {
    return ReadingCorrection.of(pack, stepOf(point), point, reading).value();
  }

  private Step stepOf(Point point) {
    return pack.steps().values().stream()
        .filter(s -> s.pinTable().filter(t -> t.points().contains(point)).isPresent())
        .findFirst()
        .orElseThrow();
  }
}
