package org.faultwright.pack.reader;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Map;
import org.faultwright.measurement.Dimension;
import org.faultwright.measurement.Reference;
import org.faultwright.pack.Basis;
import org.faultwright.pack.Cause;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.Comparison;
import org.faultwright.pack.ComplaintId;
import org.faultwright.pack.Condition;
import org.faultwright.pack.EventId;
import org.faultwright.pack.GroupId;
import org.faultwright.pack.Harm;
import org.faultwright.pack.Observation;
import org.faultwright.pack.OutcomeId;
import org.faultwright.pack.Pack;
import org.faultwright.pack.PackId;
import org.faultwright.pack.PartId;
import org.faultwright.pack.Point;
import org.faultwright.pack.PointId;
import org.faultwright.pack.SourceId;
import org.faultwright.pack.StateId;
import org.faultwright.pack.Step;
import org.faultwright.pack.StepId;
import org.faultwright.pack.SwitchId;
import org.faultwright.pack.yaml.YamlText;
import org.junit.jupiter.api.Test;

class PackReaderTest {

  static final Path FULL = Path.of("src/test/resources/reading/full.yaml");
  static final Fragments FRAGMENTS =
      Fragments.of(
          Map.of(
              "bench-basics",
              YamlText.read(Path.of("src/test/resources/reading/bench-basics.yaml"))));

  private static Pack full() {
    PackReading reading = new PackReader(FRAGMENTS).read(FULL);
    assertThat(reading.report()).isEmpty();
    return ((PackReading.Readable) reading).pack();
  }

  private static Step step(String id) {
    return full().steps().get(new StepId(id));
  }

  @Test
  void header_isRead() {
    Pack pack = full();
    assertThat(pack.id()).isEqualTo(PackId.parse("plover-player/sound"));
    assertThat(pack.version()).isEqualTo("1.2.0");
    assertThat(pack.invented()).isTrue();
    assertThat(pack.boards()).extracting("value").containsExactly("rev-a", "rev-b");
    assertThat(pack.renamed()).containsEntry("coil-cut", "coil-open");
  }

  @Test
  void fragment_isMergedIn() {
    assertThat(full().steps()).containsKey(new StepId("wipe"));
    assertThat(full().cautions()).hasSize(2);
  }

  @Test
  void basis_isThatOfTheNearestBlock() {
    Map<CauseId, Cause> causes = full().causes();
    assertThat(share(causes.get(new CauseId("coil-open"))).share().basis())
        .isEqualTo(new Basis.Sourced(new SourceId("plug-standard")));
    assertThat(share(causes.get(new CauseId("flex-cracked"))).share().basis())
        .isEqualTo(new Basis.Invented());
    assertThat(share(causes.get(new CauseId("corroded"))).share().basis())
        .isEqualTo(new Basis.Counted(46, 230, "no-sound"));
  }

  private static Cause.Likelihood.Share share(Cause cause) {
    return (Cause.Likelihood.Share) cause.likelihood();
  }

  /** Semantics, "Before anything is known": (a + 1/2) / (n + 1). Closed form. */
  @Test
  void countedAmongDevices_isAPrior() {
    Cause.Likelihood.Prior prior =
        (Cause.Likelihood.Prior) full().causes().get(new CauseId("wear")).likelihood();
    assertThat(prior.chance().p()).isEqualTo(4.5 / 100);
  }

  @Test
  void causes_knowTheirGroupAndKind() {
    Map<CauseId, Cause> causes = full().causes();
    assertThat(causes.get(new CauseId("fuse-blown")).oneOf()).contains(new GroupId("amp"));
    assertThat(causes.get(new CauseId("dust")).oneOf()).isEmpty();
    assertThat(causes.get(new CauseId("unlisted")).kind()).isEqualTo(Cause.Kind.UNLISTED);
    assertThat(causes.get(new CauseId("no-fault-found")).kind()).isEqualTo(Cause.Kind.NO_FAULT);
    assertThat(causes.get(new CauseId("pad-lifted")).likelihood())
        .isEqualTo(new Cause.Likelihood.OnlyCaused());
    assertThat(causes).containsKey(new CauseId("new-speaker-flex-bad"));
  }

  @Test
  void functionTest_looksAtTheComplaintsEvent() {
    Step play = step("play");
    assertThat(play.proves()).contains(new ComplaintId("no-sound"));
    Observation.OfNode shows = (Observation.OfNode) play.shows().orElseThrow();
    assertThat(shows.node()).isEqualTo(new EventId("silent"));
    assertThat(shows.positive()).isEqualTo(new OutcomeId("failed"));
    assertThat(shows.negative()).isEqualTo(new OutcomeId("passed"));
  }

