package org.faultwright.measurement.knowngood;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.faultwright.measurement.Dimension;
import org.faultwright.measurement.table.TableReading;
import org.faultwright.measurement.table.TextTable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class BoardTablesTest {

  @Test
  void pinsAndBoardsAreRead() {
    BoardReadings.Readable read =
        read(
            Optional.empty(),
            "pin,net,unit,note,b1,b2,b3\n"
                + "1,VBUS,,,0.512 V,513 mV,OL\n"
                + "2,CC1,mV,worn,612,0.613 V,\n"
                + "3,GND,,,GND,-,NC\n");
    assertThat(read.boards()).containsExactly("b1", "b2", "b3");
    assertThat(read.pins()).extracting(PinReadings::id).containsExactly("vbus", "cc1", "gnd");
    PinReadings vbus = read.pins().get(0);
    assertThat(vbus.pin()).contains("1");
    assertThat(vbus.net()).contains("VBUS");
    assertThat(vbus.dimension()).isEqualTo(Dimension.VOLTAGE);
    assertThat(vbus.step()).isEqualTo(0.001);
    assertThat(vbus.readings().toString())
        .isEqualTo(
            "[OnBoard[board=b1, value=512 mV], OnBoard[board=b2, value=513 mV],"
                + " OnBoard[board=b3, value=OL]]");
    assertThat(read.pins().get(1).readings().toString())
        .isEqualTo("[OnBoard[board=b1, value=612 mV], OnBoard[board=b2, value=613 mV]]");
    assertThat(read.pins().get(2).readings()).isEmpty();
  }

  @Test
  void oneTableForEachBoard() {
    BoardReadings.Readable read =
        read(Optional.of("V"), "point;value\ncc1;0,451\ncc2;0,6\n", "point;value\ncc2;0,61\n");
    assertThat(read.boards()).containsExactly("t1.csv", "t2.csv");
    assertThat(read.pins()).extracting(p -> p.readings().size()).containsExactly(1, 2);
    // spreadsheets drop zeros at the end: the finest digit of a pin is its step
    assertThat(read.pins().get(1).step()).isEqualTo(0.01);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "0.450 V|1e-3",
        "452 mV|1e-3",
        "5 V|1",
        "2,20 kohm|10",
        "4k7|100",
        "0R15|0.01",
        "1.25e-3 A|1e-5",
        "-0.3 V|0.1",
        "100n|1e-9",
        "25.5 °C|0.1"
      })
  void stepIsTheLastDigit(String text, double step) {
    assertThat(PinText.step(text)).isCloseTo(step, within(1e-9 * step));
  }

  @ParameterizedTest
  @CsvSource({
    "D+, d-plus",
    "D-, d-minus",
    "CC1, cc1",
    "7, pin-7",
    "A 12/b, a-12-b",
    "'--', minus",
    "±, ''"
  })
  void namesBecomeThoseOfPacks(String text, String id) {
    assertThat(BoardTables.id(text)).isEqualTo(id);
  }

  @Test
  void limitsAreRead() {
    assertThat(
            read(Optional.of("V"), "pin,limit,a\n1,at-least,5\n2,at-most,1\n3,,2\n4,both,2\n")
                .pins()
                .stream()
                .map(PinReadings::side))
        .containsExactly(Side.AT_LEAST, Side.AT_MOST, Side.BOTH, Side.BOTH);
    assertThat(refused(Optional.of("V"), "pin,limit,a\n1,lower,5\n"))
        .containsExactly(
            "t1.csv: row 2, column 2: limit 'lower' is not known; write at-least, at-most or both");
  }

  @Test
  void namesThatOccurTwiceGetTheirPins() {
    assertThat(
            read(Optional.of("V"), "pin,net,b\n4,GND,0\n5,CC,0.5\n9,GND,0\n").pins().stream()
                .map(PinReadings::id))
        .containsExactly("gnd-4", "cc", "gnd-9");
  }

  @Test
  void overRangeAloneIsOfTheKindOfTheOthers() {
    assertThat(read(Optional.empty(), "pin,a\n1,OL\n2,3 ohm\n").pins().get(0).dimension())
        .isEqualTo(Dimension.RESISTANCE);
    assertThat(refused(Optional.empty(), "pin,a\n1,OL\n2,3 ohm\n3,2 V\n"))
        .containsExactly(
            "t1.csv: row 2, column 1: nothing says of what kind the over-range of 'pin-1' is;"
                + " add a column 'unit', or give --unit");
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "NaN|value must be a number with a unit",
        "inf|value must be a number with a unit",
        "Infinity V|value must be a number with a unit",
        "0.45|unit is missing",
        "0.45 X|unit 'X' is not known",
        "452 ohm|expected a voltage such as 0.452 V: 452 ohm",
        "1e9 V|voltage must be in [-100 kV, 100 kV]: 1 GV",
        "=A1+B2|value must be a number with a unit",
        "1e999 V|",
      })
  void badCellsAreNamedAtTheirPlace(String cell, String message) {
    assertThat(refused(Optional.empty(), "pin,a,b\n1,0.45 V,0.46 V\n1b,0.4 V," + cell + "\n"))
        .hasSize(1)
        .first()
        .asString()
        .startsWith("t1.csv: row 3, column 3: reading of '1b' on board 'b': ")
        .contains(message == null ? "" : message)
        .contains(cell.equals("0.45") ? "or give --unit" : "mend the cell");
  }

  @Test
  void nothingIsHalfTaken() {
    assertThat(refused(Optional.empty(), "pin,a\n1,0.45 V\n", "pin,b\n1,4.7 kohm\n2,x\n"))
        .hasSize(2);
  }

  @Test
  void wrongTablesAreRefused() {
    assertThat(refused(Optional.empty(), "name,a\nx,1 V\n"))
        .containsExactly(
            "t1.csv: row 1, column 1: no column says which pin it is; call one 'point', 'net' or"
                + " 'pin'");
    assertThat(refused(Optional.empty(), "pin,net\nx,y\n"))
        .first()
        .asString()
        .contains("no column holds readings");
    assertThat(refused(Optional.empty(), "pin,a,A\nx,1 V,2 V\n"))
        .containsExactly(
            "t1.csv: row 1, column 3: two columns are called 'A'; give each board a name of its"
                + " own");
    assertThat(refused(Optional.empty(), "pin,a\nx,1 V\n", "pin,a\nx,1 V\n"))
        .containsExactly(
            "t2.csv: row 1, column 2: board 'a' is in t1.csv already; give each board a name of"
                + " its own");
    assertThat(refused(Optional.empty(), "pin,a\nx,1 V\nX,2 V\n"))
        .containsExactly(
            "t1.csv: row 3, column 1: pin 'x' has a row already; write its readings into one row,"
                + " or call it otherwise");
    assertThat(refused(Optional.empty(), "point,pin,a\nx,1,1 V\n", "point,pin,b\nx,2,1 V\n"))
        .first()
        .asString()
        .contains("row 2, column 1: 'x' is pin 2 here and pin 1 in another table");
    assertThat(refused(Optional.empty(), "pin,a\n,1 V\n"))
        .first()
        .asString()
        .contains("row does not say which pin it is");
    assertThat(refused(Optional.empty(), "pin,unit,a\nx,volts,1\n"))
        .first()
        .asString()
        .contains("row 2, column 2: unit 'volts' is not known");
    assertThatThrownBy(
            () -> BoardTables.read(List.of(table("t", "pin,a\n1,2\n")), Optional.of("q")))
        .hasMessageContaining("unit 'q' is not known");
  }

  @Test
  void manyProblemsAreCounted() {
    StringBuilder text = new StringBuilder("pin,a\n");
    for (int i = 0; i < 50; i++) {
      text.append("p").append(i).append(",x\n");
    }
    BoardReadings reading =
        BoardTables.read(List.of(table("t", text.toString())), Optional.empty());
    assertThat(reading).isInstanceOf(BoardReadings.Refused.class);
    assertThat(((BoardReadings.Refused) reading).problems()).hasSize(20);
    assertThat(((BoardReadings.Refused) reading).more()).isEqualTo(30);
  }

  private static TextTable table(String name, String text) {
    return ((TableReading.Readable) TextTable.read(name, text.getBytes(UTF_8))).table();
  }

  private static BoardReadings tables(Optional<String> unit, String... texts) {
    List<TextTable> tables = new ArrayList<>();
    for (String text : texts) {
      tables.add(table("t" + (tables.size() + 1) + ".csv", text));
    }
    return BoardTables.read(tables, unit);
  }

  private static BoardReadings.Readable read(Optional<String> unit, String... texts) {
    BoardReadings reading = tables(unit, texts);
    assertThat(reading).isInstanceOf(BoardReadings.Readable.class);
    return (BoardReadings.Readable) reading;
  }

  private static List<String> refused(Optional<String> unit, String... texts) {
    BoardReadings reading = tables(unit, texts);
    assertThat(reading).isInstanceOf(BoardReadings.Refused.class);
    return ((BoardReadings.Refused) reading).problems().stream().map(Object::toString).toList();
  }
}
