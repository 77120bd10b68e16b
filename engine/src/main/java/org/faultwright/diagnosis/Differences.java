package org.faultwright.diagnosis;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import org.faultwright.casefile.Fact;
import org.faultwright.casefile.FactId;
import org.faultwright.casefile.ReadingCorrection;
import org.faultwright.casefile.ReadingUncertainty;
import org.faultwright.casefile.SharedSetup;
import org.faultwright.casefile.Told;
import org.faultwright.compile.CompiledPack;
import org.faultwright.measurement.PairModel;
import org.faultwright.measurement.ReadingValue;
import org.faultwright.measurement.Reference;
import org.faultwright.pack.Comparison;
import org.faultwright.pack.NodeId;
import org.faultwright.pack.Observation;
import org.faultwright.pack.Point;
import org.faultwright.pack.PointId;
import org.faultwright.pack.Step;
import org.faultwright.rules.Standing;

/**
 * How far the readings of one step lie from those that they are compared with. What two readings of
 * one setup share cancels in their difference (JCGM 100:2008, 5.2.2).
 */
final class Differences {

  private final CompiledPack compiled;
  private final Step step;
  private final Map<FactId, Standing> standings;
  private final Function<Set<NodeId>, List<PinReport.Suspect>> suspects;

  /**
   * For one step.
   *
   * @param suspects how likely nodes are, the most likely first
   */
  Differences(
      CompiledPack compiled,
      Step step,
      Map<FactId, Standing> standings,
      Function<Set<NodeId>, List<PinReport.Suspect>> suspects) {
    this.suspects = suspects;
    this.compiled = compiled;
    this.step = step;
    this.standings = standings;
  }

  private record Taken(
      Told told,
      Point point,
      boolean knownGood,
      SharedSetup setup,
      ReadingValue.Measured shown,
      ReadingUncertainty u) {

    double value() {
      return shown.quantity().si();
    }
  }

  /** The differences, each from the last reading that it can be compared with. */
  List<PinReport.Difference> among(List<Told> facts) {
    List<Taken> all = new ArrayList<>();
    facts.forEach(told -> taken(told).ifPresent(all::add));
    List<PinReport.Difference> found = new ArrayList<>();
    for (Point point : step.pinTable().orElseThrow().points()) {
      for (Taken one : all) {
        if (one.point().id().equals(point.id()) && !one.knownGood()) {
          last(all, one, point.id(), true)
              .ifPresent(other -> found.add(difference(one, other, Optional.empty())));
          comparing(point.id())
              .ifPresent(
                  comparing ->
                      last(all, one, comparing.compares().get().other(point.id()), false)
                          .ifPresent(
                              other ->
                                  found.add(
                                      difference(one, other, verdict(comparing, one, other)))));
        }
      }
    }
    return found;
  }

  /** The step that compares a point, where it is this one from which the two are shown. */
  private Optional<Step> comparing(PointId point) {
    return compiled
        .lineage()
        .comparisonOf(point)
        .filter(
            s ->
                s.compares().get().point().equals(point)
                    || step.pinTable().get().points().stream()
                        .noneMatch(p -> p.id().equals(s.compares().get().point())));
  }

  private Optional<PinReport.Verdict> verdict(Step comparing, Taken one, Taken other) {
    Comparison compares = comparing.compares().orElseThrow();
    boolean isFirst = compares.point().equals(one.point().id());
    Taken first = isFirst ? one : other;
    Taken second = isFirst ? other : one;
    if (!isNormal(first) || !isNormal(second)) {
      return Optional.empty();
    }
    return compiled
        .pairModel(compares)
        .map(
            model -> {
              boolean apart = model.speaksForApart(reading(first), reading(second));
              return new PinReport.Verdict(
                  apart,
                  compares.halfWidth(first.point().reference()).orElseThrow(),
                  apart ? suspects.apply(pointsTo(comparing)) : List.of());
            });
  }

  private static Set<NodeId> pointsTo(Step comparing) {
    Observation.OfStates shows = (Observation.OfStates) comparing.shows().orElseThrow();
    return shows.states().get(0).triggers().keySet();
  }

  private boolean isNormal(Taken taken) {
    return compiled.readingModel(taken.point()).classify(taken.shown(), taken.u().combined()) == 0;
  }

  private static PairModel.Reading reading(Taken taken) {
    return new PairModel.Reading(taken.value(), 0, taken.u().random());
  }

  private static Optional<Taken> last(
      List<Taken> all, Taken one, PointId point, boolean knownGood) {
    return all.stream()
        .filter(t -> t.point().id().equals(point) && t.knownGood() == knownGood)
        .filter(t -> t.setup().equals(one.setup()))
        .reduce((a, b) -> b);
  }

  private static PinReport.Difference difference(
      Taken one, Taken other, Optional<PinReport.Verdict> verdict) {
    double expected = nominal(one.point()) - nominal(other.point());
    double leftOfShared = one.u().systematic() - other.u().systematic();
    return new PinReport.Difference(
        one.told().id(),
        other.told().id(),
        other.point(),
        other.knownGood(),
        one.value() - other.value() - expected,
        Math.hypot(leftOfShared, Math.hypot(one.u().random(), other.u().random())),
        verdict);
  }

  private static double nominal(Point point) {
    return point.reference() instanceof Reference.Around a ? a.nominal() : 0;
  }

  private Optional<Taken> taken(Told told) {
    if (!(told.fact() instanceof Fact.ReadingTaken r)
        || standings.containsKey(told.id()) && !standings.get(told.id()).counts()) {
      return Optional.empty();
    }
    Optional<Step> of = compiled.pack().stepOf(r.point());
    Optional<Point> point = compiled.pack().point(r.point());
    if (of.isEmpty() || point.isEmpty()) {
      return Optional.empty();
    }
    ReadingValue value = ReadingCorrection.of(compiled.pack(), of.get(), point.get(), r).value();
    return value instanceof ReadingValue.Measured m
        ? Optional.of(
            new Taken(
                told,
                point.get(),
                r.setup().knownGood(),
                SharedSetup.of(of.get(), r),
                m,
                ReadingUncertainty.of(compiled.pack(), of.get(), point.get(), r)))
        : Optional.empty();
  }
}
