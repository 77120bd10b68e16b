package org.faultwright.pack.reader;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Map;
import org.faultwright.pack.yaml.YamlText;
import org.junit.jupiter.api.Test;

/** Whole reports, as an author sees them. */
class PackReaderGolden {

  private static String report(String text) {
    return new PackReader(PackReaderTest.FRAGMENTS).read("pack.yaml", text).report();
  }

  @Test
  void allProblems_areShownAtOnceInTheOrderOfTheFile() {
    assertThat(
            report(
                """
                pack: finch-handset/power
                version: 1.0
                format: 1
                title: Finch handset, power
                basis: invented
                complaints:
                  does-not-start: {event: no-start}
                causes:
                  fuse-open: {prior: 2%}
                  cell-flat: {prior: 30}
                  unlisted: {prior: 1 %, follows: {cell-flta: 10 %}}
                events:
                  no-start: {any: [fuse-opne, cell-flat, unlisted]}
                steps:
                  look-at-fuse:
                    minute: 2
                    shows: {cause: fuse-open, catches: 90 %, cries-wolf: 0 %}
                """))
        .isEqualTo(
            """
            pack.yaml:2:10: error[bad-version]: a version is three numbers with points between: '1.0'
                2 | version: 1.0
                  |          ^^^
               write it as in 1.0.0
            pack.yaml:10:22: error[chance-out-of-range]: 'prior' of cause 'cell-flat' must be between 0 % and 100 %: '30'
               10 |   cell-flat: {prior: 30}
                  |                      ^^
               did you mean 30 %?
            pack.yaml:11:36: error[unknown-cause]: cause 'unlisted' points at cause 'cell-flta', which this pack does not have
               11 |   unlisted: {prior: 1 %, follows: {cell-flta: 10 %}}
                  |                                    ^^^^^^^^^
               did you mean 'cell-flat'?
            pack.yaml:13:20: error[unknown-cause]: event 'no-start' points at cause 'fuse-opne', which this pack does not have
               13 |   no-start: {any: [fuse-opne, cell-flat, unlisted]}
                  |                    ^^^^^^^^^
               did you mean 'fuse-open'?
            pack.yaml:16:5: error[unknown-key]: there is no key 'minute' in step 'look-at-fuse'
               16 |     minute: 2
                  |     ^^^^^^
               did you mean 'minutes'?
            pack.yaml:17:58: error[certain-without-why]: 'cries-wolf' of step 'look-at-fuse' is exactly 0 %, which no fact can ever change
               17 |     shows: {cause: fuse-open, catches: 90 %, cries-wolf: 0 %}
                  |                                                          ^^^
               write a number that allows for surprises, or say why it is never: {chance: 0 %, why: "..."}
            6 errors
            """);
  }

  @Test
  void slipInAnId_isReportedWhereItIsUsedAndNowhereElse() {
    String text =
        """
        pack: finch-handset/power
        version: 1.0.0
        format: 1
        title: Finch handset, power
        basis: invented
        complaints:
          does-not-start: {event: no-start}
        causes:
          fuse-open: {share: 60 %, of: does-not-strat}
          unlisted: {share: 40 %, of: does-not-start}
        events:
          no-start: {any: [fuse-open, unlisted]}
        steps:
          look:
            minutes: 2
            shows: {cause: fuse-open, catches: 90 %, cries-wolf: 2 %}
          fix:
            minutes: 2
            only-if: {outcome: look, is: positive}
            changes: {fuse-open: {cures: 90 %}}
            then-repeat: try
          try:
            minutes: 1
            proves: {complaint: does-not-start, catches: 99 %, cries-wolf: 1 %}
        """;
    assertThat(report(text))
        .isEqualTo(
            """
            pack.yaml:9:32: error[unknown-complaint]: cause 'fuse-open' points at complaint 'does-not-strat', which this pack does not have
                9 |   fuse-open: {share: 60 %, of: does-not-strat}
                  |                                ^^^^^^^^^^^^^^
               did you mean 'does-not-start'?
            1 error
            """);
  }

  @Test
  void whatAFragmentDefines_mayNotBeDefinedAgain() {
    assertThat(
            report(
                """
                pack: finch-handset/power
                version: 1.0.0
                format: 1
                title: Finch handset, power
                basis: invented
                uses: [bench-basics]
                consents:
                  opening: Opening it
                """))
        .isEqualTo(
            """
            pack.yaml:8:3: error[defined-twice]: consent 'opening' is defined already
                8 |   opening: Opening it
                  |   ^^^^^^^
               src/test/resources/reading/bench-basics.yaml, line 3, has it: give this one another id, or remove it
            1 error
            """);
  }

  @Test
  void problemInAFragment_isShownInTheFragment() {
    String text =
        """
        pack: finch-handset/power
        version: 1.0.0
        format: 1
        title: Finch handset, power
        basis: invented
        uses: [broken]
        """;
    var broken =
        YamlText.of(
            "vocabulary/broken.yaml", "fragment: broken\nformat: 1\ncautoins: {hot: It is hot}\n");
    assertThat(
            new PackReader(Fragments.of(Map.of("broken", broken))).read("pack.yaml", text).report())
        .isEqualTo(
            """
            vocabulary/broken.yaml:3:1: error[unknown-key]: there is no key 'cautoins' in fragment 'broken'
                3 | cautoins: {hot: It is hot}
                  | ^^^^^^^^
               did you mean 'cautions'?
            1 error
            """);
  }

  @Test
  void emptyPack_saysWhatEveryPackNeeds() {
    assertThat(report("title: x\n"))
        .isEqualTo(
            """
            pack.yaml:1:1: error[missing-key]: 'basis' is missing in the pack
                1 | title: x
                  | ^
               add 'basis:', what numbers rest on that say nothing else: invented, common-practice or sources-only
            pack.yaml:1:1: error[missing-key]: 'format' is missing in the pack
                1 | title: x
                  | ^
               add 'format:', the format that it is written in: 1
            pack.yaml:1:1: error[missing-key]: 'pack' is missing in the pack
                1 | title: x
                  | ^
               add 'pack:', the device family and the subsystem, as in wren-handset/charging
            pack.yaml:1:1: error[missing-key]: 'version' is missing in the pack
                1 | title: x
                  | ^
               add 'version:', the version of the pack, such as 1.0.0
            4 errors
            """);
  }
}
