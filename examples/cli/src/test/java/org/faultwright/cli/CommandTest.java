package org.faultwright.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What each command does when all is well, and what it reports. */
class CommandTest {

  private static final String PACKS = "src/test/resources/packs";
  private static final Path PACK = Path.of(PACKS, "plover-tablet/sound/pack.yaml");
  private static final Path FIRST_LOOK =
      Path.of(PACKS, "plover-tablet/sound/cases/first-look.yaml");

  @TempDir private Path folder;

  @Test
  void diagnose_ranksAndAdvises() {
    Shell.Result result = Shell.PLAIN.run("diagnose", "--packs", PACKS, FIRST_LOOK.toString());
    assertThat(result.exitCode()).isEqualTo(ExitCode.CLEAN);
    assertThat(result.err()).isEmpty();
    assertThat(result.out())
        .startsWith("CASE first-look: Plover tablet, sound (invented)\n")
        .containsSubsequence("HOW LIKELY", "Loudspeaker coil open", "WHY LOUDSPEAKER COIL", "NEXT")
        .matches("(?s)\\p{ASCII}*");
  }

  @Test
  void diagnose_readsStandardInput() throws IOException {
    Shell.Result file = Shell.PLAIN.run("diagnose", "--packs", PACKS, FIRST_LOOK.toString());
    Shell.Result input =
        Shell.PLAIN.reading(Files.readAllBytes(FIRST_LOOK)).run("diagnose", "--packs", PACKS, "-");
    assertThat(input).isEqualTo(file);
  }

  @Test
  void diagnose_takesThePackThatACaseLiesIn() {
    Shell.Result named = Shell.PLAIN.run("diagnose", "--packs", PACKS, FIRST_LOOK.toString());
    assertThat(Shell.PLAIN.run("diagnose", FIRST_LOOK.toString())).isEqualTo(named);
  }

  @Test
  void diagnose_givesTheSameTextEachTime() {
    assertThat(Shell.PLAIN.run("diagnose", "--all", FIRST_LOOK.toString()))
        .isEqualTo(Shell.PLAIN.run("diagnose", "--all", FIRST_LOOK.toString()));
  }

  @Test
  void diagnose_explainsTheCauseThatIsAskedAbout() {
    Shell.Result result = Shell.PLAIN.run("diagnose", "--why", "amp-dead", FIRST_LOOK.toString());
    assertThat(result.out())
        .contains("WHY AMPLIFIER CHIP DEAD")
        .doesNotContain("WHY LOUDSPEAKER")
        .contains("Rests on: invented numbers");
  }

  @Test
  void diagnose_showsEverything_whenAskedTo() {
    Shell.Result some = Shell.PLAIN.run("diagnose", FIRST_LOOK.toString());
    Shell.Result all = Shell.PLAIN.run("diagnose", "--all", FIRST_LOOK.toString());
    assertThat(some.out()).doesNotContain("Grille clogged").doesNotContain("NOT OPEN NOW");
    assertThat(all.out())
        .contains("Grille clogged")
        .containsSubsequence("NOT OPEN NOW", "Feed the amplifier from the bench supply and listen");
  }

  @Test
  void colourIsForTerminalsAlone() {
    assertThat(Shell.PLAIN.onTerminal().run("diagnose", FIRST_LOOK.toString()).out())
        .contains("\u001b[1m");
    assertThat(
            Shell.PLAIN.onTerminal().with("NO_COLOR", "1").run("diagnose", FIRST_LOOK.toString()))
        .isEqualTo(Shell.PLAIN.run("diagnose", FIRST_LOOK.toString()));
  }

  @Test
  void suppose_showsWhatWouldMove() {
    Shell.Result result =
        Shell.PLAIN.run("suppose", FIRST_LOOK.toString(), "--fact", "{reading: coil, value: OL}");
    assertThat(result.exitCode()).isEqualTo(ExitCode.CLEAN);
    assertThat(result.err()).isEmpty();
    assertThat(result.out())
        .containsSubsequence("SUPPOSE", "* Coil: OL", "+ up", "Loudspeaker coil open", "- down")
        .containsSubsequence("NOW   ", "THEN  ");
  }

  @Test
  void suppose_takesSeveralFactsTogether() {
    Shell.Result result =
        Shell.PLAIN.run(
            "suppose",
            FIRST_LOOK.toString(),
            "--fact",
            "{reading: coil, value: 8.1 ohm}",
            "--fact",
            "{symptom: crackles, is: present}");
    assertThat(result.out())
        .contains("* Coil: 8.1 ohm")
        .contains("* Crackles when pressed: present");
  }