  @Test
  void locating_isOneStateForEachPlace() {
    Observation.OfStates shows = (Observation.OfStates) step("find-short").shows().orElseThrow();
    assertThat(shows.states())
        .extracting(s -> s.id().value())
        .containsExactly("amp-shorted", "corroded");
    assertThat(shows.outcomes())
        .extracting("value")
        .containsExactly("amp-shorted", "corroded", "nothing");
    var row = shows.rows().get(new StateId("corroded"));
    assertThat(row.get(new OutcomeId("corroded")).p()).isEqualTo(0.3);
    assertThat(row.get(new OutcomeId("nothing")).p()).isEqualTo(0.7);
    assertThat(row.get(new OutcomeId("amp-shorted")).p()).isZero();
    assertThat(shows.rows().get(StateId.NORMAL).get(new OutcomeId("nothing")).p()).isEqualTo(1);
  }

  @Test
  void rows_giveZeroToWhatTheyDoNotName() {
    Observation.OfStates shows = (Observation.OfStates) step("listen").shows().orElseThrow();
    assertThat(shows.rows().get(new StateId("dead")).get(new OutcomeId("scratch")).p()).isZero();
  }

  @Test
  void table_hasARowForEachCombination() {
    Observation.OfTable shows = (Observation.OfTable) step("tap").shows().orElseThrow();
    assertThat(shows.rows().get(List.of(true, false))).extracting("p").containsExactly(0.6, 0.4);
    assertThat(shows.rows()).hasSize(4);
  }

  @Test
  void points_areRead() {
    Step.PinTable table = step("plug-table").pinTable().orElseThrow();
    Point left = table.points().get(0);
    Reference.Around around = (Reference.Around) left.reference();
    assertThat(around.nominal()).isEqualTo(0.62);
    assertThat(around.tolerance()).isEqualTo(0.08 * 0.62);
    Point right = table.points().get(1);
    assertThat(right.states()).extracting(s -> s.id().value()).containsExactly("leaky", "high");
    Point guard = table.points().get(2);
    assertThat(guard.id()).isEqualTo(new PointId("guard"));
    assertThat(guard.reference()).isEqualTo(new Reference.OverRange(Dimension.VOLTAGE));
  }

  @Test
  void steps_areRead() {
    Step find = step("find-short");
    assertThat(find.mayCause()).extracting(Harm::cost).containsExactly(0.0, 20.0);
    assertThat(find.conditions().onlyIf()).isInstanceOf(Condition.All.class);
    assertThat(find.dataRisk()).isTrue();
    assertThat(find.limits().get(0).most().si()).isEqualTo(1);
    assertThat(step("listen").effort().waiting()).isEqualTo(Duration.ofMinutes(10));
    assertThat(step("try-flex").swap().orElseThrow().part()).isEqualTo(new PartId("speaker-flex"));
    assertThat(step("reseat-flex").copies()).isEqualTo(0.5);
    assertThat(step("bend-check").conditions().bench())
        .extracting(b -> b.of())
        .containsExactly(new SwitchId("case-open"));
    Step twoSides = step("two-sides");
    assertThat(twoSides.compares())
        .hasValue(new Comparison(new PointId("left"), new PointId("left-return"), 0.05, true));
    assertThat(twoSides.shows().orElseThrow().outcomes())
        .containsExactly(Comparison.DIFFERS, Comparison.ALIKE);
    assertThat(step("start-up").shows().orElseThrow().outcomes())
        .extracting(OutcomeId::value)
        .containsExactly("before-key", "first", "second", "plays", "loops");
  }

  @Test
  void positivePositiveName_isTakenForTheOutcomesOwn() {
    assertThat(full().holds().values().iterator().next().when().toString())
        .contains("OutcomeIs[step=look, outcome=positive]");
  }

  @Test
  void positions_pointAtValues() {
    PackReading.Readable reading = (PackReading.Readable) new PackReader(FRAGMENTS).read(FULL);
    var at = reading.at().of("causes/flex-cracked/share");
    String line = reading.texts().line(at.file(), at.line()).orElseThrow();
    assertThat(line.substring(at.column() - 1, at.column() - 1 + at.length())).isEqualTo("25 %");
    assertThat(reading.at().of("steps/wipe/minutes").file()).endsWith("bench-basics.yaml");
    assertThat(reading.at().of("causes/flex-cracked/nowhere"))
        .isEqualTo(reading.at().of("causes/flex-cracked"));
  }
}
