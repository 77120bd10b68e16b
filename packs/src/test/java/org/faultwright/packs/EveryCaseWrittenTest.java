package org.faultwright.packs;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import org.faultwright.casefile.CaseFile;
import org.faultwright.casefile.CaseReader;
import org.faultwright.casefile.CaseReading;
import org.faultwright.casefile.CaseWriter;
import org.faultwright.pack.Pack;
import org.faultwright.pack.yaml.YamlText;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

/** Every case of every pack is written so that it is read back the same. */
class EveryCaseWrittenTest {

  static java.util.stream.Stream<Arguments> cases() {
    return PackFolder.all().stream()
        .flatMap(
            folder -> {
              Pack pack = folder.pack();
              return folder.cases(pack).entrySet().stream()
                  .map(c -> Arguments.of(c.getKey(), pack, c.getValue()));
            });
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("cases")
  void case_isReadBackTheSame(Path file, Pack pack, CaseFile caseFile) {
    String text = new CaseWriter(pack).write(caseFile);
    CaseReading reading = new CaseReader(pack).read(YamlText.of(file.toString(), text));
    assertThat(reading.report()).isEmpty();
    assertThat(((CaseReading.Readable) reading).caseFile()).isEqualTo(caseFile);
  }
}
