package org.faultwright.cli.text;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import org.faultwright.cli.text.PlanWalk.Act;
import org.faultwright.cli.text.PlanWalk.Finish;
import org.faultwright.cli.text.PlanWalk.Unfollowed;
import org.faultwright.pack.CautionId;
import org.faultwright.pack.OutcomeId;
import org.faultwright.pack.Pack;
import org.faultwright.pack.PackId;
import org.faultwright.pack.StepId;
import org.faultwright.pack.reader.PackLibrary;
import org.faultwright.planning.Seen;
import org.junit.jupiter.api.Test;

/** A plan as numbered places. */
class PlanWalkTest {

  private final PlanWalk walk = PlanWalk.of(PlanExamples.plan(), Examples.PACK);

  @Test
  void numbersGoDownEachBranchToItsEnd() {
    assertThat(walk.acts()).extracting(Act::number).containsExactly(1, 2, 3, 4, 5);
    assertThat(walk.acts())
        .extracting(Act::headline)
        .containsExactly(
            "TEST: Look at the grille with a loupe",
            "REPAIR: Brush the grille clean",
            "TEST: Measure the coil at its contacts, sound off",
            "REPAIR: Fit a good loudspeaker",
            "TEST: Feed the amplifier from the bench supply and listen");
    assertThat(PlanWords.arrivals(walk)).containsEntry(5, "after 3: normal");
    assertThat(PlanWords.leads(walk.acts().get(0).ways().get(2).to())).isEqualTo("go to 3");
  }

  @Test
  void eachPlaceSaysInHowManyCasesTheJobComesThere() {
    double sum = 0;
    for (Act act : walk.acts()) {
      for (PlanWalk.Way way : act.ways()) {
        assertThat(way.to().p()).isBetween(act.p() * way.p() - 1e-12, act.p() * way.p() + 1e-12);
        sum += way.to() instanceof Finish || way.to() instanceof Unfollowed ? way.to().p() : 0;
      }
    }
    assertThat(sum).isBetween(1 - 1e-12, 1 + 1e-12);
  }

  @Test
  void likeliestActsAlone_keepTheirWays_andNameWhatFollowsNoFurther() {
    PlanWalk few = walk.likeliest(3);

    // 1 in all cases, 3 in 60 %, 4 in 36 %; 2 in 25 % and 5 in 24 % are left out
    assertThat(few.acts()).extracting(Act::number).containsExactly(1, 2, 3);
    assertThat(few.acts())
        .extracting(Act::step)
        .extracting(StepId::value)
        .containsExactly("look-at-grille", "coil-ohms", "fit-speaker");
    assertThat(few.root()).isEqualTo(few.acts().get(0));
    assertThat(PlanWords.leads(few.acts().get(0).ways().get(0).to()))
        .isEqualTo(
            "go on with REPAIR: Brush the grille clean (not followed further; 25 % of all cases)");
    assertThat(PlanWords.arrivals(few)).containsEntry(3, "after 2: " + open());
    assertThat(few.cautions())
        .containsExactly(new CautionId("cell-puncture"), new CautionId("loud"));
    assertThat(walk.likeliest(5)).isEqualTo(walk);
  }

  private String open() {
    return walk.acts().get(2).ways().get(0).seen();
  }

  @Test
  void repairHasTheCautionsOfItsFunctionTestAndOfAllTurns() {
    // the step's own, which the opened device has too, and the tone's, which the pack states last
    assertThat(walk.acts().get(3).cautions())
        .containsExactly(new CautionId("cell-puncture"), new CautionId("loud"));
    assertThat(walk.acts().get(1).cautions()).containsExactly(new CautionId("loud"));
  }

  @Test
  void limitsAndFunctionTestsAreInWords() {
    assertThat(walk.acts().get(4).limits()).containsExactly("5 V on: Amplifier supply", "500 mA");
    assertThat(walk.acts().get(3).proofs())
        .containsExactly("A tone is heard at an arm's length (sound on)");
  }

  @Test
  void lettersGoOnAfterZ() {
    List<CautionId> many = new ArrayList<>();
    for (int i = 0; i < 800; i++) {
      many.add(new CautionId("c" + i));
    }
    PlanWalk longWalk = new PlanWalk(walk.root(), walk.acts(), many);

    assertThat(List.of(0, 25, 26, 51, 52, 701, 702))
        .extracting(i -> longWalk.letter(many.get(i)))
        .containsExactly("A", "Z", "AA", "AZ", "BA", "ZZ", "AAA");
  }

  @Test
  void resultThatRaisesAHold_hasItsWordsBesideIt() {
    Pack wren =
        PackLibrary.onClassPath()
            .read(PackId.parse("wren-handset/charging"))
            .orElseThrow()
            .readable()
            .pack();
    StepId look = new StepId("look-inside");

    assertThat(RaisedHolds.by(wren, look, shown("battery-bulging")))
        .extracting(h -> h.id().value())
        .containsExactly("swollen-battery-inside");
    assertThat(RaisedHolds.by(wren, look, shown("flex-loose"))).isEmpty();
    assertThat(RaisedHolds.by(wren, new StepId("look-into-port"), shown("battery-bulging")))
        .isEmpty();
    assertThat(
            RaisedHolds.by(
                wren, look, new Seen.Both(shown("battery-bulging"), new Seen.AllNormal())))
        .hasSize(1);
  }

  private static Seen.Shown shown(String outcome) {
    return new Seen.Shown(new OutcomeId(outcome));
  }
}
