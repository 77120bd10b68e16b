package org.faultwright.cli;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.regex.Pattern;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Whatever is wrong with what a command is given: one clear message, its place, the way out. */
class BadInputTest {

  private static final String PACKS = "src/test/resources/packs";

  private static final String CASE =
      """
      case: tried
      format: 1
      pack: plover-tablet/sound
      facts:
        - complaint: no-sound
        - outcome: press-check
          is: comes-and-goes
      """;

  @TempDir private Path folder;
  private Path caseFile;

  @BeforeEach
  void nameCase() {
    caseFile = folder.resolve("case.yaml");
  }

  @Test
  void unknownId_isSuggested() throws IOException {
    Files.writeString(caseFile, CASE.replace("press-check", "pres-check"));
    assertOneError(
        diagnose(),
        caseFile + ":6:14: error[unknown-step]",
        "did you mean 'press-check'?",
        "              ^^^^^^^^^^");
  }

  @Test
  void wrongUnit_isNamed() throws IOException {
    Files.writeString(caseFile, CASE + "  - reading: coil\n    value: 452 mA\n");
    assertOneError(diagnose(), ":9:12: error[wrong-unit]", "resistance", "452 mA");
  }

  @Test
  void absurdValue_isRefused() throws IOException {
    Files.writeString(caseFile, CASE + "  - reading: coil\n    value: 9e99 ohm\n");
    assertOneError(diagnose(), ":9:12: error[", "9e99 ohm");
  }

  @Test
  void factsThatCannotAllBeTrue_areNamedInTheAnswer() throws IOException {
    Files.writeString(
        caseFile,
        CASE
            + "  - outcome: look-at-grille\n    is: packed\n"
            + "  - outcome: look-at-grille\n    is: clean\n");
    Shell.Result result = diagnose();
    assertThat(result.exitCode()).isEqualTo(ExitCode.FINDINGS);
    assertThat(result.err()).isEmpty();
    assertThat(result.out())
        .contains("THESE FACTS CANNOT ALL BE TRUE")
        .contains("* fact 3, Look at the grille with a loupe: packed")
        .contains("* fact 4, Look at the grille with a loupe: clean")
        .contains("Look at each of them again.")
        .doesNotContain("HOW LIKELY")
        .doesNotContain("fact 2");
  }

  @Test
  void caseForAnotherVersion_isRefused_whenThePackHasChangedInAGreatWay() throws IOException {
    Files.writeString(caseFile, CASE.replace("/sound", "/sound@2.0.0"));
    assertOneError(
        diagnose(), ":3:7: error[other-pack-version]", "version 2.0.0", "this is version 1.2.0");
  }

  @Test
  void caseForAnotherVersion_isAnsweredWithAWarning_whenThePackHasChangedALittle()
      throws IOException {
    Files.writeString(caseFile, CASE.replace("/sound", "/sound@1.0.0"));
    Shell.Result result = diagnose();
    assertThat(result.exitCode()).isEqualTo(ExitCode.CLEAN);
    assertThat(result.out()).contains("NEXT");
    assertThat(result.err()).contains(":3:7: warning[other-pack-version]").contains("1 warning");
  }

  @Test
  void caseForAPackThatIsNotThere_isSuggested() throws IOException {
    Files.writeString(caseFile, CASE.replace("/sound", "/sund"));
    assertOneError(
        diagnose(),
        ":3:7: error[unknown-pack]: there is no pack 'plover-tablet/sund'",
        "did you mean 'plover-tablet/sound'?");
  }

  @Test
  void caseWithoutAPack_isTold() throws IOException {
    Files.writeString(caseFile, CASE.replace("pack: plover-tablet/sound\n", ""));
    assertOneError(diagnose(), "error[missing-key]", "'pack'");
  }

  @Test
  void truncatedFile_isTold() throws IOException {
    Files.writeString(caseFile, CASE + "  - {reading: coil, value");
    assertOneError(diagnose(), ":8:26: error[not-yaml]", "the file ends too early");
  }

