package org.faultwright.measurement.table;

import static java.nio.charset.StandardCharsets.ISO_8859_1;
import static java.nio.charset.StandardCharsets.UTF_16BE;
import static java.nio.charset.StandardCharsets.UTF_16LE;
import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.Charset;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class TextTableTest {

  private static final String PLAIN = "pin,a,b\ncc1,0.45 V,OL\nvbus,5 V,\n";

  @Test
  void cellsKnowTheirPlace() {
    TextTable table = read(PLAIN);
    assertThat(texts(table.header())).containsExactly("pin", "a", "b");
    assertThat(table.rows()).hasSize(2);
    assertThat(table.rows().get(1).get(1)).isEqualTo(new TextCell(3, 2, "5 V"));
    assertThat(table.column("a")).contains(2);
    assertThat(table.column("c")).isEmpty();
    assertThat(table.cell(List.of(new TextCell(9, 1, "x")), 3)).isEqualTo(new TextCell(9, 3, ""));
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "pin;a;b\ncc1;0.45 V;OL\nvbus;5 V;\n",
        "pin\ta\tb\ncc1\t0.45 V\tOL\nvbus\t5 V\t\n",
        "\"pin\",\"a\",\"b\"\r\n\"cc1\",\"0.45 V\",\"OL\"\r\n\"vbus\",\"5 V\",\r\n",
        "pin , a,b \n cc1, 0.45 V ,OL\nvbus,5 V",
        "pin,a,b,,\ncc1,0.45 V,OL,,\nvbus,5 V,,,",
      })
  void tableIsTheSame_howeverItIsParted(String text) {
    List<List<String>> plain = read(PLAIN).rows().stream().map(TextTableTest::texts).toList();
    assertThat(read(text).rows().stream().map(TextTableTest::texts).map(this::filled).toList())
        .isEqualTo(plain);
    assertThat(texts(read(text).header())).isEqualTo(texts(read(PLAIN).header()));
  }

  private List<String> filled(List<String> row) {
    return row.size() == 2 ? List.of(row.get(0), row.get(1), "") : row;
  }

  @Test
  void byteOrderMarksAreNoText() {
    for (Charset charset : List.of(UTF_8, UTF_16LE, UTF_16BE)) {
      TableReading reading = TextTable.read("t", ("\ufeff" + PLAIN).getBytes(charset));
      assertThat(reading).as(charset.name()).isEqualTo(TextTable.read("t", PLAIN.getBytes(UTF_8)));
    }
  }

  @Test
  void remarksAndEmptyLinesAreRowsWithoutContent() {
    TextTable table = read("# invented; all of it\n\npin;a\n\n# more\ncc1;2,2 V\n");
    assertThat(table.header().get(0).row()).isEqualTo(3);
    assertThat(table.rows()).containsExactly(List.of(cell(6, 1, "cc1"), cell(6, 2, "2,2 V")));
  }

  @Test
  void quotedCellsMayHoldAnything() {
    TextTable table = read("pin,a\n\"cc1, the \"\"first\"\"\",\"2,2\nV\"\nx,1 V\n");
    assertThat(texts(table.rows().get(0))).containsExactly("cc1, the \"first\"", "2,2\nV");
    // a spreadsheet counts rows, not lines
    assertThat(table.rows().get(1).get(0).row()).isEqualTo(3);
  }

  @Test
  void otherEncodingsAreNamedAtTheirPlace() {
    assertThat(refused("pin,a\ncc1,1 V\ncc2,4 \u00b5V\n".getBytes(ISO_8859_1)))
        .isEqualTo("t: row 3, column 2: a sign here is not UTF-8; save the table as CSV in UTF-8");
    assertThat(refused("pin,a\ncc1,1 V\n".getBytes(UTF_16LE)))
        .startsWith("t: row 1, column 1: here is a sign that no text has");
    assertThat(refused(new byte[] {'P', 'K', 3, 4, 20, 0}))
        .startsWith("t: row 1, column 1: this is a packed file");
  }

  @Test
  void decimalCommasThatPartCellsAreNoticed() {
    assertThat(refused("pin,a\ncc1,0,452\n"))
        .isEqualTo(
            "t: row 2, column 3: row has more cells than there are columns (2);"
                + " put a value with a comma in quotes, or part cells by semicolons or tabs");
  }

  @Test
  void brokenTablesAreRefused() {
    assertThat(refused("")).contains("row 1, column 1: table is empty");
    assertThat(refused("# only a remark\n\n")).contains("table is empty");
    assertThat(refused("pin,a\n")).contains("row 1, column 1: table has no rows");
    assertThat(refused("pin,,b\n1,2,3\n")).contains("row 1, column 2: column has no name");
    assertThat(refused("pin|a\n1|2\n")).contains("row 1, column 1: cells are parted by something");
    assertThat(refused("pin,a\nx,\"1 V\ny,2 V\n")).contains("row 2, column 2: quotes do not pair");
    assertThat(refused("pin,a\nx,\"1\"2 V\n")).contains("row 2, column 2: quotes do not pair");
    assertThat(refused("pin,a\nx," + "1".repeat(201) + "\n"))
        .contains("row 2, column 2: cell has more than 200 characters");
    assertThat(refused("a,".repeat(1000) + "a\nx\n"))
        .contains("row 1, column 1001: table has more than 1000 columns");
  }

  @Test
  void hugeTablesAreRefusedAtTheirRow() {
    String rows =
        IntStream.range(0, 100_000)
            .mapToObj(i -> "pin-" + i + ",0.5 V\n")
            .collect(Collectors.joining());
    assertThat(refused("pin,a\n" + rows))
        .isEqualTo("t: row 5002, column 1: table has more than 5000 rows; part it into several");
    String wide = "a" + ",1".repeat(999) + "\n";
    String names =
        IntStream.range(0, 1000).mapToObj(i -> "c" + i).collect(Collectors.joining(",")) + "\n";
    assertThat(refused(names + wide.repeat(501)))
        .isEqualTo("t: row 502, column 1: table has more than 500000 cells; part it into several");
    assertThat(refused(new byte[TextTable.MOST_BYTES + 1]))
        .contains("row 1, column 1: table has 16777217 bytes");
  }

  @Test
  void quotedTextsInMessagesAreShortAndHarmless() {
    assertThat(TableProblem.quoted("a\u001b[31m\nb\u202e")).isEqualTo("'a?[31m?b?'");
    assertThat(TableProblem.quoted("x".repeat(50))).isEqualTo("'" + "x".repeat(40) + "...'");
  }

  private static TextCell cell(int row, int column, String text) {
    return new TextCell(row, column, text);
  }

  private static List<String> texts(List<TextCell> cells) {
    return cells.stream().map(TextCell::text).toList();
  }

  private static TextTable read(String text) {
    TableReading reading = TextTable.read("t", text.getBytes(UTF_8));
    assertThat(reading).isInstanceOf(TableReading.Readable.class);
    return ((TableReading.Readable) reading).table();
  }

  private static String refused(String text) {
    return refused(text.getBytes(UTF_8));
  }

  private static String refused(byte[] bytes) {
    TableReading reading = TextTable.read("t", bytes);
    assertThat(reading).isInstanceOf(TableReading.Refused.class);
    return ((TableReading.Refused) reading).problems().get(0).toString();
  }
}
