package org.faultwright.rules;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Optional;
import org.faultwright.pack.StepId;
import org.junit.jupiter.api.Test;

/** Which of several facts that do not fit is looked at again first. */
class LookAgainTest {

  private static Optional<StepId> first(Scene scene) {
    Advice advice = scene.result().advice().primary();
    assertThat(advice.kind()).isEqualTo(Advice.Kind.READ_AGAIN);
    return advice.step();
  }

  @Test
  void thePacksOrderDecides_whicheverWasToldLast() {
    Scene lookLast =
        new Scene()
            .outcome("listen", "positive")
            .outcome("listen", "negative")
            .outcome("look", "positive")
            .outcome("look", "negative");
    Scene listenLast =
        new Scene()
            .outcome("look", "positive")
            .outcome("look", "negative")
            .outcome("listen", "positive")
            .outcome("listen", "negative");
    assertThat(first(lookLast)).isEqualTo(first(listenLast));
  }
}
