package org.faultwright.diagnosis;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import org.faultwright.casefile.Fact;
import org.faultwright.casefile.FactId;
import org.faultwright.casefile.JudgedReading;
import org.faultwright.casefile.ReadingCorrection;
import org.faultwright.casefile.ReadingUncertainty;
import org.faultwright.casefile.SharedSetup;
import org.faultwright.casefile.Told;
import org.faultwright.compile.Belief;
import org.faultwright.compile.CompiledPack;
import org.faultwright.compile.SharedOffset;
import org.faultwright.measurement.ReadingModel;
import org.faultwright.measurement.ReadingValue;
import org.faultwright.measurement.Reference;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.EventId;
import org.faultwright.pack.NodeId;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Point;
import org.faultwright.pack.PointId;
import org.faultwright.pack.StateId;
import org.faultwright.pack.Step;
import org.faultwright.planning.Shop;
import org.faultwright.rules.Standing;

/** Makes the report on the readings of one step. */
final class PinReporting {

  /** A shared error is worth a word beyond so many of its standard deviations... */
  private static final double LARGE = 1.5;

  /** ...where it is known to be there by so many of what is left of them. */
  private static final double SURE = 3;

  private final CompiledPack compiled;
  private final Pack pack;
  private final Shop shop;
  private final Step step;
  private final Map<FactId, Standing> standings = new HashMap<>();
  private final Optional<Belief> belief;
  private final List<SharedOffset> offsets;

  /**
   * A report to be made.
   *
   * @param belief what is believed; empty where nothing ranks
   */
  PinReporting(
      CompiledPack compiled,
      Shop shop,
      Step step,
      List<Standing> standings,
      Optional<Belief> belief) {
    this.shop = shop;
    this.compiled = compiled;
    this.pack = compiled.pack();
    this.step = step;
    standings.forEach(s -> this.standings.put(s.told().id(), s));
    this.belief = belief;
    this.offsets = belief.map(Belief::sharedOffsets).orElse(List.of());
  }

  PinReport report(List<Told> facts) {
    List<PinReport.Line> lines = new ArrayList<>();
    List<Point> missing = new ArrayList<>();
    for (Point point : step.pinTable().orElseThrow().points()) {
      int before = lines.size();
      for (Told told : facts) {
        if (told.fact() instanceof Fact.ReadingTaken reading
            && reading.point().equals(point.id())
            && !reading.setup().knownGood()) {
          lines.add(line(told, point, reading));
        }
      }
      if (lines.size() == before) {
        missing.add(point);
      }
    }
    return new PinReport(
        step.id(),
        lines,
        missing,
        alike(facts),
        new Differences(compiled, step, standings, this::suspects).among(facts),
        belief.map(b -> Answering.posterior(compiled, b, Set.of())));
  }

  private PinReport.Line line(Told told, Point point, Fact.ReadingTaken reading) {
    ReadingModel model = compiled.readingModel(point);
    ReadingUncertainty u = ReadingUncertainty.of(pack, step, point, reading);
    ReadingCorrection correction = ReadingCorrection.of(pack, step, point, reading);
    ReadingValue value = correction.value();
    OptionalDouble deviation = deviation(point.reference(), value);
    StateId state = state(point, model, reading, value, u);
    return new PinReport.Line(
        told.id(),
        point,
        reading.value(),
        correction.words(),
        part(deviation, point.reference()),
        deviation.isPresent() && u.combined() > 0
            ? OptionalDouble.of(deviation.getAsDouble() / u.combined())
            : OptionalDouble.empty(),
        state,
        JudgedReading.of(pack, step, point, told.id(), reading, shop.guardBand()),
        counts(told),
        suspects(point, state));
  }

  /** The state that a reading speaks for, once what is known of the shared error is taken off. */
  private StateId state(
      Point point,
      ReadingModel model,
      Fact.ReadingTaken reading,
      ReadingValue value,
      ReadingUncertainty u) {
    Optional<SharedOffset> shared = shared(reading);
    double offset = shared.map(SharedOffset::mean).orElse(0.0) * u.systematic();
    double left = Math.hypot(shared.map(SharedOffset::sd).orElse(1.0) * u.systematic(), u.random());
    double[] likelihood = model.likelihood(model.taken(List.of(value)), offset, left);
    int best = 0;
    for (int s = 1; s < likelihood.length; s++) {
      best = likelihood[s] > likelihood[best] ? s : best;
    }
    return best == 0 ? StateId.NORMAL : point.states().get(best - 1).id();
  }

