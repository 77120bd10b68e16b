package org.faultwright.casefile;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.faultwright.measurement.Dimension;
import org.faultwright.measurement.ReadingValue;
import org.faultwright.measurement.table.TextTable;
import org.faultwright.pack.BoardId;
import org.faultwright.pack.Pack;
import org.faultwright.pack.StepId;
import org.faultwright.pack.reader.PackReader;
import org.faultwright.pack.reader.PackReading;
import org.faultwright.pack.yaml.YamlText;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Pin tables as they are noted at the bench. */
class PinTableReaderTest {

  private static final StepId STEP = new StepId("plug-table");
  private static final Pack PACK = pack();

  /** A connector of twelve pins that all read differently, pins 1 and 12 ground, pin 7 unused. */
  private static Pack pack() {
    String points =
        IntStream.of(2, 3, 4, 5, 6, 8, 9, 10)
            .mapToObj(
                p ->
                    "      line-%d: {title: NET%d, pin: %d, reference: %d mV, tolerance: 5 %%,"
                            .formatted(p, p, p, 300 + 40 * p)
                        + " open: [fault], short: [fault], states: {unsteady: {any: [fault]}}}")
            .collect(Collectors.joining("\n"));
    String text =
        """
        pack: plover-player/plug
        version: 1.0.0
        format: 1
        title: Plover player, plug (invented)
        basis: invented
        boards: [rev-a, rev-b]
        instruments:
          meter-diode:
            accuracy: {of-reading: 1 %, counts: 3, count: 0.001 V}
            reads: diode-drop
        complaints: {silent: {event: lost}}
        causes: {fault: {share: 90 %, of: silent, send-on: yes}, unlisted: {share: 10 %, of: silent}}
        events: {lost: {any: [fault, unlisted]}}
        steps:
          plays: {minutes: 1, proves: {complaint: silent, catches: 99 %, cries-wolf: 1 %}}
          plug-table:
            minutes: 6
            instrument: meter-diode
            connector: {pins: 12, ground: [1, 12], unused: [7]}
            points:
        """
            + points
            + "\n"
            + "      spare: {pin: 11, reference: OL, boards: [rev-b], states: {bridged: {any:"
            + " [fault], lies: {low: 0.1 V, high: 1 V}}}}\n";
    PackReading reading = new PackReader().read(YamlText.of("pack.yaml", text));
    assertThat(reading).as(reading.report()).isInstanceOf(PackReading.Readable.class);
    return ((PackReading.Readable) reading).pack();
  }

  private static PinTableReading read(String text) {
    return read(text, Optional.empty());
  }

  private static PinTableReading read(String text, Optional<PinTable.Way> turned) {
    return new PinTableReader(PACK, STEP, Optional.empty())
        .read(TextTable.read("t.csv", text.getBytes(UTF_8)), turned);
  }

  private static PinTable table(String text) {
    PinTableReading reading = read(text);
    assertThat(reading).isInstanceOf(PinTableReading.Readable.class);
    return ((PinTableReading.Readable) reading).table();
  }

  private static String problem(String text) {
    PinTableReading reading = read(text);
    assertThat(reading).isInstanceOf(PinTableReading.Refused.class);
    assertThat(((PinTableReading.Refused) reading).problems()).hasSize(1);
    return ((PinTableReading.Refused) reading).problems().get(0).toString();
  }

  private static String rows(PinTable table) {
    return table.rows().stream()
        .map(r -> r.point().id() + "=" + r.value())
        .collect(Collectors.joining(" "));
  }

  @Test
  void pins_goByNumberNetAndId() {
    assertThat(rows(table("pin;value\nPin 2;0,382 V\nnet3;420\nline-4;OL\n")))
        .isEqualTo("line-2=382 mV line-3=420 mV line-4=OL");
    assertThat(rows(table("net\tvalue\n\"NET 5\"\t0.501\n"))).isEqualTo("line-5=501 mV");
  }

