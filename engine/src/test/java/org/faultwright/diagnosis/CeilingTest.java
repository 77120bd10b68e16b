package org.faultwright.diagnosis;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.LinkedHashSet;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import org.faultwright.casefile.Fact;
import org.faultwright.casefile.Intake;
import org.faultwright.oracle.Facts;
import org.faultwright.oracle.PackSketch;
import org.faultwright.oracle.StepSketch;
import org.faultwright.pack.Conventions;
import org.faultwright.pack.Goal;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Step;
import org.faultwright.pack.StepId;
import org.faultwright.rules.Advice;
import org.junit.jupiter.api.Test;

/** A repair that costs more than the customer will pay is asked for, and the answer is heard. */
class CeilingTest {

  /** A part costs 25 where nothing else is said, which is above the ceiling of 10. */
  private static final Pack PACK =
      new PackSketch("ceiling/pack")
          .prior("worn", 0.2)
          .any("no-sound", PackSketch.cause("worn", 1))
          .complaint("mute", "no-sound")
          .part("speaker", new LinkedHashSet<>(Set.of("worn")))
          .step(new StepSketch("swap-speaker").swaps("speaker", 1))
          .step(new StepSketch("sound-test").proves("mute", "no-sound", 1, 0))
          .build();

  private static final Intake AT_MOST_10 =
      new Intake(
          Optional.empty(),
          Goal.WORKING,
          Set.of(),
          Set.of(),
          OptionalDouble.of(10),
          OptionalDouble.of(500),
          false,
          Set.of(),
          Step.Skill.BOARD);

  @Test
  void repairIsAskedForAndThenAdvised_whenTheCustomerAgreesToPayMore() {
    try (Diagnosis diagnosis = Engine.create().open(PACK, AT_MOST_10)) {
      diagnosis.tell(Facts.reported("mute"));
      Advice ask = diagnosis.answer().advice().primary();
      assertThat(ask.kind()).isEqualTo(Advice.Kind.ASK);
      assertThat(ask.consents()).containsExactly(Conventions.ABOVE_CEILING);
      diagnosis.tell(new Fact.ConsentAnswered(Conventions.ABOVE_CEILING, true));
      Advice repair = diagnosis.answer().advice().primary();
      assertThat(repair.kind()).isEqualTo(Advice.Kind.REPAIR);
      assertThat(repair.step()).contains(new StepId("swap-speaker"));
    }
  }

  @Test
  void jobEnds_whenTheCustomerRefusesToPayMore() {
    try (Diagnosis diagnosis = Engine.create().open(PACK, AT_MOST_10)) {
      diagnosis.tell(Facts.reported("mute"));
      diagnosis.tell(new Fact.ConsentAnswered(Conventions.ABOVE_CEILING, false));
      assertThat(diagnosis.answer().isEnd()).isTrue();
    }
  }
}
