package org.faultwright.pack.check;

import java.util.Collection;
import java.util.List;
import java.util.function.Consumer;
import org.faultwright.pack.Chance;
import org.faultwright.pack.Observation;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Point;
import org.faultwright.pack.Step;
import org.faultwright.pack.Symptom;
import org.faultwright.problem.Problem;

/** A test whose outcome is equally likely whatever is wrong. */
final class StepTellsNothing implements PackCheck {

  @Override
  public String id() {
    return "step-tells-nothing";
  }

  @Override
  public void check(Pack pack, Positions at, Consumer<Problem> found) {
    for (Step step : pack.steps().values()) {
      String path = "steps/" + step.id() + (step.proves().isPresent() ? "/proves" : "/shows");
      if (step.shows().map(StepTellsNothing::isFlat).orElse(false)) {
        report("step '" + step.id() + "'", at, path, found);
      }
      for (Point point : step.pinTable().map(Step.PinTable::points).orElse(List.of())) {
        if (point.states().isEmpty()) {
          String of = "point '" + point.id() + "'";
          report(of, at, "steps/" + step.id() + "/points/" + point.id(), found);
        }
      }
    }
    for (Symptom symptom : pack.symptoms().values()) {
      if (symptom.shows().map(StepTellsNothing::isFlat).orElse(false)) {
        report("symptom '" + symptom.id() + "'", at, "symptoms/" + symptom.id() + "/shows", found);
      }
    }
  }

  private void report(String what, Positions at, String path, Consumer<Problem> found) {
    found.accept(
        Problem.warning(
            id(),
            at.of(path),
            what + " tells nothing: each outcome is equally likely whatever is wrong",
            "say how the outcomes differ, or leave it out"));
  }

  private static boolean isFlat(Observation shows) {
    if (shows instanceof Observation.OfNode o) {
      return o.catches().p() == o.criesWolf().p();
    } else if (shows instanceof Observation.OfNodes o) {
      return o.rates().values().stream().allMatch(r -> r.p() == o.criesWolf().p());
    } else if (shows instanceof Observation.OfStates o) {
      return o.rows().values().stream().map(r -> chances(r.values())).distinct().count() < 2;
    }
    return ((Observation.OfTable) shows)
            .rows().values().stream().map(StepTellsNothing::chances).distinct().count()
        < 2;
  }

  private static List<Double> chances(Collection<Chance> row) {
    return row.stream().map(Chance::p).toList();
  }
}
