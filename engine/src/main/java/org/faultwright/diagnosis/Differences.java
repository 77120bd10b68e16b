package org.faultwright.diagnosis;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.faultwright.casefile.Fact;
import org.faultwright.casefile.ReadingCorrection;
import org.faultwright.casefile.ReadingUncertainty;
import org.faultwright.casefile.SharedSetup;
import org.faultwright.casefile.Told;
import org.faultwright.compile.CompiledPack;
import org.faultwright.measurement.ReadingValue;
import org.faultwright.measurement.Reference;
import org.faultwright.pack.Comparison;
import org.faultwright.pack.Point;
import org.faultwright.pack.PointId;
import org.faultwright.pack.Step;
import org.faultwright.rules.Findings;
import org.faultwright.rules.Standing;

/**
 * How far the readings of one step lie from those that they are compared with. What two readings of
 * one setup share cancels in their difference (JCGM 100:2008, 5.2.2).
 */
final class Differences {

  private final CompiledPack compiled;
  private final Step step;
  private final Findings findings;

  Differences(CompiledPack compiled, Step step, Findings findings) {
    this.compiled = compiled;
    this.step = step;
    this.findings = findings;
  }

  private record Taken(
      Told told,
      Step step,
      Point point,
      boolean knownGood,
      SharedSetup setup,
      double value,
      ReadingUncertainty u) {}

  /** The differences, each from the last reading that it can be compared with. */
  List<PinReport.Difference> among(List<Told> facts) {
    List<Taken> all = new ArrayList<>();
    facts.forEach(told -> taken(told).ifPresent(all::add));
    List<PinReport.Difference> found = new ArrayList<>();
    for (Point point : step.pinTable().orElseThrow().points()) {
      for (Taken one : all) {
        if (one.point().id().equals(point.id()) && !one.knownGood()) {
          last(all, one, point.id(), true).ifPresent(other -> found.add(difference(one, other)));
          comparison(point.id())
              .flatMap(c -> last(all, one, c.other(point.id()), false))
              .ifPresent(other -> found.add(difference(one, other)));
        }
      }
    }
    return found;
  }

  private Optional<Comparison> comparison(PointId point) {
    return compiled.lineage().comparisonOf(point).flatMap(Step::compares);
  }

  private static Optional<Taken> last(
      List<Taken> all, Taken one, PointId point, boolean knownGood) {
    return all.stream()
        .filter(t -> t.point().id().equals(point) && t.knownGood() == knownGood)
        .filter(t -> t.setup().equals(one.setup()))
        .reduce((a, b) -> b);
  }

  private static PinReport.Difference difference(Taken one, Taken other) {
    double expected = nominal(one.point()) - nominal(other.point());
    double leftOfShared = one.u().systematic() - other.u().systematic();
    return new PinReport.Difference(
        one.told().id(),
        other.told().id(),
        other.point(),
        other.knownGood(),
        one.value() - other.value() - expected,
        Math.hypot(leftOfShared, Math.hypot(one.u().random(), other.u().random())));
  }

  private static double nominal(Point point) {
    return point.reference() instanceof Reference.Around a ? a.nominal() : 0;
  }

  private Optional<Taken> taken(Told told) {
    if (!(told.fact() instanceof Fact.ReadingTaken r)
        || !findings.standing(told.id()).map(Standing::counts).orElse(true)) {
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
                of.get(),
                point.get(),
                r.setup().knownGood(),
                SharedSetup.of(of.get(), r),
                m.quantity().si(),
                ReadingUncertainty.of(compiled.pack(), of.get(), point.get(), r)))
        : Optional.empty();
  }
}