  @Test
  void binaryFile_isTold() throws IOException {
    Files.write(caseFile, new byte[] {0x7f, 'E', 'L', 'F', 2, 1, 1, 0, (byte) 0xff, (byte) 0xfe});
    assertOneError(diagnose(), "case.yaml:1:9: error[not-text]", "plain text in UTF-8");
  }

  @Test
  void emptyFile_isTold() throws IOException {
    Files.writeString(caseFile, "");
    assertOneError(diagnose(), ":1:1: error[empty-file]");
  }

  @Test
  void missingFile_isTold() {
    assertUsage(
        diagnose(),
        "faultwright: there is no file '"
            + caseFile
            + "'; check its name and the folder you are in");
  }

  @Test
  void folder_isTold() throws IOException {
    Files.createDirectory(caseFile);
    assertUsage(diagnose(), "faultwright: '" + caseFile + "' is a folder; name a case file in it");
  }

  @Test
  void pack_isToldApart_whenACaseIsWanted() {
    String pack = PACKS + "/plover-tablet/sound/pack.yaml";
    assertUsage(
        Shell.PLAIN.run("diagnose", pack),
        "faultwright: '" + pack + "' is a pack; name a case file");
  }

  @Test
  void emptyStandardInput_isTold() {
    assertOneError(Shell.PLAIN.run("diagnose", "--packs", PACKS, "-"), "-:1:1: error[empty-file]");
  }

  @Test
  void hugePack_isRefusedUnread() throws IOException {
    byte[] huge = new byte[10 << 20];
    Arrays.fill(huge, (byte) '#');
    pack(huge);
    Files.writeString(caseFile, CASE);
    for (Shell.Result result : List.of(diagnoseWithOwnPacks(), lintOwnPacks())) {
      assertOneErrorOf(result, "error[file-too-large]", "1024 KiB", "split it");
    }
  }

  @Test
  void deepPack_isRefused() throws IOException {
    pack(("pack: plover-tablet/sound\nevents: " + "[".repeat(10_000)).getBytes(UTF_8));
    Files.writeString(caseFile, CASE);
    for (Shell.Result result : List.of(diagnoseWithOwnPacks(), lintOwnPacks())) {
      assertOneErrorOf(result, ":2:", "error[too-deep]");
    }
  }

  @Test
  void cycle_isShown() throws IOException {
    String whole = Files.readString(Path.of(PACKS, "plover-tablet/sound/pack.yaml"));
    pack(whole.replace("any: [speaker-open, joint-cracked]", "any: [silent]").getBytes(UTF_8));
    Files.writeString(caseFile, CASE);
    for (Shell.Result result : List.of(diagnoseWithOwnPacks(), lintOwnPacks())) {
      assertOneErrorOf(result, "error[cycle]", "coil-path-open", "silent");
    }
  }

  @Test
  void unknownCause_isSuggested_whenExplained() {
    assertUsage(
        diagnoseExample("--why", "speaker-opne"),
        "faultwright: --why: pack 'plover-tablet/sound' has no cause 'speaker-opne'; did you mean"
            + " 'speaker-open'?");
  }

  @Test
  void fileAsFolderOfPacks_isTold() {
    String file = PACKS + "/plover-tablet/sound/pack.yaml";
    assertUsage(
        Shell.PLAIN.run("diagnose", "--packs", file, example()),
        "faultwright: '" + file + "' is a file; --packs takes a folder");
  }

  @Test
  void supposedFact_isQuotedWithTheCulpritMarked() {
    assertOneError(
        suppose("{reading: coil, value: 8 V}"),
        "--fact:1:24: error[wrong-unit]",
        "{reading: coil, value: 8 V}",
        "|                        ^^^");
    assertOneError(
        suppose("{outcome: press-check, is: loud}"), "--fact:1:28: error[unknown-outcome]");
    assertOneError(suppose("{reading: coil, val"), "--fact:1:1: error[not-yaml]");
    assertOneError(suppose("loud"), "--fact:1:1: error[wrong-type]");
  }