  @Test
  void suppose_namesWhatCannotBe() {
    Shell.Result result =
        Shell.PLAIN.run(
            "suppose", FIRST_LOOK.toString(), "--fact", "{outcome: look-at-grille, is: packed}");
    assertThat(result.exitCode()).isEqualTo(ExitCode.FINDINGS);
    assertThat(result.out()).contains("THESE FACTS CANNOT ALL BE TRUE");
  }

  @Test
  void suppose_putsBranchesSideBySide() {
    Shell.Result result =
        Shell.PLAIN.run(
            "suppose",
            FIRST_LOOK.toString(),
            "--fact",
            "{bench: device-open}",
            "--branch",
            "{reading: coil, value: OL}",
            "--branch",
            "[{reading: coil, value: 8.1 ohm}, {symptom: crackles, is: present}]");
    assertThat(result.exitCode()).isEqualTo(ExitCode.CLEAN);
    assertThat(result.err()).isEmpty();
    assertThat(result.out())
        .containsSubsequence(
            "  A  Bench: device open; Coil: OL\n",
            "  B  Bench: device open; Coil: 8.1 ohm; Crackles when pressed: present\n",
            "     now       A       B\n",
            "Loudspeaker coil open",
            "now  ",
            "A    REPAIR: Fit a good loudspeaker\n",
            "B    ");
    assertThat(result.out().lines()).allMatch(line -> line.length() <= 80);
  }

  @Test
  void suppose_makesABranchOfEachOutcome() {
    Shell.Result result =
        Shell.PLAIN.run("suppose", FIRST_LOOK.toString(), "--each", "settings-check");
    assertThat(result.exitCode()).as("told plain already").isEqualTo(ExitCode.FINDINGS);
    assertThat(result.out())
        .contains(": muted\n", ": plain\n", "A    these facts cannot all be true");
  }

  @Test
  void suppose_saysWhatItNeeds() {
    Shell.Result nothing = Shell.PLAIN.run("suppose", FIRST_LOOK.toString());
    assertThat(nothing.exitCode()).isEqualTo(ExitCode.USAGE);
    assertThat(nothing.err()).contains("suppose what?", "--each STEP");
    Shell.Result step =
        Shell.PLAIN.run("suppose", FIRST_LOOK.toString(), "--each", "setting-check");
    assertThat(step.exitCode()).isEqualTo(ExitCode.USAGE);
    assertThat(step.err()).contains("did you mean 'settings-check'?");
    Shell.Result list =
        Shell.PLAIN.run("suppose", FIRST_LOOK.toString(), "--branch", "[{did: restrat}]");
    assertThat(list.exitCode()).isEqualTo(ExitCode.FINDINGS);
    assertThat(list.err()).contains("--fact:1:8: error[unknown-step]", "did you mean 'restart'?");
  }

  @Test
  void diagnose_needsATerminal_whenThereIsNoCaseFile() {
    Shell.Result result = Shell.PLAIN.run("diagnose");
    assertThat(result.exitCode()).isEqualTo(ExitCode.USAGE);
    assertThat(result.err()).contains("a dialogue needs a terminal", "--plain", "converse");
  }

  @Test
  void diagnose_asksForThePacks_andTakesSeveralOfOneFamily() {
    Path file = folder.resolve("two.yaml");
    Shell.Result listed =
        Shell.PLAIN.reading("").run("diagnose", "--plain", "--as", file.toString());
    List<String> packs =
        listed.out().lines().filter(line -> line.matches("[0-9]+  .*/.*")).toList();
    String charging = number(packs, "wren-handset/charging");
    String power = number(packs, "wren-handset/power");
    String other = number(packs, "siskin-handset/power-key");
    Shell.Result both =
        Shell.PLAIN
            .reading(charging + " " + other + "\n77\nx\n" + charging + " " + power + "\n\n2\n")
            .run("diagnose", "--plain", "--as", file.toString());
    assertThat(both.out())
        .contains("packs must be of one family", "type 1 to ", "'x' is none of them");
    assertThat(file).content().contains("pack: wren-handset/charging+power@", "complaint: ");
  }

  private static String number(List<String> packs, String id) {
    return packs.stream()
        .filter(line -> line.endsWith(id))
        .map(line -> line.substring(0, line.indexOf(' ')))
        .findFirst()
        .orElseThrow();
  }