  private Optional<SharedOffset> shared(Fact.ReadingTaken reading) {
    SharedSetup setup = SharedSetup.of(step, reading);
    return offsets.stream().filter(o -> o.setup().equals(setup)).findFirst();
  }

  /** From the nominal value, or from the limit that is broken, in SI units. */
  private static OptionalDouble deviation(Reference reference, ReadingValue value) {
    if (!(value instanceof ReadingValue.Measured m)) {
      return OptionalDouble.empty();
    }
    double y = m.quantity().si();
    if (reference instanceof Reference.Around a) {
      return OptionalDouble.of(y - a.nominal());
    } else if (reference instanceof Reference.Within w) {
      if (w.low().isPresent() && y < w.low().getAsDouble()) {
        return OptionalDouble.of(y - w.low().getAsDouble());
      } else if (w.high().isPresent() && y > w.high().getAsDouble()) {
        return OptionalDouble.of(y - w.high().getAsDouble());
      }
    }
    return OptionalDouble.empty();
  }

  private static OptionalDouble part(OptionalDouble deviation, Reference reference) {
    double of =
        reference instanceof Reference.Around a
            ? a.nominal()
            : reference instanceof Reference.Within w
                ? deviation.orElse(0) < 0 ? w.low().orElse(0) : w.high().orElse(0)
                : 0;
    return deviation.isPresent() && of != 0
        ? OptionalDouble.of(deviation.getAsDouble() / Math.abs(of))
        : OptionalDouble.empty();
  }

  private PinReport.Counts counts(Told told) {
    Optional<Standing> standing = Optional.ofNullable(standings.get(told.id()));
    if (standing.isEmpty() || standing.get().counts()) {
      return new PinReport.Counts(true, Optional.empty());
    }
    return new PinReport.Counts(false, standing.get().words().stream().findFirst());
  }

  private List<PinReport.Suspect> suspects(Point point, StateId state) {
    Set<NodeId> nodes = new LinkedHashSet<>();
    point.states().stream()
        .filter(s -> s.id().equals(state))
        .forEach(s -> nodes.addAll(s.triggers().keySet()));
    return suspects(nodes);
  }

  private List<PinReport.Suspect> suspects(Set<NodeId> nodes) {
    List<PinReport.Suspect> suspects = new ArrayList<>();
    for (NodeId node : nodes) {
      String title =
          node instanceof CauseId c
              ? pack.causes().get(c).title()
              : pack.events().get((EventId) node).title();
      OptionalDouble p =
          belief.isEmpty()
              ? OptionalDouble.empty()
              : OptionalDouble.of(
                  node instanceof CauseId c
                      ? belief.get().p(c)
                      : Math.min(1, belief.get().p((EventId) node)));
      suspects.add(new PinReport.Suspect(node, title, p));
    }
    suspects.sort(Comparator.comparingDouble((PinReport.Suspect s) -> -s.p().orElse(0)));
    return suspects;
  }

  private Optional<PinReport.Alike> alike(List<Told> facts) {
    for (SharedOffset offset : offsets) {
      if (Math.abs(offset.mean()) >= LARGE && Math.abs(offset.mean()) >= SURE * offset.sd()) {
        double sum = 0;
        Set<PointId> points = new LinkedHashSet<>();
        int readings = 0;
        for (Told told : facts) {
          if (told.fact() instanceof Fact.ReadingTaken r
              && r.value() instanceof ReadingValue.Measured m
              && m.quantity().si() != 0) {
            Optional<Point> point = pointOf(r.point());
            if (point.isPresent() && SharedSetup.of(step, r).equals(offset.setup())) {
              double u = ReadingUncertainty.of(pack, step, point.get(), r).systematic();
              sum += offset.mean() * u / Math.abs(m.quantity().si());
              points.add(r.point());
              readings++;
            }
          }
        }
        if (readings > 0 && points.size() > 1) {
          return Optional.of(new PinReport.Alike(offset, sum / readings));
        }
      }
    }
    return Optional.empty();
  }

  private Optional<Point> pointOf(PointId id) {
    return step.pinTable().orElseThrow().points().stream()
        .filter(p -> p.id().equals(id))
        .findFirst();
  }
}
