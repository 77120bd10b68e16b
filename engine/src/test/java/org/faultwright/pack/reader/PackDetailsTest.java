package org.faultwright.pack.reader;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.faultwright.measurement.Dimension;
import org.faultwright.pack.Cause;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.Chance;
import org.faultwright.pack.ComplaintId;
import org.faultwright.pack.Condition;
import org.faultwright.pack.Observation;
import org.faultwright.pack.OutcomeId;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Sequence;
import org.faultwright.pack.StateId;
import org.faultwright.pack.Step;
import org.faultwright.pack.StepId;
import org.faultwright.pack.yaml.YamlText;
import org.junit.jupiter.api.Test;

/** What the format says beside its keys: counts, defaults, units, and what may stand together. */
class PackDetailsTest {

  private static final String HEAD =
      """
      pack: finch-handset/power
      version: 1.0.0
      format: 1
      title: Finch handset, power (invented)
      basis: invented
      """;

  private static final String REST =
      """
      complaints:
        does-not-start: {event: no-start}
      events:
        no-start: {any: [fuse-open, cell-flat, unlisted]}
      """;

  private static final String PRIORS =
      """
      causes:
        fuse-open: {prior: 2 %}
        cell-flat: {prior: 3 %}
        unlisted: {prior: 1 %}
      """;

  private static final String STEPS =
      """
      steps:
        look: {minutes: 2, shows: {cause: fuse-open, catches: 90 %, cries-wolf: 2 %, positive: dark, negative: bright}}
        fix-fuse: {minutes: 5, changes: {fuse-open: {cures: 95 %}}, then-repeat: start}
        fill-cell: {minutes: 5, changes: {cell-flat: {cures: 95 %}}, then-repeat: start}
        start: {minutes: 1, proves: {complaint: does-not-start, catches: 97 %, cries-wolf: 1 %}}
      """;

  private static Pack pack(String... sections) {
    PackReading reading = reading(sections);
    assertThat(reading.report()).isEmpty();
    return ((PackReading.Readable) reading).pack();
  }

  private static PackReading reading(String... sections) {
    return new PackReader(Fragments.of(Map.of())).read("f.yaml", HEAD + String.join("", sections));
  }

  private static double share(Pack pack, String cause) {
    return ((Cause.Likelihood.Share) pack.causes().get(new CauseId(cause)).likelihood())
        .share()
        .p();
  }

  private static Pack counted() {
    return pack(
        """
        causes:
          fuse-open: {counted: {seen: 12, of: 20, among: does-not-start}}
          cell-flat: {counted: {seen: 8, of: 20, among: does-not-start}}
          unlisted: {counted: {seen: 0, of: 20, among: does-not-start}}
        """,
        REST,
        STEPS);
  }

  /** Semantics, "Before anything is known": (a + 1/2) / (n + K/2), K = 3 causes. Closed form. */
  @Test
  void countedShares_followTheFormula() {
    assertThat(share(counted(), "fuse-open")).isCloseTo(12.5 / 21.5, within(1e-15));
    assertThat(share(counted(), "cell-flat")).isCloseTo(8.5 / 21.5, within(1e-15));
    assertThat(share(counted(), "unlisted")).isCloseTo(0.5 / 21.5, within(1e-15));
  }

  @Test
  void countedSharesThatDoNotAddUp_areAProblem() {
    PackReading reading =
        reading(
            """
            causes:
              fuse-open: {counted: {seen: 12, of: 20, among: does-not-start}}
              cell-flat: {counted: {seen: 7, of: 20, among: does-not-start}}
              unlisted: {counted: {seen: 0, of: 20, among: does-not-start}}
            """,
            REST,
            STEPS);
    assertThat(reading.report())
        .contains("error[shares-sum]: the shares of complaint 'does-not-start' must sum to 100 %")
        .endsWith("1 error\n");
  }

  /** 0.7 + 0.2 + 0.1 is not 1 in binary; on decimals as written it is. */
  @Test
  void shares_areSummedAsWritten() {
    Pack pack =
        pack(
            """
            causes:
              fuse-open: {share: 0.7, of: does-not-start}
              cell-flat: {share: 20 %, of: does-not-start}
              unlisted: {share: 0.1, of: does-not-start}
            """,
            REST, STEPS);
    assertThat(0.7 + 0.2 + 0.1).isNotEqualTo(1.0);
    assertThat(share(pack, "unlisted")).isEqualTo(0.1);
  }

  @Test
  void positive_standsForTheOutcomeWithANameOfItsOwn() {
    Pack pack =
        pack(
            PRIORS,
            REST,
            STEPS.replace(
                "fix-fuse: {minutes: 5,",
                "fix-fuse: {minutes: 5, only-if: {outcome: look, is: positive},"));
    Condition.OutcomeIs condition =
        (Condition.OutcomeIs) pack.steps().get(new StepId("fix-fuse")).conditions().onlyIf();
    assertThat(condition.outcome().value()).isEqualTo("dark");
  }

