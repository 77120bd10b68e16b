package org.faultwright.rules;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Optional;
import java.util.OptionalDouble;
import org.faultwright.casefile.Fact;
import org.faultwright.pack.BoardId;
import org.junit.jupiter.api.Test;

/** Which readings contradict each other, and which are not of this device's points at all. */
class ReadingSetupTest {

  private static boolean apart(Scene scene) {
    return scene.result().conflict(Conflict.Kind.READINGS_APART);
  }

  private static Fact.Setup knownGood(Optional<String> leads, Optional<BoardId> board) {
    return new Fact.Setup(leads, Optional.empty(), true, OptionalDouble.empty(), board);
  }

  /** The meter's own error, some 5 mV here, is the same in both and cannot explain 6 mV. */
  @Test
  void readingsOfOneMeter_contradictEachOther_whenTheyDifferByMoreThanItRepeats() {
    Scene scene = new Scene().reads("gate", 0.600).reads("gate", 0.606);
    assertThat(apart(scene)).isTrue();
    assertThat(scene.result().advice().conflicts().get(0).words())
        .isEqualTo(
            "two readings of gate, 600 mV and 606 mV, differ by more than one meter repeats"
                + " itself, though nothing was changed in between");
    assertThat(scene.result().fact(1).counts()).isTrue();
    assertThat(scene.result().fact(2).counts()).isTrue();
  }

  @Test
  void readingsOfOneMeter_agree_whenOnlyTheLastDigitFlickers() {
    assertThat(apart(new Scene().reads("gate", 0.600).reads("gate", 0.602))).isFalse();
  }

  @Test
  void aReading_isNotOfThisDevice_whenThePointIsOfAnotherBoard() {
    Standing onA = new Scene().board("rev-a").reads("rail", 0.6).result().fact(1);
    assertThat(onA.verdict()).isEqualTo(Standing.Verdict.WRONG_SETUP);
    assertThat(onA.words()).containsExactly("the point is one of board rev-b, and this is rev-a");
    assertThat(new Scene().board("rev-b").reads("rail", 0.6).result().fact(1).counts()).isTrue();
    assertThat(new Scene().reads("rail", 0.6).result().fact(1).counts()).isTrue();
  }

  @Test
  void aReadingOnAKnownGoodBoard_isNotCompared_whenTheBoardOrTheLeadsAreOthers() {
    Standing other =
        new Scene()
            .board("rev-a")
            .reads("gate", 0.6, knownGood(Optional.empty(), Optional.of(new BoardId("rev-b"))))
            .result()
            .fact(1);
    assertThat(other.words())
        .containsExactly("it was taken on a known-good board rev-b, and this device is rev-a");
    Standing leads =
        new Scene()
            .reads("gate", 0.6, knownGood(Optional.of("black-on-ground"), Optional.empty()))
            .result()
            .fact(1);
    assertThat(leads.counts()).isFalse();
    assertThat(leads.words())
        .containsExactly(
            "it was taken with the leads black-on-ground; the step says red-on-ground");
    assertThat(
            new Scene()
                .board("rev-a")
                .reads("gate", 0.6, knownGood(Optional.empty(), Optional.empty()))
                .result()
                .fact(1)
                .counts())
        .isTrue();
  }
}
