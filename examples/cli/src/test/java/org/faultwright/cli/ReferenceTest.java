package org.faultwright.cli;

import static java.nio.charset.StandardCharsets.ISO_8859_1;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.faultwright.measurement.Dimension;
import org.faultwright.measurement.Reference;
import org.faultwright.pack.Basis;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Point;
import org.faultwright.pack.Step;
import org.faultwright.pack.StepId;
import org.faultwright.pack.reader.Fragments;
import org.faultwright.pack.reader.PackReader;
import org.faultwright.pack.reader.PackReading;
import org.faultwright.problem.Severity;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** The command that makes references of known-good boards, on the invented readings beside it. */
class ReferenceTest {

  private static final Path READINGS = Path.of("../readings/wren-charge-flex.csv");
  private static final Path PACK =
      Path.of("src/test/resources/packs/plover-tablet/sound/pack.yaml");
  private static final Shell UTF_8 = Shell.PLAIN.with("LC_ALL", "C.UTF-8");

  @Test
  void tableFitsTheScreen() {
    for (int width : List.of(40, 60, 79, 80, 100)) {
      for (Shell shell : List.of(Shell.PLAIN, UTF_8)) {
        Shell.Result result =
            shell.with("COLUMNS", String.valueOf(width)).run("reference", READINGS.toString());
        assertThat(result.out().lines().mapToInt(String::length).max().orElseThrow())
            .isLessThanOrEqualTo(width);
      }
    }
  }

  @ParameterizedTest
  @CsvSource({"80", "40"})
  void tableIsAsBefore(String width) {
    Shell.Result result = UTF_8.with("COLUMNS", width).run("reference", READINGS.toString());
    assertThat(result.err()).isEmpty();
    Golden.assertSame("reference-" + width + "-utf8", result.out());
  }

  @Test
  void pinWithoutReferenceIsAFinding() {
    Shell.Result result = Shell.PLAIN.run("reference", READINGS.toString());
    assertThat(result.exitCode()).isEqualTo(ExitCode.FINDINGS);
    assertThat(result.out()).contains("spare: no reference; it reads OL on 2 of 12 boards");
    assertThat(run("pin,unit,a,b,c,d\n1,mV,450,451,452,453\n2,,GND,GND,GND,GND\n").exitCode())
        .isEqualTo(ExitCode.CLEAN);
  }

  /** The numbers of one pin by hand, from the file itself. */
  @Test
  void jsonHoldsTheNumbersUnrounded() throws IOException {
    Shell.Result result = Shell.PLAIN.run("reference", "--json", READINGS.toString());
    JsonNode json = new ObjectMapper().readTree(result.out());
    assertThat(json.get("format").asInt()).isEqualTo(1);
    assertThat(json.get("boards")).hasSize(12);
    JsonNode cc1 = pin(json, "cc1");
    double[] values =
        Files.readAllLines(READINGS).stream()
            .filter(l -> l.startsWith("4,CC1,mV,"))
            .flatMap(l -> Stream.of(l.split(",")).skip(3))
            .mapToDouble(Double::parseDouble)
            .toArray();
    double mean = IntStream.range(0, 12).mapToDouble(i -> values[i]).average().orElseThrow();
    double squares = 0;
    for (double value : values) {
      squares += (value - mean) * (value - mean);
    }
    double deviation = Math.sqrt(squares / 11);
    assertThat(cc1.get("mean").asDouble()).isCloseTo(mean / 1000, within(1e-9));
    assertThat(cc1.get("deviation").asDouble()).isCloseTo(deviation / 1000, within(1e-9));
    // exact factor for 12 boards, 95 % and 95 % (value from memory, recomputed; Howe's is 3.162)
    assertThat(cc1.get("tolerance").asDouble())
        .isCloseTo(3.175 * deviation / 1000, within(1e-3 * deviation / 1000));
    assertThat(cc1.get("by").asText()).isEqualTo("normal");
    assertThat(cc1.get("basis").asText()).isEqualTo("counted");
    assertThat(pin(json, "flash").get("outliers").get(0).get("board").asText()).isEqualTo("w09");
    assertThat(pin(json, "flash").get("by").asText()).isEqualTo("sorted");
    assertThat(pin(json, "spare").get("why").asText()).isEqualTo("sometimes-over-range");
    assertThat(pin(json, "mic").get("basis").asText()).isEqualTo("common-practice");
    assertThat(pin(json, "bat-therm").get("by").asText()).isEqualTo("over-range");
  }

  private static JsonNode pin(JsonNode json, String id) {
    for (JsonNode pin : json.get("pins")) {
      if (pin.get("point").asText().equals(id)) {
        return pin;
      }
    }
    throw new AssertionError("no pin " + id);
  }

