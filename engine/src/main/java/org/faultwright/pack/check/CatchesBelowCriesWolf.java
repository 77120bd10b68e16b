package org.faultwright.pack.check;

import java.util.function.Consumer;
import org.faultwright.pack.Observation;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Step;
import org.faultwright.pack.Symptom;
import org.faultwright.problem.Problem;

/** A test that is positive less often with the fault than without. */
final class CatchesBelowCriesWolf implements PackCheck {

  @Override
  public String id() {
    return "catches-below-cries-wolf";
  }

  @Override
  public void check(Pack pack, Positions at, Consumer<Problem> found) {
    for (Step step : pack.steps().values()) {
      String path = "steps/" + step.id() + (step.proves().isPresent() ? "/proves" : "/shows");
      step.shows().ifPresent(o -> check("step '" + step.id() + "'", o, at, path, found));
    }
    for (Symptom symptom : pack.symptoms().values()) {
      String path = "symptoms/" + symptom.id() + "/shows";
      symptom.shows().ifPresent(o -> check("symptom '" + symptom.id() + "'", o, at, path, found));
    }
  }

  private void check(
      String what, Observation shows, Positions at, String path, Consumer<Problem> found) {
    if (shows instanceof Observation.OfNode o && o.catches().p() < o.criesWolf().p()) {
      found.accept(
          Problem.warning(
              id(),
              at.of(path + "/catches"),
              "%s is '%s' less often with '%s' than without"
                  .formatted(what, o.positive(), o.node()),
              "are 'catches' and 'cries-wolf' swapped?"));
    }
  }
}
