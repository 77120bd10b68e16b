package org.faultwright.cli;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** How the tables of {@code tree} and {@code network} look. */
class FiguresGolden {

  @ParameterizedTest
  @CsvSource({
    "tree-80, tree ../models/pressure-tank.xml, 80",
    "tree-40, tree ../models/pressure-tank.xml, 40",
    "tree-not-coherent-80, tree src/test/resources/models/inhibited.xml top, 80",
    "tree-pack-80, tree src/test/resources/packs/plover-tablet/sound/pack.yaml no-sound, 80",
    "network-80, network ../models/chest-clinic.bif --given dysp=yes, 80",
    "network-40, network ../models/chest-clinic.bif --given dysp=yes, 40"
  })
  void table_isLaidOut(String name, String command, int width) {
    Shell.Result result =
        Shell.PLAIN.with("COLUMNS", String.valueOf(width)).run(command.split(" "));
    assertThat(result.err()).isEmpty();
    assertThat(result.out().lines()).allMatch(line -> line.length() <= width);
    Golden.assertSame(name, result.out());
  }
}
