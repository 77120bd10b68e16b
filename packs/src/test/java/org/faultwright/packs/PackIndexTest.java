package org.faultwright.packs;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.faultwright.pack.PackId;
import org.faultwright.pack.reader.PackLibrary;
import org.faultwright.pack.reader.PackReading;
import org.junit.jupiter.api.Test;

class PackIndexTest {

  @Test
  void index_listsEveryPackOfTheFolder() throws IOException {
    try (Stream<Path> files = Files.walk(Path.of("."), 3)) {
      List<PackId> inFolder =
          files
              .filter(f -> f.endsWith("pack.yaml"))
              .map(f -> f.getParent())
              .filter(f -> !f.startsWith(Path.of("./target")))
              .map(f -> PackId.parse(f.getParent().getFileName() + "/" + f.getFileName()))
              .toList();
      assertThat(inFolder).isNotEmpty();
      assertThat(PackLibrary.onClassPath().ids()).containsExactlyInAnyOrderElementsOf(inFolder);
    }
  }

  @Test
  void everyPack_isReadable() {
    PackLibrary library = PackLibrary.onClassPath();
    for (PackId id : library.ids()) {
      PackReading reading = library.read(id).orElseThrow();
      assertThat(reading.report()).isEmpty();
      assertThat(reading).isInstanceOf(PackReading.Readable.class);
    }
  }
}
