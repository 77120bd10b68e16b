package org.faultwright.packs;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.faultwright.casefile.CaseFile;
import org.faultwright.casefile.CaseReader;
import org.faultwright.casefile.CaseReading;
import org.faultwright.pack.Pack;
import org.faultwright.pack.reader.PackReader;
import org.faultwright.pack.reader.PackReading;
import org.faultwright.pack.yaml.YamlText;

/**
 * A pack's folder as an author keeps it: {@code pack.yaml}, {@code cases/*.yaml}, {@code
 * README.md}.
 */
record PackFolder(Path path) {

  /** All folders of packs below the working directory of the build, by name. */
  static List<PackFolder> all() {
    return matching(Path.of("."), "./*/*/pack.yaml").stream()
        .filter(p -> !p.startsWith("./target"))
        .map(p -> new PackFolder(p.getParent()))
        .toList();
  }

  PackReading reading() {
    return new PackReader().read(path.resolve("pack.yaml"));
  }

  Pack pack() {
    PackReading reading = reading();
    assertThat(reading.report()).isEmpty();
    return ((PackReading.Readable) reading).pack();
  }

  List<Path> caseFiles() {
    return matching(path.resolve("cases"), "*.yaml");
  }

  Map<Path, CaseFile> cases(Pack pack) {
    CaseReader reader = new CaseReader(pack);
    Map<Path, CaseFile> cases = new LinkedHashMap<>();
    for (Path file : caseFiles()) {
      CaseReading reading = reader.read(YamlText.read(file));
      assertThat(reading.report()).isEmpty();
      cases.put(file, ((CaseReading.Readable) reading).caseFile());
    }
    return cases;
  }

  String readme() throws IOException {
    return Files.readString(path.resolve("README.md"));
  }

  @Override
  public String toString() {
    return path.toString();
  }

  private static List<Path> matching(Path from, String glob) {
    var matcher = from.getFileSystem().getPathMatcher("glob:" + glob);
    try (Stream<Path> found = Files.walk(from, 3)) {
      return found
          .filter(p -> matcher.matches(glob.contains("/") ? p : p.getFileName()))
          .sorted()
          .toList();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
