package org.faultwright.pack.check;

import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.function.Consumer;
import org.faultwright.pack.ModeId;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Step;
import org.faultwright.pack.Symptom;
import org.faultwright.problem.Problem;

/** A step that provokes what no cause answers to. */
final class ProvokesNothing implements PackCheck {

  @Override
  public String id() {
    return "provokes-nothing";
  }

  @Override
  public void check(Pack pack, Positions at, Consumer<Problem> found) {
    Set<ModeId> shown = new LinkedHashSet<>(List.of(ModeId.AT_REST, ModeId.INSPECTION));
    pack.causes().values().forEach(c -> shown.addAll(c.shows().keySet()));
    for (Step step : pack.steps().values()) {
      check(shown, step.provokes(), "step", "steps/" + step.id(), at, found);
    }
    for (Symptom symptom : pack.symptoms().values()) {
      check(shown, symptom.provokes(), "symptom", "symptoms/" + symptom.id(), at, found);
    }
  }

  private void check(
      Set<ModeId> shown,
      ModeId provokes,
      String kind,
      String path,
      Positions at,
      Consumer<Problem> found) {
    if (!shown.contains(provokes)) {
      String id = path.substring(path.indexOf('/') + 1);
      found.accept(
          Problem.warning(
              id(),
              at.of(path + "/provokes"),
              "%s '%s' provokes '%s', but no cause shows differently then"
                  .formatted(kind, id, provokes),
              "say under 'shows' of a cause how often it acts then, or leave it out"));
    }
  }
}