  @Test
  void blockIsPastedIntoAPack() throws IOException {
    Map<String, Point> points =
        pasted(Shell.PLAIN.run("reference", "--block", READINGS.toString()).out());
    assertThat(points.keySet())
        .containsExactly(
            "vbus-1",
            "vbus-2",
            "cc1",
            "cc2",
            "d-plus",
            "d-minus",
            "sbu1",
            "sbu2",
            "vsys",
            "bat-id",
            "bat-therm",
            "flash",
            "mic");
    Point cc1 = points.get("cc1");
    assertThat(cc1.title()).isEqualTo("CC1");
    assertThat(cc1.pin()).contains("4");
    assertThat(cc1.basis()).isEqualTo(new Basis.Counted(12, 12, "devices"));
    Reference.Around around = (Reference.Around) cc1.reference();
    // each of the twelve readings lies within, from 616 mV to 623 mV
    assertThat(around.nominal() - around.tolerance()).isBetween(0.606, 0.616);
    assertThat(around.nominal() + around.tolerance()).isBetween(0.623, 0.633);
    assertThat(points.get("bat-therm").reference())
        .isEqualTo(new Reference.OverRange(Dimension.VOLTAGE));
    Reference.Within flash = (Reference.Within) points.get("flash").reference();
    assertThat(flash.low().orElseThrow()).isLessThanOrEqualTo(0.4585);
    assertThat(flash.high().orElseThrow()).isGreaterThanOrEqualTo(0.5355);
    assertThat(points.get("mic").basis()).isEqualTo(new Basis.CommonPractice());
  }

  /** The block tells an author to give rates a basis of their own; that form must be readable. */
  @Test
  void ratesThatAreAddedHaveTheirOwnBasis() throws IOException {
    String block = Shell.PLAIN.run("reference", "--block", READINGS.toString()).out();
    assertThat(block.replaceAll("\\s+#?\\s*", " "))
        .contains("as in {chance: 85 %, basis: common-practice}");
    String rate = "        low: {amp-dead: {chance: 85 %, basis: common-practice}}\n";
    Point cc1 = pasted(block.replace("      cc1:\n", "      cc1:\n" + rate)).get("cc1");
    assertThat(cc1.states().get(0).triggers().values().iterator().next().basis())
        .isEqualTo(new Basis.CommonPractice());
    assertThat(cc1.basis()).isInstanceOf(Basis.Counted.class);
  }

  @Test
  void blockSaysWhatWasDropped() throws IOException {
    String block =
        Shell.PLAIN.run("reference", "--block", "--drop-outliers", READINGS.toString()).out();
    assertThat(block).contains("# Left out: board w09 reads 535 mV");
    Point flash = pasted(block).get("flash");
    assertThat(flash.basis()).isEqualTo(new Basis.Counted(11, 12, "devices"));
    assertThat(flash.reference()).isInstanceOf(Reference.Around.class);
  }

  /** Units of every kind, limits instead of huge tolerances, and names that want to break out. */
  @Test
  void blockOfAnythingCanBeRead() throws IOException {
    String table =
        "pin\tnet\tlimit\ta: \"x\"\tb # c\tc\td\n"
            + "1\t\"a\"\"b\\ # c: [d\"\t\t1.2 kohm\t1.3 kohm\t1k25\t1.26 kohm\n"
            + "2\tground\t\t0.1 ohm\t0.3 ohm\t0.2 ohm\t0.2 ohm\n"
            + "3\theat\t\t25 \u00b0C\t26 \u00b0C\t24 \u00b0C\t25 \u00b0C\n"
            + "4\tload\t\t100 nF\t110 nF\t90 nF\t100 nF\n"
            + "5\tzero\t\t0 V\t0.001 V\t-0.001 V\t0 V\n"
            + "6\tclock\t\t32.768 kHz\t32.769 kHz\t32.767 kHz\t32.768 kHz\n"
            + "7\tdraw\t\t1.2 mA\t\t\t\n"
            + "8\tstart\t\t2.1 s\t2.2 s\t2.0 s\t2.1 s\n"
            + "9\trail\tat-least\t5.1 V\t5.2 V\t5.1 V\t5.0 V\n"
            + "10\tpath\tat-most\t0.3 ohm\t0.2 ohm\t\t\n";
    for (Shell shell : List.of(Shell.PLAIN, UTF_8)) {
      Shell.Result result = shell.reading(table).run("reference", "--block", "-");
      assertThat(result.err()).isEmpty();
      Map<String, Point> points = pasted(result.out());
      assertThat(points).hasSize(10);
      assertThat(points.get("a-b-c-d").title()).isEqualTo("a\"b\\ # c: [d");
      assertThat(((Reference.Within) points.get("ground").reference()).low()).isEmpty();
      assertThat(((Reference.Within) points.get("zero").reference()).low()).isPresent();
      Reference.Within rail = (Reference.Within) points.get("rail").reference();
      assertThat(rail.low().orElseThrow()).isBetween(4.4, 5.0);
      assertThat(rail.high()).isEmpty();
      Reference.Within path = (Reference.Within) points.get("path").reference();
      assertThat(path.low()).isEmpty();
      assertThat(path.high().orElseThrow()).isCloseTo(0.75, within(1e-9)); // 0.25 and 0.5 ohm
      assertThat(points.get("heat").reference().dimension()).isEqualTo(Dimension.TEMPERATURE);
    }
  }

