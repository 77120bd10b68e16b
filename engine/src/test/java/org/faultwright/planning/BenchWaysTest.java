package org.faultwright.planning;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;

import java.time.Duration;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.faultwright.oracle.StepSketch;
import org.faultwright.pack.BenchState;
import org.faultwright.pack.Effort;
import org.faultwright.pack.Pack;
import org.faultwright.pack.PackDraft;
import org.faultwright.pack.PackId;
import org.faultwright.pack.Switch;
import org.faultwright.pack.SwitchId;
import org.junit.jupiter.api.Test;

class BenchWaysTest {

  private static final SwitchId BATTERY = new SwitchId("battery-connected");
  private static final SwitchId OPEN = new SwitchId("device-open");

  /** Opening takes 12 minutes; the battery can only be reached in an open device. */
  private static PackDraft handset() {
    PackDraft draft = new PackDraft(PackId.parse("wren-handset/bench"));
    draft.benchSwitch(
        Bench.benchSwitch(
            "device-open",
            false,
            new Switch.Turn(
                new Effort(Duration.ofMinutes(12), Duration.ofMinutes(5)),
                Set.of(),
                Set.of(),
                Set.of(),
                Set.of(),
                1.5),
            Bench.turn(10, Bench.on("battery-connected")),
            true));
    draft.benchSwitch(
        Bench.benchSwitch(
            "battery-connected",
            true,
            Bench.turn(1, Bench.on("device-open")),
            Bench.turn(1, Bench.on("device-open")),
            false));
    draft.benchSwitch(Bench.benchSwitch("lamp-on", false, Bench.turn(1), Bench.turn(1), false));
    draft.step(
        Bench.needing(
            new StepSketch("measure").build(),
            Bench.on("device-open"),
            Bench.off("battery-connected")));
    return draft;
  }

  @Test
  void way_namesTurnsInOrder_andAddsUpTimesAndMoney() {
    Shop shop = new Shop(2, 0.1, 60, 0, 90, 25, Map.of(), Shop.ORDINARY.proof());
    Route route =
        BenchWays.of(handset().build(), shop)
            .way(Set.of(BATTERY), Set.of(Bench.off("battery-connected")));

    // 13 minutes of hands at 2, 5 of waiting at 0.1, 1.5 of adhesive remover
    assertThat(route)
        .isEqualTo(
            new Route.Way(
                28,
                Duration.ofMinutes(13),
                Duration.ofMinutes(5),
                1.5,
                List.of(Bench.on("device-open"), Bench.off("battery-connected"))));
  }

  @Test
  void wayToClose_undoesWhatClosingNeeds() {
    Route.Way way =
        (Route.Way) BenchWays.of(handset().build(), Bench.PLAIN).wayToClose(Set.of(OPEN));

    assertThat(way.turns())
        .containsExactly(Bench.on("battery-connected"), Bench.off("device-open"));
    assertThat(way.cost()).isEqualTo(11);
  }

  @Test
  void way_isEmpty_whenTheBenchIsReady() {
    Route.Way way =
        (Route.Way)
            BenchWays.of(handset().build(), Bench.PLAIN)
                .way(Set.of(OPEN), Set.of(Bench.off("battery-connected")));

    assertThat(way.turns()).isEmpty();
    assertThat(way.cost()).isZero();
  }

  @Test
  void way_isUnreachable_whenATurnDoesNotExist() {
    PackDraft draft = handset();
    draft.benchSwitch(Bench.benchSwitch("device-open", false, null, null, true));

    assertThat(
            BenchWays.of(draft.build(), Bench.PLAIN)
                .way(Set.of(BATTERY), Set.of(Bench.off("battery-connected"))))
        .isEqualTo(new Route.Unreachable());
  }

  @Test
  void of_refusesMoreSwitchesThanItCanPlanWith() {
    PackDraft draft = new PackDraft(PackId.parse("test/many-switches"));
    BenchState[] all = new BenchState[13];
    for (int i = 0; i < all.length; i++) {
      draft.benchSwitch(Bench.benchSwitch("s" + i, false, Bench.turn(1), Bench.turn(1), false));
      all[i] = Bench.on("s" + i);
    }
    draft.step(Bench.needing(new StepSketch("everything-on").build(), all));
    Pack pack = draft.build();

    assertThatIllegalArgumentException()
        .isThrownBy(() -> BenchWays.of(pack, Bench.PLAIN))
        .withMessage("switches that steps need must be at most 12: 13");
  }

  @Test
  void way_refusesASwitchThatNoStepNeeds() {
    BenchWays ways = BenchWays.of(handset().build(), Bench.PLAIN);

    assertThatIllegalArgumentException()
        .isThrownBy(() -> ways.way(Set.of(), Set.of(Bench.on("lamp-on"))))
        .withMessage("switch must be one that steps need: lamp-on");
    assertThat(Optional.of(ways.way(Set.of(new SwitchId("lamp-on")), Set.of())))
        .contains(new Route.Way(0, Duration.ZERO, Duration.ZERO, 0, List.of()));
  }
}
