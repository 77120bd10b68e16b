package org.faultwright.packs;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.faultwright.casefile.CaseFile;
import org.faultwright.diagnosis.Considered;
import org.faultwright.diagnosis.Diagnosis;
import org.faultwright.diagnosis.Engine;
import org.faultwright.pack.Pack;
import org.faultwright.rules.Blocked;
import org.junit.jupiter.api.Test;

/** What a hold forbids is not weighed, even where the bench stands as the step needs it. */
class HeldStepsTest {

  @Test
  void stepsWithTheChargerPluggedIn_areNotWeighed_whenTheCellIsSwollenAndItIsPluggedInAlready() {
    PackFolder charging =
        PackFolder.all().stream()
            .filter(f -> f.path().endsWith("wren-handset/charging"))
            .findFirst()
            .orElseThrow();
    Pack pack = charging.pack();
    CaseFile swollen =
        charging.cases(pack).values().stream()
            .filter(c -> c.name().equals("battery-swollen-while-plugged-in"))
            .findFirst()
            .orElseThrow();
    try (Diagnosis diagnosis = Engine.create().resume(pack, swollen)) {
      List<Considered> held =
          diagnosis.answer().steps().stream()
              .filter(
                  s ->
                      s.status().blocked().stream()
                          .anyMatch(b -> b.kind() == Blocked.Kind.SWITCH_HELD))
              .toList();
      assertThat(held).isNotEmpty();
      assertThat(held).allSatisfy(s -> assertThat(s.worth()).isEmpty());
    }
  }
}
