package org.faultwright.pack.reader;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import org.faultwright.casefile.CaseReader;
import org.faultwright.casefile.CaseReading;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.Pack;
import org.faultwright.pack.PackId;
import org.faultwright.pack.PartId;
import org.faultwright.pack.yaml.YamlText;
import org.faultwright.problem.Span;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Several packs of a family read as one, and what is said where they do not fit together. */
class SeveralPacksTest {

  private static final String POWER =
      """
      pack: finch-handset/power
      version: 1.0.0
      format: 1
      title: Finch handset, power (invented)
      basis: invented
      complaints:
        does-not-start: {event: no-start}
      causes:
        rail-shorted: {share: 20 %, of: does-not-start}
        cell-flat: {share: 70 %, of: does-not-start}
        unlisted: {share: 10 %, of: does-not-start}
      events:
        no-start: {any: [rail-shorted, cell-flat, unlisted]}
      parts:
        main-board: {carries: [rail-shorted], price: 80}
      steps:
        look: {minutes: 2, shows: {cause: rail-shorted, catches: 90 %, cries-wolf: 2 %}}
        fill-cell: {minutes: 5, changes: {cell-flat: {cures: 95 %}}, then-repeat: start}
        swap-board: {minutes: 9, swap: main-board, donor-good: 98 %, then-repeat: start}
        start: {minutes: 1, proves: {complaint: does-not-start, catches: 97 %, cries-wolf: 1 %}}
      """;

  private static final String SOUND =
      """
      pack: finch-handset/sound
      version: 2.1.0
      format: 1
      title: Finch handset, sound (invented)
      basis: invented
      complaints:
        silent: {event: no-sound}
      causes:
        rail-shorted: {share: 10 %, of: silent}
        amp-dead: {share: 60 %, of: silent}
        unlisted: {share: 30 %, of: silent}
      events:
        no-sound: {any: [rail-shorted, amp-dead, unlisted]}
      parts:
        main-board: {carries: [rail-shorted, amp-dead], price: 80}
      steps:
        look: {minutes: 2, shows: {cause: rail-shorted, catches: 90 %, cries-wolf: 2 %}}
        replace-board: {minutes: 9, swap: main-board, donor-good: 98 %, then-repeat: play}
        play: {minutes: 1, proves: {complaint: silent, catches: 97 %, cries-wolf: 1 %}}
      """;

  private static final PackId BOTH = PackId.parse("finch-handset/power+sound");

  @TempDir private Path folder;

  private PackLibrary library(String power, String sound) {
    try {
      for (Map.Entry<String, String> e : Map.of("power", power, "sound", sound).entrySet()) {
        Path place = folder.resolve("finch-handset").resolve(e.getKey());
        Files.createDirectories(place);
        Files.writeString(place.resolve("pack.yaml"), e.getValue());
      }
      return PackLibrary.with(Fragments.of(Map.of())).and(folder);
    } catch (IOException e) {
      throw new java.io.UncheckedIOException(e);
    }
  }

  private PackReading both(String power, String sound) {
    return library(power, sound).read(BOTH).orElseThrow();
  }

  @Test
  void packs_areOnePack_andTheFirstSaysHowLikelyASharedCauseIs() {
    PackReading reading = both(POWER, SOUND);
    assertThat(reading.report())
        .contains(
            "sound/pack.yaml:9:3: warning[packs-differ]: how likely 'rail-shorted' is,"
                + " finch-handset/power and finch-handset/sound say differently; the first counts",
            "name the pack first whose word is to count")
        .endsWith("1 warning\n");
    Pack pack = reading.readable().pack();
    assertThat(pack.id()).isEqualTo(BOTH);
    assertThat(pack.version()).isEqualTo("1.0.0+2.1.0");
    assertThat(pack.causes().keySet())
        .extracting(CauseId::value)
        .contains("rail-shorted", "cell-flat", "amp-dead", "unlisted-in-power", "unlisted-in-sound")
        .doesNotContain("unlisted");
    assertThat(pack.parts().get(new PartId("main-board")).carries())
        .extracting(CauseId::value)
        .containsExactly("rail-shorted", "amp-dead");
  }

  @Test
  void packs_thatContradictEachOther_areNamedAtTheirLine() {
    String other = SOUND.replace("catches: 90 %", "catches: 60 %");
    assertThat(both(POWER, other).report())
        .contains(
            "sound/pack.yaml:17:3: error[packs-clash]: 'look' of finch-handset/power and 'look' of"
                + " finch-handset/sound differ in 'shows'",
            "say the same in both, or call one of them something else")
        .endsWith("1 error, 1 warning\n");
    assertThat(both(POWER, SOUND.replace("amp-dead", "no-start")).report())
        .contains(
            "'no-start' of finch-handset/power and 'no-start' of finch-handset/sound differ in"
                + " kind: an event there, a cause here");
    assertThat(both(POWER, SOUND.replace("price: 80", "price: 70")).report())
        .contains("differ in 'price'");
  }

  @Test
  void packWithErrors_makesTheWholeUnreadable() {
    assertThat(both(POWER, SOUND.replace("[rail-shorted, amp-dead]", "[rail-shorted, amp-ded]")))
        .isInstanceOf(PackReading.Unreadable.class);
  }

  @Test
  void missingPack_isNamedByItself() {
    PackLibrary library = library(POWER, SOUND);
    PackId id = PackId.parse("finch-handset/power+light");
    assertThat(library.read(id)).isEmpty();
    assertThat(library.unknown(id, new Span("case.yaml", 3, 7, 1)).message())
        .isEqualTo("there is no pack 'finch-handset/light'");
  }

  @Test
  void caseForSeveralPacks_isReadWithAllOfThem() {
    String text =
        """
        case: dead-and-silent
        format: 1
        pack: finch-handset/power+sound@1.0.0+2.0.0
        facts:
          - complaint: does-not-start
          - complaint: silent
        expect:
          leads: rail-shorted
        """;
    CaseReading reading = CaseReader.read(YamlText.of("c.yaml", text), library(POWER, SOUND));
    assertThat(reading).isInstanceOf(CaseReading.Readable.class);
    assertThat(reading.report())
        .contains(
            "c.yaml:3:7: warning[other-pack-version]: the case was written for version 1.0.0+2.0.0"
                + " of 'finch-handset/power+sound', and this is version 1.0.0+2.1.0")
        .endsWith("1 warning\n");
    String oneVersion = text.replace("@1.0.0+2.0.0", "@1.0.0");
    assertThat(CaseReader.read(YamlText.of("c.yaml", oneVersion), library(POWER, SOUND)).report())
        .contains(
            "error[bad-version]: each of the 2 packs has a version: '1.0.0'",
            "write it as in finch-handset/power+sound@1.0.0+1.0.0");
  }

  @Test
  void packFile_cannotBeCalledLikeSeveral() {
    String several = POWER.replace("finch-handset/power", "finch-handset/power+sound");
    assertThat(new PackReader(Fragments.of(Map.of())).read("f.yaml", several).report())
        .contains("error[bad-id]: a pack is named family/subsystem: 'finch-handset/power+sound'");
    assertThatThrownBy(() -> PackId.parse("finch-handset/power+power"))
        .hasMessage("subsystem must be named once: power+power");
  }
}