  @Test
  void supposedFact_cannotSmuggleInAnother() {
    assertUsage(
        suppose("{note: x}\n  - {symptom: crackles, is: present}"),
        "faultwright: a fact takes one line, as in --fact '{symptom: lint-visible, is: present}'");
  }

  @Test
  void nothingSupposed_isTold() {
    Shell.Result result = Shell.PLAIN.run("suppose", "--packs", PACKS, example());
    assertThat(result.exitCode()).isEqualTo(ExitCode.USAGE);
    assertThat(result.out()).isEmpty();
    assertThat(result.err()).startsWith("faultwright: suppose what? Add --fact '{");
  }

  @Test
  void lint_findsNothingToReadInAFolder() {
    assertUsage(
        Shell.PLAIN.run("lint", folder.toString()),
        "faultwright: folder '" + folder + "' has no .yaml files");
  }

  @Test
  void check_suggestsThePackThatWasMeant() {
    assertUsage(
        Shell.PLAIN.run("check", "--packs", PACKS, "plover-tablet/sond"),
        "faultwright: there is no pack and no folder 'plover-tablet/sond'; did you mean"
            + " 'plover-tablet/sound'?");
  }

  @Test
  void messages_cannotSteerTheTerminal() throws IOException {
    Files.writeString(caseFile, CASE.replace("press-check", "\"\\e]0;owned\\a\\u202e\""));
    Shell.Result result = diagnose();
    assertThat(result.exitCode()).isEqualTo(ExitCode.FINDINGS);
    assertThat(result.err()).doesNotContain("\u001b").doesNotContain("\u0007");
  }

  private static String example() {
    return PACKS + "/plover-tablet/sound/cases/first-look.yaml";
  }

  private static Shell.Result diagnoseExample(String... more) {
    String[] args = {"diagnose", "--packs", PACKS, example(), more[0], more[1]};
    return Shell.PLAIN.run(args);
  }

  private static Shell.Result suppose(String fact) {
    return Shell.PLAIN.run("suppose", "--packs", PACKS, example(), "--fact", fact);
  }

  private Shell.Result diagnose() {
    return Shell.PLAIN.run("diagnose", "--packs", PACKS, caseFile.toString());
  }

  private Shell.Result diagnoseWithOwnPacks() {
    return Shell.PLAIN.run(
        "diagnose", "--packs", folder.resolve("packs").toString(), caseFile.toString());
  }

  private Shell.Result lintOwnPacks() {
    return Shell.PLAIN.run("lint", folder.resolve("packs").toString());
  }

  private void pack(byte[] bytes) throws IOException {
    Path place = Files.createDirectories(folder.resolve("packs/plover-tablet/sound"));
    Files.write(place.resolve("pack.yaml"), bytes);
  }

  /** One error, on standard error, and no result. */
  private static void assertOneError(Shell.Result result, String... parts) {
    assertThat(result.exitCode()).as(result.err()).isEqualTo(ExitCode.FINDINGS);
    assertThat(result.out()).isEmpty();
    assertOne(result.err(), parts);
  }

  /** One error, wherever the command reports errors. */
  private static void assertOneErrorOf(Shell.Result result, String... parts) {
    assertThat(result.exitCode()).as(result.err()).isEqualTo(ExitCode.FINDINGS);
    assertOne(result.out() + result.err(), parts);
  }

  private static void assertOne(String text, String... parts) {
    assertThat(text).contains(parts).contains("1 error\n");
    assertThat(Pattern.compile("error\\[").matcher(text).results()).hasSize(1);
    assertThat(text).doesNotContain("Exception").doesNotContain("\tat ");
  }

  private static void assertUsage(Shell.Result result, String message) {
    assertThat(result).isEqualTo(new Shell.Result(ExitCode.USAGE, "", message + "\n"));
  }
}