  @Test
  void overRange_isOfTheKindOfThePointsOwnStates() {
    Pack pack =
        pack(
            PRIORS,
            REST,
            STEPS.replace(
                "  look:",
                "  ohms: {minutes: 1, points: {pad: {reference: OL, states: {shorted: {any:"
                    + " [fuse-open], lies: {high: 20 ohm}}}}, pin: {reference: OL, short:"
                    + " [cell-flat]}}}\n  look:"));
    Step.PinTable table = pack.steps().get(new StepId("ohms")).pinTable().orElseThrow();
    assertThat(table.points().get(0).reference().dimension()).isEqualTo(Dimension.RESISTANCE);
    // Nothing says it of this one: over-range in diode mode is a voltage.
    assertThat(table.points().get(1).reference().dimension()).isEqualTo(Dimension.VOLTAGE);
  }

  @Test
  void defaults_followFromTheFormat() {
    Pack pack = pack(PRIORS, REST, STEPS);
    var complaint = pack.complaints().get(new ComplaintId("does-not-start"));
    assertThat(complaint.rate()).isEqualTo(Chance.byDefinition(0.05));
    assertThat(complaint.reportedByMistake()).isEqualTo(Chance.byDefinition(0));
    assertThat(complaint.title()).isEqualTo("does not start");
    assertThat(pack.steps().get(new StepId("look")).copies()).isEqualTo(1);
  }

  @Test
  void percentages_areExact() {
    Pack pack =
        pack(PRIORS.replace("fuse-open: {prior: 2 %}", "fuse-open: {prior: 2.55%}"), REST, STEPS);
    Cause.Likelihood.Prior prior =
        (Cause.Likelihood.Prior) pack.causes().get(new CauseId("fuse-open")).likelihood();
    assertThat(prior.chance().p()).isEqualTo(0.0255);
  }

  @Test
  void causeInTwoGroups_isAProblem() {
    String groups =
        """
        one-of:
          first: {members: [fuse-open, cell-flat]}
          second: {members: [cell-flat, unlisted]}
        """;
    assertThat(reading(PRIORS, groups, REST, STEPS).report())
        .contains(
            "f.yaml:12:22: error[listed-twice]: cause 'cell-flat' is in group 'first' already")
        .endsWith("1 error\n");
  }

  @Test
  void causeThatComesAndGoes_mustSayWhatHappensAtRest() {
    assertThat(
            reading(
                    PRIORS.replace("{prior: 2 %}", "{prior: 2 %, shows: {bent: 90 %}}"),
                    REST,
                    STEPS)
                .report())
        .contains(
            "error[missing-beside]: 'shows' of cause 'fuse-open' must say what happens 'at-rest'")
        .endsWith("1 error\n");
  }

  @Test
  void factorsAndTimes_areRead() {
    Pack pack =
        pack(
            "history: {dropped: {likely: 10 %}}\n",
            PRIORS.replace("{prior: 2 %}", "{prior: 2 %, after: {dropped: x2.5}}"),
            REST,
            STEPS.replace(
                "fill-cell: {minutes: 5,", "fill-cell: {minutes: {hands: 90 s, wait: 1.5 h},"));
    assertThat(pack.causes().get(new CauseId("fuse-open")).after().values()).containsExactly(2.5);
    Step fill = pack.steps().get(new StepId("fill-cell"));
    assertThat(fill.effort().handsMinutes()).isEqualTo(1.5);
    assertThat(fill.effort().waitMinutes()).isEqualTo(90);
  }

  @Test
  void commaForAPoint_isPointedOut() {
    assertThat(reading(PRIORS.replace("2 %", "2,5 %"), REST, STEPS).report())
        .isEqualTo(
            """
            f.yaml:7:22: error[bad-chance]: 'prior' of cause 'fuse-open' must be a probability: '2,5 %'
                7 |   fuse-open: {prior: 2,5 %}
                  |                      ^^^^^
               write a point for the comma: 2.5 %
            1 error
            """);
  }

  @Test
  void decimalComma_isReadInQuantities() {
    String limit = "look: {minutes: 2, limits: [{most: 2,5 V}],";
    Pack pack = pack(PRIORS, REST, STEPS.replace("look: {minutes: 2,", limit));
    assertThat(pack.steps().get(new StepId("look")).limits().get(0).most().si()).isEqualTo(2.5);
  }

