package org.faultwright.diagnosis;

import java.util.Collection;
import java.util.List;
import org.faultwright.casefile.Fact;
import org.faultwright.measurement.ReadingValue;
import org.faultwright.pack.Conventions;
import org.faultwright.pack.Id;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Point;
import org.faultwright.pack.StateId;
import org.faultwright.pack.Step;

/** Refuses facts that speak of what a pack does not have. */
final class KnownToPack {

  private KnownToPack() {}

  static void check(Pack pack, Fact fact) {
    if (fact instanceof Fact.Complained f) {
      known("complaint", f.complaint(), pack.complaints().keySet());
    } else if (fact instanceof Fact.SymptomNoted f) {
      known("symptom", f.symptom(), pack.symptoms().keySet());
    } else if (fact instanceof Fact.HistorySaid f) {
      known("history", f.history(), pack.histories().keySet());
    } else if (fact instanceof Fact.HistorySeen f) {
      known("history", f.history(), pack.histories().keySet());
    } else if (fact instanceof Fact.OutcomeSeen f) {
      known("step", f.step(), pack.steps().keySet());
      known(
          "outcome of " + f.step(),
          f.outcome(),
          pack.steps().get(f.step()).shows().map(o -> o.outcomes()).orElse(List.of()));
    } else if (fact instanceof Fact.CouldNotDo f) {
      known("step", f.step(), pack.steps().keySet());
    } else if (fact instanceof Fact.StepDone f) {
      known("step", f.step(), pack.steps().keySet());
    } else if (fact instanceof Fact.BenchSet f) {
      known("switch", f.state().of(), pack.switches().keySet());
    } else if (fact instanceof Fact.ConsentAnswered f) {
      if (!Conventions.ASKED_ANYWHERE.containsKey(f.consent())) {
        known("consent", f.consent(), pack.consents().keySet());
      }
    } else if (fact instanceof Fact.ReadingTaken f) {
      reading(pack, f);
    }
  }

  private static void reading(Pack pack, Fact.ReadingTaken reading) {
    List<Point> points =
        pack.steps().values().stream()
            .flatMap(s -> s.pinTable().map(Step.PinTable::points).orElse(List.of()).stream())
            .toList();
    known("point", reading.point(), points.stream().map(Point::id).toList());
    Point point =
        points.stream().filter(p -> p.id().equals(reading.point())).findFirst().orElseThrow();
    if (point.reference().dimension() != reading.value().kind()) {
      throw new IllegalArgumentException(
          "reading at "
              + point.id()
              + " must be a "
              + point.reference().dimension().word()
              + ": a "
              + reading.value().kind().word());
    }
    if (reading.value() instanceof ReadingValue.Named named
        && !named.state().equals(StateId.NORMAL.value())) {
      known(
          "state of " + point.id(),
          new StateId(named.state()),
          point.states().stream().map(Point.ReadingState::id).toList());
    }
    reading
        .setup()
        .instrument()
        .ifPresent(i -> known("instrument", i, pack.instruments().keySet()));
  }

  private static void known(String what, Id id, Collection<? extends Id> among) {
    if (!among.contains(id)) {
      throw new IllegalArgumentException(what + " must be one of " + among + ": " + id);
    }
  }
}
