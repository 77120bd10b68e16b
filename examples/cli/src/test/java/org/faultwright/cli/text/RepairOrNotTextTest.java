package org.faultwright.cli.text;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.OptionalDouble;
import java.util.Set;
import org.faultwright.casefile.Intake;
import org.faultwright.planning.Quote;
import org.faultwright.planning.RepairOrNot;
import org.faultwright.planning.RepairOrNot.Turning;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Repair or not, in words. */
class RepairOrNotTextTest {

  private static final OptionalDouble NONE = OptionalDouble.empty();
  private static final Quote QUOTE = new Quote(77.2, 174.2, 90, 0.56, NONE, 0, Set.of());

  private static String worth(Turning turning, OptionalDouble stated) {
    return RepairOrNotText.worth(new RepairOrNot(turning, stated, 50, NONE, QUOTE));
  }

  @Test
  void turningPoint_isToldBesideTheStatedValue() {
    Turning from = new Turning.From(62, true);

    assertThat(worth(from, OptionalDouble.of(120)))
        .isEqualTo("worth repairing from a device value of 62 on (stated: 120)");
    assertThat(worth(from, OptionalDouble.of(40)))
        .isEqualTo(
            "not worth repairing: only from a device value of 62 on (stated: 40); give it back as"
                + " it is");
    assertThat(worth(from, NONE))
        .isEqualTo(
            "worth repairing from a device value of 62 on; the case does not say what it is worth"
                + " (device-value)");
  }

  @Test
  void whatABetterPlanCouldChange_isSaid() {
    assertThat(worth(new Turning.From(62, false), OptionalDouble.of(120)))
        .endsWith("by the plans found; a better plan could pay below");
    assertThat(worth(new Turning.From(62, false), OptionalDouble.of(40)))
        .startsWith("not worth repairing by any plan found")
        .endsWith("give it back as it is");
    assertThat(worth(new Turning.Never(150, false), OptionalDouble.of(40)))
        .startsWith("not worth repairing: no plan was found that pays");
  }

  @Test
  void whatNeverTurns_isToldWithWhatToDoInstead() {
    Turning never = new Turning.Never(150, true);

    assertThat(worth(never, OptionalDouble.of(200))).endsWith("send it on, which pays from 150 on");
    assertThat(worth(never, OptionalDouble.of(100)))
        .endsWith("give it back, sending it on pays from 150 on");
    assertThat(worth(never, NONE)).contains("sending it on pays from a device value of 150 on");
    assertThat(worth(new Turning.Always(), NONE))
        .isEqualTo("worth repairing whatever the device is worth");
  }

  @Test
  void customerIsToldARange_andHowOftenTheCeilingIsExceeded() {
    assertThat(RepairOrNotText.tell(QUOTE))
        .isEqualTo(
            "in half of the cases the work costs no more than 77, in nine of ten no more than 174;"
                + " repaired in 56 % of cases");
    assertThat(
            RepairOrNotText.tell(
                new Quote(77, 174, 90, 0.56, OptionalDouble.of(120), 0.3, Set.of())))
        .contains("; in 30 % of cases it goes above the ceiling of 120, so ask before going on");
    assertThat(
            RepairOrNotText.tell(new Quote(77, 110, 90, 0.56, OptionalDouble.of(120), 0, Set.of())))
        .contains("; it stays below the ceiling of 120");
  }

  @ParameterizedTest
  @ValueSource(ints = {40, 80})
  void itFitsTheScreen_andNamesWhatItRestsOn(int width) {
    Page page = new Page(new Screen(width, false, false));
    RepairOrNot asked =
        new RepairOrNot(new Turning.From(62, true), OptionalDouble.of(120), 50, NONE, QUOTE);
    new RepairOrNotText(page, Examples.PACK).write(asked, Intake.PLAIN.withIrreplaceableData(true));

    assertThat(page.lines()).allMatch(line -> Letters.columns(line) <= width);
    assertThat(String.join(" ", page.lines()).replaceAll(" +", " "))
        .contains("REPAIR OR NOT")
        .contains("nothing for the data, since the case does not say what they are worth");
  }
}