  @Test
  void place_isOneOfSeveralWhereACauseIsFound() {
    String warm =
        "  warm: {minutes: 1, locates: {fuse-open: 60 %, cell-flat: {whole-pack: 50 %, fuse-open: 20"
            + " %}}}\n";
    Pack pack = pack(PRIORS, REST, STEPS, warm);
    Observation.OfStates shows =
        (Observation.OfStates) pack.steps().get(new StepId("warm")).shows().orElseThrow();
    assertThat(shows.outcomes())
        .extracting(OutcomeId::value)
        .containsExactly("fuse-open", "whole-pack", "nothing");
    assertThat(shows.rows().get(new StateId("cell-flat")).values())
        .extracting(Chance::p)
        .containsExactly(0.2, 0.5, 0.3);
    assertThat(reading(PRIORS, REST, STEPS, warm.replace("50 %", "90 %")).report())
        .contains(
            "error[row-sum]: the places where step 'warm' finds 'cell-flat' sum to more than 100 %:"
                + " 110 %",
            "take away 10 %")
        .endsWith("1 error\n");
    assertThat(reading(PRIORS, REST, STEPS, warm.replace("whole-pack", "nothing")).report())
        .contains("error[reserved-id]: 'nothing' is what is left of the places")
        .endsWith("1 error\n");
  }

  private static String startUp(String sequence) {
    return "  watch: {minutes: 1, sequence: {stages: [dead, wakes, on], " + sequence + "}}\n";
  }

  /** Ends of one cause are one draw: 0.2, then 0.4 of the 0.8 left, then all of the rest. */
  @Test
  void sequence_isReadAsStatesInOrder() {
    Pack pack =
        pack(
            PRIORS,
            REST,
            STEPS,
            startUp(
                "stops: {fuse-open: dead, cell-flat: {dead: 20 %, wakes: 48 %}},"
                    + " loops: {cell-flat: {wakes: 32 %}}, reads: 90 %"));
    Observation.OfStates shows =
        (Observation.OfStates) pack.steps().get(new StepId("watch")).shows().orElseThrow();
    assertThat(shows.states())
        .extracting(s -> s.id().value())
        .containsExactly("dead", "loops-at-wakes", "wakes");
    CauseId flat = new CauseId("cell-flat");
    assertThat(shows.states())
        .extracting(s -> Math.round(1e9 * s.triggers().get(flat).p()) / 1e9)
        .containsExactly(0.2, 0.4, 1.0);
    assertThat(shows.outcomes())
        .extracting(OutcomeId::value)
        .containsExactly("dead", "wakes", "on", "loops");
    assertThat(shows.rows().get(new StateId("loops-at-wakes")).get(Sequence.LOOPS).p())
        .isEqualTo(0.9);
  }

  @Test
  void sequence_saysWhatIsWrongWithIt() {
    assertThat(reading(PRIORS, REST, STEPS, startUp("stops: {cell-flat: on}")).report())
        .contains(
            "error[unknown-state]: nothing stops at 'on', the last stage of step 'watch'",
            "name the furthest stage that is seen, or leave the cause out")
        .endsWith("1 error\n");
    assertThat(reading(PRIORS, REST, STEPS, startUp("loops: {cell-flat: waks}")).report())
        .contains("error[unknown-state]: step 'watch' has no stage 'waks'", "did you mean 'wakes'?")
        .endsWith("1 error\n");
    assertThat(
            reading(PRIORS, REST, STEPS, startUp("stops: {cell-flat: {dead: 70 %, wakes: 40 %}}"))
                .report())
        .contains(
            "error[row-sum]: what 'cell-flat' does in step 'watch' sums to more than 100 %: 110 %",
            "take away 10 %")
        .endsWith("1 error\n");
    assertThat(reading(PRIORS, REST, STEPS, startUp("reads: 90 %")).report())
        .contains("error[choose-one]: step 'watch' needs at least one of: stops, loops, before-key")
        .endsWith("1 error\n");
    assertThat(
            reading(
                    PRIORS,
                    REST,
                    STEPS,
                    startUp("stops: {cell-flat: dead}").replace("on]", "loops]"))
                .report())
        .contains(
            "error[reserved-id]: no stage of step 'watch' can be called 'loops': the word has a"
                + " meaning here")
        .endsWith("1 error\n");
  }

  @Test
  void fragmentNames_thatAreNoIds_areNotLookedUp() {
    Fragments fragments =
        new Fragments() {
          @Override
          public Optional<YamlText> find(String name) {
            throw new AssertionError("asked for " + name);
          }

          @Override
          public List<String> names() {
            return List.of();
          }
        };
    String uses = "uses: [../secret, /etc/passwd, \"a b\"]\n";
    PackReading reading =
        new PackReader(fragments).read("f.yaml", HEAD + uses + PRIORS + REST + STEPS);
    assertThat(reading.problems()).extracting("id").containsOnly("bad-id").hasSize(3);
  }
}
