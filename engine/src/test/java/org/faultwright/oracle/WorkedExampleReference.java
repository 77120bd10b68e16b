package org.faultwright.oracle;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.faultwright.oracle.Facts.done;
import static org.faultwright.oracle.Facts.outcome;
import static org.faultwright.oracle.Facts.reported;
import static org.faultwright.oracle.Facts.told;
import static org.faultwright.oracle.PackSketch.cause;

import java.util.List;
import java.util.Map;
import org.assertj.core.data.Offset;
import org.faultwright.casefile.Fact;
import org.faultwright.casefile.Told;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.EventId;
import org.faultwright.pack.OutcomeId;
import org.faultwright.pack.Pack;
import org.faultwright.pack.StepId;
import org.junit.jupiter.api.Test;

/** Closed forms: {@code engine/docs/worked-example.md}, where each number is derived by hand. */
public abstract class WorkedExampleReference {

  /** Sums of a few dozen products of doubles. */
  private static final Offset<Double> EXACT = within(1e-14);

  static final CauseId FLEX = new CauseId("flex-unseated");
  static final CauseId DRIVER = new CauseId("driver-failed");
  static final CauseId UNLISTED = new CauseId("unlisted");
  private static final EventId NO_LIGHT = new EventId("no-light");
  private static final StepId WIGGLE = new StepId("wiggle-flex");
  private static final StepId SWITCH_ON = new StepId("switch-on");
  private static final OutcomeId FAILED = new OutcomeId("failed");
  static final Fact REPORTED = reported("lamp-dark");
  private static final Fact POSITIVE = outcome("wiggle-flex", "positive");
  private static final Fact RESEATED = done("reseat-flex");
  private static final Fact TEST_FAILED = outcome("switch-on", "failed");
  private static final Fact TEST_PASSED = outcome("switch-on", "passed");

  static PackSketch lamp() {
    return new PackSketch("wren-handset/lamp")
        .any(
            "no-light",
            cause("flex-unseated", 1),
            cause("driver-failed", 0.8),
            cause("unlisted", 1))
        .complaint("lamp-dark", "no-light", 0, 0.2818)
        .step(new StepSketch("wiggle-flex").looksAt(FLEX, 0.9, 0.05))
        .step(reseat())
        .step(new StepSketch("switch-on").proves("lamp-dark", "no-light", 0.95, 0.02));
  }

  private static StepSketch reseat() {
    return new StepSketch("reseat-flex").changes("flex-unseated", 0.85, 0);
  }

  static PackSketch withPriors(PackSketch lamp) {
    return lamp.prior("flex-unseated", 0.10).prior("driver-failed", 0.20).prior("unlisted", 0.05);
  }

  /** What is under test, asked about a pack and what is told of a device. */
  protected abstract Answers answers(Pack pack, List<Told> facts);

  /** The priors that what is under test has solved. */
  protected abstract Map<CauseId, Double> priors(Pack pack);

  private Answers after(Fact... facts) {
    return after(withPriors(lamp()).build(), facts);
  }

  private Answers after(Pack pack, Fact... facts) {
    return answers(pack, told(facts));
  }

  @Test
  void functionIsLostWithItsPrior_whenNothingIsKnown() {
    assertThat(after().p(NO_LIGHT)).isEqualTo(0.2818, EXACT);
    assertThat(after().pEvidence()).isEqualTo(1, EXACT);
  }

  @Test
  void causesShareTheBlame_whenReported() {
    Answers e = after(REPORTED);
    assertThat(e.pEvidence()).isEqualTo(0.2818, EXACT);
    assertThat(e.p(FLEX)).isEqualTo(0.1 / 0.2818, EXACT);
    assertThat(e.p(DRIVER)).isEqualTo(0.1658 / 0.2818, EXACT);
    assertThat(e.p(UNLISTED)).isEqualTo(0.05 / 0.2818, EXACT);
    assertThat(e.p(NO_LIGHT)).isEqualTo(1, EXACT);
  }