  @Test
  void diagnose_takesInADeviceThroughAPipe_andGoesOnWithIt() throws IOException {
    Path file = folder.resolve("new-one.yaml");
    String pack = PACK.toString();
    Shell.Result first =
        Shell.PLAIN
            .reading("1\nquit\n")
            .run("diagnose", "--plain", "--pack", pack, "--as", file.toString());
    assertThat(first.exitCode()).isEqualTo(ExitCode.CLEAN);
    assertThat(first.out()).endsWith("go on with: diagnose --resume " + file + "\n");
    assertThat(file).content().contains("case: new-one\n", "- {complaint: no-sound}\n");
    Shell.Result again =
        Shell.PLAIN
            .reading("")
            .run("diagnose", "--plain", "--pack", pack, "--resume", file.toString());
    assertThat(again.exitCode()).isEqualTo(ExitCode.CLEAN);
    assertThat(again.out()).contains("Most likely: ", "Next: ", "Type 1 for: ");
    Shell.Result printed = Shell.PLAIN.run("diagnose", "--packs", PACKS, file.toString());
    assertThat(printed.out()).startsWith("CASE new-one: Plover tablet, sound (invented)\n");
    Shell.Result taken =
        Shell.PLAIN.run("diagnose", "--plain", "--pack", pack, "--as", file.toString());
    assertThat(taken.exitCode()).isEqualTo(ExitCode.USAGE);
    assertThat(taken.err()).contains("already", "--resume " + file);
  }

  @Test
  void diagnose_asksWhatTheBenchLacksAndCanDo() throws IOException {
    Path file = folder.resolve("bench.yaml");
    Shell.PLAIN
        .reading("1\n" + "\n".repeat(8) + "2 3\n2\nquit\n")
        .run("diagnose", "--plain", "--pack", PACK.toString(), "--as", file.toString());
    assertThat(file).content().contains("lacks: [multimeter, iron]\n", "skill: bench\n");
  }

  @Test
  void copiesThatABuildMakes_areLeftOut() throws IOException {
    for (String place : List.of("plover-tablet/sound", "target/classes/plover-tablet/sound")) {
      Files.createDirectories(folder.resolve(place));
      Files.copy(PACK, folder.resolve(place).resolve("pack.yaml"));
    }
    String all = folder.toString();
    assertThat(Shell.PLAIN.run("lint", all).out()).startsWith("2 files: ");
    Files.writeString(folder.resolve("pom.xml"), "<project/>");
    assertThat(Shell.PLAIN.run("lint", all).out()).startsWith("1 file: ");
    // named by itself it is what is asked for
    assertThat(Shell.PLAIN.run("lint", all + "/target").out()).startsWith("1 file: ");
  }

  @Test
  void lint_isCleanForPacksAndCasesTogether() {
    assertThat(Shell.PLAIN.run("lint", PACKS))
        .isEqualTo(new Shell.Result(ExitCode.CLEAN, "3 files: no problems\n", ""));
  }

  @Test
  void lint_showsAllProblemsOfAllFiles() throws IOException {
    Files.writeString(
        folder.resolve("a-pack.yaml"),
        Files.readString(PACK).replace("share: 30 %", "share: 31 %").replace("prior", "prier"));
    Files.writeString(folder.resolve("b-case.yaml"), Files.readString(FIRST_LOOK));
    Files.writeString(folder.resolve("c.yaml"), "colour: red\n");
    Files.writeString(folder.resolve("d.yaml"), "a: [1\n");
    Shell.Result result = Shell.PLAIN.run("lint", folder.toString());
    assertThat(result.exitCode()).isEqualTo(ExitCode.FINDINGS);
    assertThat(result.err())
        .isEqualTo(
            "faultwright: "
                + folder.resolve("b-case.yaml")
                + " was not looked at, because its pack has errors; mend the pack first\n");
    assertThat(result.out())
        .containsSubsequence(
            "a-pack.yaml:",
            "error[shares-sum]",
            "c.yaml:1:1: error[missing-key]: the file does not say what it is",
            "d.yaml:",
            "error[not-yaml]",
            "4 files: 3 errors\n");
  }

  @Test
  void lint_findsSharesThatNoProbabilitiesGive() throws IOException {
    Path pack = folder.resolve("pack.yaml");
    // five causes that each silence one device in a hundred silence at most 1 - 0.99^5 = 4.9 %
    Files.writeString(
        pack,
        Files.readString(PACK)
            .replace("rate: 10 %", "rate: 70 %")
            .replace(
                "any: [grille-clogged, coil-path-open, amp-dead, software-muted, unlisted]",
                "any: {grille-clogged: 1 %, coil-path-open: 1 %, amp-dead: 1 %, software-muted: 1"
                    + " %, unlisted: 1 %}"));
    Shell.Result result = Shell.PLAIN.run("lint", pack.toString());
    assertThat(result.exitCode()).isEqualTo(ExitCode.FINDINGS);
    assertThat(result.out())
        .contains("error[shares-unattainable]", "complaint 'no-sound', at its rate of 70 %")
        .contains("rate: 70 %");
    Shell.Result diagnosed =
        Shell.PLAIN
            .reading("case: c\nformat: 1\npack: plover-tablet/sound\n")
            .run("diagnose", "--packs", own(pack).toString(), "-");
    assertThat(diagnosed.exitCode()).isEqualTo(ExitCode.FINDINGS);
    assertThat(diagnosed.out()).isEmpty();
    assertThat(diagnosed.err())
        .startsWith("pack plover-tablet/sound:1:1: error[shares-unattainable]");
  }

