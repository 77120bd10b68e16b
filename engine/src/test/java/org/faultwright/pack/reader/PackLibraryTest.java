package org.faultwright.pack.reader;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import org.faultwright.pack.PackId;
import org.faultwright.pack.yaml.YamlText;
import org.faultwright.problem.Span;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class PackLibraryTest {

  private static final PackId SOUND = PackId.parse("plover-player/sound");

  @TempDir private Path folder;

  private PackLibrary library() throws IOException {
    put(folder, "plover-player/sound", Files.readString(PackReaderTest.FULL));
    put(folder, "plover-player/Not An Id", "pack: x");
    Files.createDirectories(folder.resolve("plover-player/empty"));
    return PackLibrary.with(PackReaderTest.FRAGMENTS).and(folder);
  }

  private static void put(Path folder, String pack, String text) throws IOException {
    Path place = folder.resolve(pack);
    Files.createDirectories(place);
    Files.writeString(place.resolve("pack.yaml"), text);
  }

  @Test
  void folder_isListedWithTitlesAndVersions() throws IOException {
    assertThat(library().list())
        .containsExactly(
            new PackLibrary.Listed(
                SOUND,
                Optional.of("Plover player, no sound"),
                Optional.of("1.2.0"),
                folder.resolve("plover-player/sound/pack.yaml").toString()));
  }

  @Test
  void pack_isReadById() throws IOException {
    assertThat(library().read(SOUND).orElseThrow()).isInstanceOf(PackReading.Readable.class);
    assertThat(library().read(PackId.parse("plover-player/light"))).isEmpty();
  }

  @Test
  void unknownPack_isSuggested() throws IOException {
    Span at = new Span("case.yaml", 3, 7, 1);
    assertThat(library().unknown(PackId.parse("plover-player/sund"), at).wayOut())
        .contains("did you mean 'plover-player/sound'?");
  }

  @Test
  void folderBefore_hidesThePackOfTheSameId(@TempDir Path other) throws IOException {
    put(other, "plover-player/sound", "title: Mine\nversion: 9.0.0\n");
    assertThat(library().and(other).list())
        .extracting("version")
        .containsExactly(Optional.of("1.2.0"));
    assertThat(library().after(other).list())
        .extracting("version")
        .containsExactly(Optional.of("9.0.0"));
  }

  @Test
  void packInTheWrongFolder_isAProblem() throws IOException {
    put(folder, "plover-player/light", Files.readString(PackReaderTest.FULL));
    PackReading reading = library().read(PackId.parse("plover-player/light")).orElseThrow();
    assertThat(reading.report())
        .contains("pack.yaml:2:7: error[misplaced-pack]: the pack is called 'plover-player/sound'");
  }

  @Test
  void missingFolder_addsNothing() {
    PackLibrary library = PackLibrary.with(Fragments.of(Map.of())).and(folder.resolve("nowhere"));
    assertThat(library.ids()).isEmpty();
  }

  @Test
  void sharedVocabulary_isListedCompletely() throws IOException {
    Path vocabulary = Path.of("../shared/vocabulary");
    try (Stream<Path> files = Files.list(vocabulary)) {
      List<String> names =
          files
              .map(f -> f.getFileName().toString())
              .filter(n -> n.endsWith(".yaml"))
              .map(n -> n.replace(".yaml", ""))
              .sorted()
              .toList();
      assertThat(names).isNotEmpty();
      assertThat(Fragments.shared().names()).containsExactlyInAnyOrderElementsOf(names);
      for (String name : names) {
        YamlText text = Fragments.shared().find(name).orElseThrow();
        assertThat(text.problems()).isEmpty();
        assertThat(text.root().orElseThrow().text("fragment")).contains(name);
      }
    }
  }

  @Test
  void fragmentName_reachesNoFile() {
    assertThat(Fragments.shared().find("../vocabulary/cautions")).isEmpty();
    assertThat(Fragments.shared().find("cautions.yaml")).isEmpty();
  }
}