  /** The block below a step of a pack, read as any pack is. */
  private static Map<String, Point> pasted(String block) throws IOException {
    String step =
        "  known-good-table:\n    title: \"Read the connector\"\n    minutes: 6\n"
            + "    needs: [device-open]\n";
    String pack = Files.readString(PACK).replace("\nholds:", "\n" + step + block + "\nholds:");
    PackReading reading = new PackReader(Fragments.shared()).read("pasted.yaml", pack);
    assertThat(
            reading.problems().stream()
                .filter(p -> p.severity() == Severity.ERROR || !p.id().equals("step-tells-nothing"))
                .toList())
        .as("an author has yet to say what each point tells; all else is sound")
        .isEmpty();
    Pack read = ((PackReading.Readable) reading).pack();
    return read.steps().get(new StepId("known-good-table")).pinTable().stream()
        .map(Step.PinTable::points)
        .flatMap(List::stream)
        .collect(
            Collectors.toMap(
                p -> p.id().value(), p -> p, (a, b) -> a, java.util.LinkedHashMap::new));
  }

  @Test
  void tablesOfSingleBoardsArePutTogether() throws IOException {
    Shell.Result result =
        run("point;value\ncc1;0,45\ncc2;OL\n", "reference", "--unit", "V", "--json", "-");
    JsonNode json = new ObjectMapper().readTree(result.out());
    assertThat(json.get("boards").get(0).asText()).isEqualTo("-");
    assertThat(pin(json, "cc1").get("tolerance").asDouble()).isCloseTo(0.045, within(1e-9));
  }

  @Test
  void badTablesAreRefusedWhole() {
    Shell.Result result = run("pin,a,b\n1,0.45 V,NaN\n2,0.45,4 ohm\n3,1 V,2 ohm\n");
    assertThat(result.exitCode()).isEqualTo(ExitCode.FINDINGS);
    assertThat(result.out()).isEmpty();
    assertThat(result.err().lines())
        .containsExactly(
            "-: row 2, column 3: reading of 'pin-1' on board 'b': value must be a number with a"
                + " unit, for example 0.452 V: NaN; mend the cell, or leave it empty where there"
                + " is no reading",
            "-: row 3, column 2: reading of 'pin-2' on board 'a': unit is missing, for example"
                + " 0.452 V or 4.7 kohm: 0.45; write the unit into each cell or into a column"
                + " 'unit', or give --unit",
            "-: row 4, column 3: reading of 'pin-3' on board 'b': expected a voltage such as"
                + " 0.452 V: 2 ohm; mend the cell, or leave it empty where there is no reading",
            "Nothing was taken from the tables.");
  }

  @Test
  void otherEncodingsAndHugeTablesAreRefused() {
    Shell.Result latin =
        Shell.PLAIN.reading("pin,a\n1,4 \u00b5V\n".getBytes(ISO_8859_1)).run("reference", "-");
    assertThat(latin.exitCode()).isEqualTo(ExitCode.FINDINGS);
    assertThat(latin.err()).startsWith("-: row 2, column 2: a sign here is not UTF-8; ");
    Shell.Result huge = run("pin,a\n" + "1,0.5 V\n".repeat(100_000));
    assertThat(huge.exitCode()).isEqualTo(ExitCode.FINDINGS);
    assertThat(huge.err()).startsWith("-: row 5002, column 1: table has more than 5000 rows; ");
    Shell.Result marked = run("\ufeffpin;unit;a\r\n1;mV;452\r\n");
    assertThat(marked.exitCode()).isEqualTo(ExitCode.CLEAN);
  }

  @ParameterizedTest
  @ValueSource(strings = {"100 %", "0", "95", "1.5", "NaN", "-1 %", "x"})
  void partsAreChecked(String part) {
    Shell.Result result = run("pin,a\n1,1 V\n", "reference", "--coverage", part, "-");
    assertThat(result.exitCode()).isEqualTo(ExitCode.USAGE);
    assertThat(result.err()).contains("as in '95 %' or 0.95: '" + part + "'");
  }

  @Test
  void usageIsChecked() {
    assertThat(run("", "reference", "--unit", "parsec", "-").err())
        .contains("unit 'parsec' is not known");
    assertThat(run("", "reference", "--block", "--json", "-").exitCode()).isEqualTo(ExitCode.USAGE);
    assertThat(Shell.PLAIN.run("reference", "nowhere.csv").err())
        .contains("there is no file 'nowhere.csv'");
    assertThat(run("pin,a\n1,1 V\n", "reference", "--significance", "90 %", "-").err())
        .contains("pSignificance must be in (0, 0.5]: 0.9");
  }

  private static Shell.Result run(String table) {
    return run(table, "reference", "-");
  }

  private static Shell.Result run(String table, String... args) {
    return Shell.PLAIN.reading(table).run(args);
  }
}
