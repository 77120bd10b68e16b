package org.faultwright.cli.dialogue;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Set;
import org.faultwright.casefile.CaseFile;
import org.faultwright.casefile.CaseReader;
import org.faultwright.casefile.CaseReading;
import org.faultwright.casefile.Fact;
import org.faultwright.casefile.FactId;
import org.faultwright.pack.ComplaintId;
import org.faultwright.pack.Pack;
import org.faultwright.pack.reader.PackReader;
import org.faultwright.pack.reader.PackReading;
import org.faultwright.pack.yaml.YamlText;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A case on disk keeps what people wrote around its facts, and is never written over. */
class CaseStoreTest {

  private static final String BY_HAND =
      """
      # brought in by the neighbour
      case: by-hand
      format: 1
      title: Quiet since Monday
      pack: plover-tablet/sound@1.2.0
      goal: working          # asked twice
      facts:
        - complaint: no-sound
        - history: dropped    # down the stairs
          said: yes
          # she was sure of it
        - outcome: look-at-grille
          is: clean
          label: loupe
      expect:
        leads: speaker-open   # my guess
      """;

  private static Pack pack;

  @TempDir private Path folder;

  @BeforeAll
  static void readPack() {
    Path file = Path.of("src/test/resources/packs/plover-tablet/sound/pack.yaml");
    pack = ((PackReading.Readable) new PackReader().read(YamlText.read(file))).pack();
  }

  @Test
  void aFactIsPutBehindTheOthers_andTheRestStays() throws IOException {
    assertThat(saved(read(BY_HAND).with(new Fact.Noted("called back"))))
        .isEqualTo(
            BY_HAND.replace(
                "    label: loupe\n", "    label: loupe\n  - {note: \"called back\"}\n"));
  }

  @Test
  void aFactThatIsTakenOutGoesWithItsRemarks() throws IOException {
    assertThat(saved(read(BY_HAND).without(new FactId(2))))
        .isEqualTo(
            BY_HAND.replace(
                "  - history: dropped    # down the stairs\n    said: yes\n    # she was sure of"
                    + " it\n",
                ""));
  }

  @Test
  void whatIsExpectedGoes_whenTheFactThatDecidesIsTakenOut() throws IOException {
    String decided = BY_HAND.replace("expect:\n", "expect:\n  decisive: loupe\n");
    String text = saved(decided, read(decided).without(new FactId(3)));
    assertThat(text)
        .isEqualTo(decided.substring(0, decided.indexOf("  - outcome")))
        .contains("# she was sure of it");
    assertThat(read(text).facts()).hasSize(2);
  }

  @Test
  void theFirstFactGetsItsHeading() throws IOException {
    String bare = BY_HAND.substring(0, BY_HAND.indexOf("facts:"));
    assertThat(saved(bare, read(bare).with(complaint())))
        .isEqualTo(bare + "facts:\n  - {complaint: no-sound}\n");
  }

  @Test
  void theHeadingGoesWithTheLastFact() throws IOException {
    CaseFile bare = read(BY_HAND);
    for (int i = 1; i <= 3; i++) {
      bare = bare.without(new FactId(i));
    }
    assertThat(saved(bare)).doesNotContain("facts:").contains("# asked twice", "# my guess");
  }

  @Test
  void aTextThatCannotBeAddedToIsWrittenAnew() throws IOException {
    String flow =
        "case: flow\nformat: 1\npack: plover-tablet/sound\nfacts: [{complaint: no-sound}]\n";
    CaseFile more = read(flow).with(new Fact.Noted("x"));
    String text = saved(flow, more);
    assertThat(read(text).facts()).hasSize(2);
    assertThat(text).contains("  - {complaint: no-sound}\n  - {note: \"x\"}\n");
  }

