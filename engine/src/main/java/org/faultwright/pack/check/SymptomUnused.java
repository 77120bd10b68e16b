package org.faultwright.pack.check;

import java.util.LinkedHashSet;
import java.util.Set;
import java.util.function.Consumer;
import org.faultwright.pack.Condition;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Symptom;
import org.faultwright.pack.SymptomId;
import org.faultwright.problem.Problem;

/** A symptom that tells nothing and that nothing asks for. */
final class SymptomUnused implements PackCheck {

  @Override
  public String id() {
    return "symptom-unused";
  }

  @Override
  public void check(Pack pack, Positions at, Consumer<Problem> found) {
    Set<SymptomId> asked = new LinkedHashSet<>();
    ConditionParts.all(
        pack,
        c -> {
          if (c instanceof Condition.SymptomIs s) {
            asked.add(s.symptom());
          }
        });
    for (Symptom symptom : pack.symptoms().values()) {
      String path = "symptoms/" + symptom.id();
      if (symptom.shows().isEmpty() && !asked.contains(symptom.id()) && at.isOwn(path)) {
        found.accept(
            Problem.warning(
                id(),
                at.of(path),
                "symptom '%s' tells nothing about causes, and no condition asks for it"
                    .formatted(symptom.id()),
                "say what it shows, or leave it out"));
      }
    }
  }
}