  @Test
  void unit_isThatOfTheHeadingOrTheRow() {
    assertThat(rows(table("pin,value [mV]\n2,382.5\n3,0.42 V\n")))
        .isEqualTo("line-2=382.5 mV line-3=420 mV");
    assertThat(rows(table("pin,unit,value\n2,V,0.382\n3,mV,420\n")))
        .isEqualTo("line-2=382 mV line-3=420 mV");
  }

  @Test
  void groundAndUnusedPins_areNoReadings() {
    PinTable table = table("pin,value\n1,GND\n2,380\n7,nc\n12,0.001 V\n");
    assertThat(rows(table)).isEqualTo("line-2=380 mV");
    assertThat(table.remarks()).isEmpty();
    assertThat(table("pin,value\n1,OL\n2,380\n").remarks())
        .hasToString(
            "[t.csv: row 2, column 2: pin '1' is ground and reads OL; look at the black lead and at"
                + " the numbering]");
  }

  @Test
  void missingPins_areFine_andEmptyCellsSayNothing() {
    assertThat(rows(table("pin,value,note\n2,380,first\n3,,could not reach it\n")))
        .isEqualTo("line-2=380 mV");
  }

  @Test
  void duplicatePin_isTakenTwice_andSaid() {
    PinTable table = table("pin,value\n2,380\n3,420\nNET2,381\n");
    assertThat(rows(table)).isEqualTo("line-2=380 mV line-3=420 mV line-2=381 mV");
    assertThat(table.remarks())
        .hasToString(
            "[t.csv: row 4, column 1: pin 'NET2' stands in row 2 as well; both are taken, as two"
                + " readings of it]");
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "NETT5,0.5 V|row 2, column 1: no pin is called 'NETT5' in step 'plug-table'; did you mean"
            + " 'NET5'?",
        "99,0.5 V|row 2, column 1: no pin is called '99' in step 'plug-table'; its pins end at 12",
        "5,GND|row 2, column 2: pin '5' (NET5) is no ground pin; write what it reads, such as 0.000"
            + " V, or look at the numbering",
        "5,NC|row 2, column 2: pin '5' (NET5) is a pin in use; write what it reads, such as OL, or"
            + " look at the numbering",
        "5,NaN|row 2, column 2: 'NaN' is no value and no state of 'NET5'; write it as in 0.452, 452"
            + " or OL, or what was seen: normal, open, short, unsteady",
        "5,Infinity|row 2, column 2: 'Infinity' is no value and no state of 'NET5'; write it as in"
            + " 0.452, 452 or OL, or what was seen: normal, open, short, unsteady",
        "5,unsteddy|row 2, column 2: 'unsteddy' is no value and no state of 'NET5'; did you mean"
            + " 'unsteady'?",
        "11,unsteady|row 2, column 2: 'unsteady' is no value and no state of 'spare'; write it as"
            + " in 0.452, 452 or OL, or what was seen: normal, bridged",
        "5,1e9 V|row 2, column 2: voltage must be in [-100 kV, 100 kV]: 1 GV; write it as in 0.452,"
            + " 452 or OL",
        "5,5 ohm|row 2, column 2: expected a voltage such as 0.452 V: 5 ohm; write it as in 0.452,"
            + " 452 or OL",
        "5,452.5|row 2, column 2: unit is missing: in diode mode a number with a decimal point is"
            + " volts, and these are too many; write 452.5 mV if that is meant: 452.5; write it as"
            + " in 0.452, 452 or OL",
        ",0.5 V|row 2, column 1: the name of the pin is missing; write its number or net",
      })
  void mistake_isNamedAtItsCell_andNothingIsTaken(String row, String expected) {
    assertThat(problem("pin,value\n" + row + "\n")).isEqualTo("t.csv: " + expected);
  }

  /** What was seen without a number goes by its name, and says nothing of how pins were counted. */
  @ParameterizedTest
  @CsvSource({"unsteady", "Unsteady", "' UNSTEADY '"})
  void stateSeenWithoutANumber_isTakenByItsName(String written) {
    PinTable table = table("pin,value\n5," + written + "\n6,0.540\n");
    assertThat(table.rows().get(0).value())
        .isEqualTo(new ReadingValue.Named("unsteady", Dimension.VOLTAGE));
    assertThat(table.rows()).hasSize(2);
    assertThat(table.turned()).isEmpty();
    assertThat(
            new PinTableReader(PACK, STEP, Optional.empty())
                .read(Map.of("NET5", written), Optional.empty()))
        .isInstanceOf(PinTableReading.Readable.class);
  }

  @Test
  void headings_areAskedFor() {
    assertThat(problem("1,0.482\n5,0.6\n"))
        .isEqualTo(
            "t.csv: row 1, column 1: a pin table has the columns 'pin' and 'value', and this has"
                + " '1', '0.482'; name them so in the first row; 'value [mV]' says the unit of bare"
                + " numbers");
  }

  @Test
  void allMistakes_areNamedAtOnce_inOrder() {
    PinTableReading reading = read("pin,value\n2,x\n77,1\n3,y\n");
    assertThat(((PinTableReading.Refused) reading).problems())
        .extracting(p -> p.row() + ":" + p.column())
        .containsExactly("2:2", "3:1", "4:2");
  }

  @Test
  void hugeTable_isRefused() {
    String rows = "2,380\n".repeat(100_000);
    assertThat(problem("pin,value\n" + rows)).contains("table has more than 5000 rows");
  }

  @Test
  void points_areThoseOfTheBoard() {
    PinTableReading reading =
        new PinTableReader(PACK, STEP, Optional.of(new BoardId("rev-a")))
            .read(Map.of("11", "OL"), Optional.empty());
    assertThat(((PinTableReading.Refused) reading).problems().get(0).message())
        .isEqualTo("no pin is called '11' in step 'plug-table'");
  }

  private static String sound(java.util.function.IntUnaryOperator noted) {
    Map<Integer, String> lines = new LinkedHashMap<>();
    for (int p = 1; p <= 12; p++) {
      String value = p == 1 || p == 12 ? "2" : p == 7 || p == 11 ? "OL" : "" + (300 + 40 * p);
      lines.put(noted.applyAsInt(p), value);
    }
    return "pin,value\n"
        + lines.entrySet().stream()
            .map(e -> e.getKey() + "," + e.getValue() + "\n")
            .collect(Collectors.joining());
  }

  @Test
  void table_isNotTurned_whenItFitsAsItIs() {
    assertThat(table(sound(p -> p)).turned()).isEmpty();
  }

  @Test
  void turnedTable_isAskedAbout_andReadRightOnceThatIsSaid() {
    for (PinTable.Way way : PinTable.Way.values()) {
      // each way undoes itself; a note at an idle pin would be a value where none can be
      String text = sound(p -> way.pin(p, 12));
      PinTableReading asNoted = read(text);
      assertThat(asNoted).as("%s", way).isInstanceOf(PinTableReading.Readable.class);
      PinTable table = ((PinTableReading.Readable) asNoted).table();
      assertThat(table.turned().map(PinTable.Turned::way)).as("%s", way).contains(way);
      assertThat(table.turned().get().timesBetter()).isGreaterThan(1e6);
      PinTable mended = ((PinTableReading.Readable) read(text, Optional.of(way))).table();
      assertThat(mended.turned()).isEmpty();
      assertThat(
              mended.rows().stream()
                  .filter(r -> r.point().id().value().equals("line-2"))
                  .map(r -> r.value().toString()))
          .containsExactly("380 mV");
    }
  }

  @Test
  void mostlyOverRange_pointsToTheLeads() {
    PinTable table = table("pin,value\n2,OL\n3,OL\n4,OL\n5,OL\n6,540\n8,OL\n");
    assertThat(table.remarks()).hasSize(1);
    assertThat(table.remarks().get(0).message()).isEqualTo("5 of 6 pins read OL that should not");
    assertThat(table.remarks().get(0).wayOut()).contains("leads").contains("ground clip");
    assertThat(table("pin,value\n2,OL\n3,OL\n4,460\n5,500\n6,540\n").remarks()).isEmpty();
  }

  @Test
  void reader_wantsAStepThatReads() {
    assertThatThrownBy(() -> new PinTableReader(PACK, new StepId("plays"), Optional.empty()))
        .hasMessage("step must take readings: plays");
  }
}