  @Test
  void somebodyElsesChangeIsNotWrittenOver() throws IOException {
    Path file = Files.writeString(folder.resolve("c.yaml"), BY_HAND);
    CaseStore store = CaseStore.at(file, pack, read(BY_HAND), BY_HAND);
    Files.writeString(file, BY_HAND + "# mine\n");
    assertThatThrownBy(() -> store.save(read(BY_HAND).with(new Fact.Noted("x")), Set.of()))
        .isInstanceOf(IOException.class)
        .hasMessage("somebody else has changed " + file);
    assertThat(file).hasContent(BY_HAND + "# mine\n");
    store.moveTo(folder.resolve("d.yaml"));
    store.save(read(BY_HAND).with(new Fact.Noted("x")), Set.of());
    assertThat(folder.resolve("d.yaml")).content().contains("{note: \"x\"}");
  }

  @Test
  void aFileThatIsThereIsNotWrittenOverByANewCase() throws IOException {
    Path file = Files.writeString(folder.resolve("c.yaml"), "other\n");
    CaseStore store = CaseStore.atNew(file, pack);
    assertThatThrownBy(() -> store.save(CaseFile.begun("c", pack.id(), "1.2.0"), Set.of()))
        .isInstanceOf(IOException.class)
        .hasMessage("there is a file " + file + " already");
  }

  @Test
  void whyItCannotBeKeptIsSaid_whenTheFolderIsGone() {
    CaseStore store = CaseStore.atNew(folder.resolve("gone/c.yaml"), pack);
    assertThatThrownBy(() -> store.save(CaseFile.begun("c", pack.id(), "1.2.0"), Set.of()))
        .isInstanceOf(IOException.class)
        .hasMessage("there is no folder " + folder.resolve("gone"));
  }

  @Test
  void whatOneAnswerToldTogether_isReadBackTogether() throws IOException {
    Path file = Files.writeString(folder.resolve("case.yaml"), BY_HAND);
    CaseStore store = CaseStore.at(file, pack, read(BY_HAND), BY_HAND);
    assertThat(store.joined()).isEmpty();
    CaseFile more =
        read(BY_HAND).with(new Fact.Noted("a")).with(new Fact.Noted("b")).with(new Fact.Noted("c"));
    store.save(more, Set.of(new FactId(5)));
    String text = Files.readString(file);
    assertThat(text).contains("  - {note: \"b\"}  # the same answer\n  - {note: \"c\"}\n");
    assertThat(read(text).facts()).hasSize(6);
    CaseStore again = CaseStore.at(file, pack, read(text), text);
    assertThat(again.joined()).containsExactly(new FactId(5));

    // the first of them is taken out: what is left stands alone
    again.save(read(text).without(new FactId(4)), Set.of());
    assertThat(file).content().doesNotContain("same answer").contains("{note: \"b\"}");
  }

  @Test
  void aNewCaseSaysWhatBelongsTogether_too() throws IOException {
    Path file = folder.resolve("new.yaml");
    CaseFile begun =
        CaseFile.begun("new", pack.id(), "1.2.0").with(complaint()).with(new Fact.Noted("a"));
    CaseStore.atNew(file, pack).save(begun, Set.of(new FactId(2)));
    String text = Files.readString(file);
    assertThat(CaseStore.at(file, pack, read(text), text).joined()).containsExactly(new FactId(2));
  }

  private static Fact complaint() {
    return new Fact.Complained(new ComplaintId("no-sound"), true);
  }

  private String saved(CaseFile changed) throws IOException {
    return saved(BY_HAND, changed);
  }

  private String saved(String before, CaseFile changed) throws IOException {
    Path file = Files.writeString(folder.resolve("case.yaml"), before);
    CaseStore.at(file, pack, read(before), before).save(changed, Set.of());
    return Files.readString(file);
  }

  private static CaseFile read(String text) {
    CaseReading reading = new CaseReader(pack).read(YamlText.of("case.yaml", text));
    assertThat(reading.report()).isEmpty();
    return ((CaseReading.Readable) reading).caseFile();
  }
}