  @Test
  void testPointsAtTheFlex_whenPositive() {
    Answers e = after(REPORTED, POSITIVE);
    assertThat(e.pEvidence()).isEqualTo(0.09909, EXACT);
    assertThat(e.p(FLEX)).isEqualTo(0.09 / 0.09909, EXACT);
    assertThat(e.p(DRIVER)).isEqualTo(0.02529 / 0.09909, EXACT);
    assertThat(e.p(UNLISTED)).isEqualTo(0.00675 / 0.09909, EXACT);
  }

  @Test
  void repeatTellsNothing_whenNothingWasChanged() {
    Answers e = after(REPORTED, POSITIVE);
    assertThat(e.outcomes(WIGGLE).get(OutcomeId.POSITIVE)).isEqualTo(1, EXACT);
    assertThat(after(REPORTED, POSITIVE, POSITIVE).pEvidence()).isEqualTo(0.09909, EXACT);
    assertThat(after(REPORTED, POSITIVE, outcome("wiggle-flex", "negative")).isImpossible())
        .isTrue();
  }

  @Test
  void repairLeavesWhatItMissed_whenDone() {
    Answers e = after(REPORTED, POSITIVE, RESEATED);
    assertThat(e.pEvidence()).isEqualTo(0.09909, EXACT);
    assertThat(e.p(FLEX)).isEqualTo(0.0135 / 0.09909, EXACT);
    assertThat(e.p(DRIVER)).isEqualTo(0.02529 / 0.09909, EXACT);
    assertThat(e.p(NO_LIGHT)).isEqualTo(0.038043 / 0.09909, EXACT);
    assertThat(e.outcomes(SWITCH_ON).get(FAILED)).isEqualTo(0.03736179 / 0.09909, EXACT);
  }

  @Test
  void rankingComesBack_whenTheFunctionTestFails() {
    Answers e = after(REPORTED, POSITIVE, RESEATED, TEST_FAILED);
    assertThat(e.pEvidence()).isEqualTo(0.03736179, EXACT);
    assertThat(e.p(FLEX)).isEqualTo(0.012825 / 0.03736179, EXACT);
    assertThat(e.p(DRIVER)).isEqualTo(0.02132199 / 0.03736179, EXACT);
    assertThat(e.p(NO_LIGHT)).isEqualTo(0.95 * 0.038043 / 0.03736179, EXACT);
  }

  @Test
  void littleDoubtRemains_whenTheFunctionTestPasses() {
    Answers e = after(REPORTED, POSITIVE, RESEATED, TEST_PASSED);
    assertThat(e.p(NO_LIGHT)).isEqualTo(0.05 * 0.038043 / (0.09909 - 0.03736179), EXACT);
  }

  @Test
  void sameRepairFailsAgain_whenItIsNotRepeatable() {
    Answers e = after(REPORTED, POSITIVE, RESEATED, TEST_FAILED, RESEATED);
    double pLost = 0.95 * 0.038043 / 0.03736179;
    assertThat(e.p(FLEX)).isEqualTo(0.012825 / 0.03736179, EXACT);
    assertThat(e.outcomes(SWITCH_ON).get(FAILED))
        .isEqualTo(0.95 * pLost + 0.02 * (1 - pLost), EXACT);
  }

  @Test
  void sameRepairHasAnotherChance_whenItIsRepeatable() {
    Pack pack = withPriors(lamp().step(reseat().repeatable())).build();
    Answers e = after(pack, REPORTED, POSITIVE, RESEATED, TEST_FAILED, RESEATED);
    assertThat(e.p(FLEX)).isEqualTo(0.15 * 0.012825 / 0.03736179, EXACT);
  }

  @Test
  void solverFindsThePriors_whenThePackStatesShares() {
    Pack pack =
        lamp()
            .share("flex-unseated", "lamp-dark", 0.1 / 0.3158)
            .share("driver-failed", "lamp-dark", 0.1658 / 0.3158)
            .share("unlisted", "lamp-dark", 0.05 / 0.3158)
            .build();
    Map<CauseId, Double> priors = priors(pack);
    // shares are met to 1e-12; the priors are less than ten times as far from the solution
    assertThat(priors.get(FLEX)).isEqualTo(0.10, within(1e-11));
    assertThat(priors.get(DRIVER)).isEqualTo(0.20, within(1e-11));
    assertThat(priors.get(UNLISTED)).isEqualTo(0.05, within(1e-11));
  }
}