  private Path own(Path pack) throws IOException {
    Path place = Files.createDirectories(folder.resolve("own/plover-tablet/sound"));
    Files.copy(pack, place.resolve("pack.yaml"));
    return folder.resolve("own");
  }

  @Test
  void lint_readsAFragmentWithTheOnesItRefersTo() throws IOException {
    Path fragment = folder.resolve("own.yaml");
    Files.writeString(
        fragment,
        """
        fragment: own
        format: 1
        cautions:
          pinch: "Mind your fingers."
        steps:
          squeeze:
            title: "Squeeze it"
            minutes: 1
            cautions: [pinch, esd]
        """);
    assertThat(Shell.PLAIN.run("lint", fragment.toString()))
        .isEqualTo(new Shell.Result(ExitCode.CLEAN, "1 file: no problems\n", ""));
    Files.writeString(fragment, Files.readString(fragment).replace("pinch, esd", "pnich, esd"));
    Shell.Result result = Shell.PLAIN.run("lint", fragment.toString());
    assertThat(result.exitCode()).isEqualTo(ExitCode.FINDINGS);
    assertThat(result.out())
        .contains("own.yaml:9:16: error[unknown-caution]")
        .contains("did you mean 'pinch'?")
        .endsWith("1 file: 1 error\n");
  }

  @Test
  void check_countsCasesThatComeOutAsExpected() {
    assertThat(Shell.PLAIN.run("check", PACKS))
        .isEqualTo(
            new Shell.Result(ExitCode.CLEAN, "plover-tablet/sound 1.2.0: 2 as expected\n", ""));
    assertThat(Shell.PLAIN.run("check", "--packs", PACKS, "plover-tablet/sound"))
        .isEqualTo(Shell.PLAIN.run("check", PACKS));
  }

  @Test
  void check_saysWhatWasExpectedWhatCameAndWhatWeighedMost() throws IOException {
    Path pack = Files.createDirectories(folder.resolve("plover-tablet/sound/cases"));
    Files.copy(PACK, pack.resolveSibling("pack.yaml"));
    String good = Files.readString(FIRST_LOOK);
    Files.writeString(
        pack.resolve("leads.yaml"), good.replace("leads: speaker-open", "leads: grille-clogged"));
    Files.writeString(
        pack.resolve("idle.yaml"),
        good.replace("decisive: pressed", "decisive: loupe")
            .replaceAll("(?s)  at-least:.*?\n", "")
            .replaceAll("(?s)  at-most:.*?\n", ""));
    Files.writeString(pack.resolve("plain.yaml"), good.replaceAll("(?s)expect:.*", ""));
    Files.writeString(pack.resolve("broken.yaml"), good.replace("no-sound", "no-sond"));
    Shell.Result result = Shell.PLAIN.run("check", folder.toString());
    assertThat(result.exitCode()).isEqualTo(ExitCode.FINDINGS);
    assertThat(result.err())
        .isEqualTo(
            "faultwright: case "
                + pack.resolve("broken.yaml")
                + " has errors and was not run; lint shows them\n");
    assertThat(result.out().replaceAll("\\s+", " "))
        .contains("expected grille-clogged leads but speaker-open leads with")
        .contains("What weighed most for speaker-open")
        .contains("What weighed most for grille-clogged")
        .contains("Look at the grille with a loupe: clean")
        .contains("expected without fact 'loupe' it comes out otherwise")
        .contains("2 FAILED, 1 expecting nothing");
  }

  @Test
  void packs_areListedWithWhatTheyHold() {
    Shell.Result result = Shell.PLAIN.run("packs", "--packs", PACKS);
    assertThat(result.exitCode()).isEqualTo(ExitCode.CLEAN);
    // seven causes: the six that are written, and that a new loudspeaker is bad
    assertThat(result.out())
        .startsWith(
            """
            plover-tablet/sound 1.2.0
              Plover tablet, sound
              7 causes, 10 steps, 2 cases; an invented device family

            """)
        .contains("\n\nwren-handset/charging");
  }

  @Test
  void packs_showsThatOneCannotBeUsed() throws IOException {
    Path pack = Files.createDirectories(folder.resolve("plover-tablet/sound"));
    Files.writeString(pack.resolve("pack.yaml"), "pack: plover-tablet/sound\n");
    Shell.Result result = Shell.PLAIN.run("packs", "--packs", folder.toString());
    assertThat(result.exitCode()).isEqualTo(ExitCode.FINDINGS);
    assertThat(result.out())
        .contains("plover-tablet/sound\n  CANNOT BE USED: see lint")
        .contains("wren-handset/charging");
  }
}
