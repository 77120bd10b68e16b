package org.faultwright.cli;

import static java.nio.charset.StandardCharsets.ISO_8859_1;
import static java.nio.charset.StandardCharsets.UTF_16LE;
import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Tables as people save and paste them: what can be read is read, the rest is refused whole. */
class BadTableTest {

  private static final String PACK = "../pins/redpoll-display.yaml";

  @TempDir private Path folder;

  private Shell.Result pins(byte[] table) throws IOException {
    Path file = Files.write(folder.resolve("t.csv"), table);
    return Shell.PLAIN.run("pins", "--pack", PACK, "--table", file.toString(), "--fact");
  }

  private Shell.Result reference(byte[] table) throws IOException {
    Path file = Files.write(folder.resolve("t.csv"), table);
    return Shell.PLAIN.run("reference", file.toString());
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '`',
      value = {
        "2,NaN | row 3, column 2: 'NaN' is no value and no state",
        "2,Infinity | row 3, column 2: 'Infinity' is no value and no state",
        "2,-inf | row 3, column 2: value must be a number with a unit",
        "2,1e9 V | row 3, column 2: voltage must be in [-100 kV, 100 kV]: 1 GV",
        "2,1e999 V | row 3, column 2: ",
        "2,4.7 kohm | row 3, column 2: expected a voltage such as 0.452 V: 4.7 kohm",
        "2,0,386 V | row 3, column 3: row has more cells than there are columns (2)",
        "2,0.386 V,left | row 3, column 3: row has more cells than there are columns (2)",
        "2,\"0.386 V | row 3, column 2: quotes do not pair in this row",
        "LANE0Q,0.386 V | row 3, column 1: no pin is called 'LANE0Q' in step"
            + " 'display-pin-table'; did you mean 'LANE0P'?",
        "41,0.386 V | row 3, column 1: no pin is called '41' in step 'display-pin-table'; its pins"
            + " end at 40",
        ",0.386 V | row 3, column 1: the name of the pin is missing",
      })
  void pins_areRefusedWhole_withRowAndColumn(String row, String message) throws IOException {
    Shell.Result result = pins(("pin,value\n3,0.386 V\n" + row + "\n").getBytes(UTF_8));
    assertThat(result.exitCode()).isEqualTo(ExitCode.FINDINGS);
    assertThat(result.out()).isEmpty();
    assertThat(result.err())
        .contains("t.csv: " + message)
        .contains("Nothing was taken from the table.");
  }

  @Test
  void pins_areRead_howeverTheTableWasSaved() throws IOException {
    String expected = pins("pin,value\n2,0.386 V\n3,0.390 V\n".getBytes(UTF_8)).out();
    assertThat(expected).contains("pin-lane0p: 386 mV").contains("pin-lane0n: 390 mV");
    for (byte[] same :
        new byte[][] {
          "\ufeffpin,value\r\n2,0.386 V\r\n3,0.390 V\r\n".getBytes(UTF_8),
          "\ufeffpin,value\n2,0.386 V\n3,0.390 V\n".getBytes(UTF_16LE),
          "pin;value\n2;0,386 V\n3;\"0,390 V\"\n".getBytes(UTF_8),
          "pin\tvalue [mV]\n2\t386\n3\t390\n".getBytes(UTF_8),
          "pin,value,,\n2,0.386 V,,\n\n3,0.390 V,\n".getBytes(UTF_8),
          "pin,value\nlane0p,386\nPin 3,390\n".getBytes(UTF_8), // bare, as in diode mode
        }) {
      Shell.Result result = pins(same);
      assertThat(result.err()).isEmpty();
      assertThat(result.out()).isEqualTo(expected);
    }
  }

  @Test
  void otherEncodings_areRefused_withTheWayOut() throws IOException {
    byte[] latin = "pin,value,note\n2,0.386 V,gepr\u00fcft\n".getBytes(ISO_8859_1);
    assertThat(pins(latin).err()).contains("row 2, column 3").contains("save the table as CSV in");
    assertThat(reference(latin).err()).contains("row 2, column 3");
    byte[] unmarked = "pin,value\n2,0.386 V\n".getBytes(UTF_16LE);
    assertThat(pins(unmarked).err()).contains("row 1, column 1").contains("UTF-8");
  }

  @Test
  void pinThatStandsThereTwice_isTwoReadings_andSaidSo() throws IOException {
    byte[] twice = "pin,value\n2,0.386 V\n2,0.390 V\n".getBytes(UTF_8);
    assertThat(pins(twice).out()).contains("{reading: pin-lane0p, value: 390 mV}");
    Path file = Files.write(folder.resolve("t.csv"), twice);
    assertThat(Shell.PLAIN.run("pins", "--pack", PACK, "--table", file.toString()).out())
        .contains("stands in row 2 as well");
    assertThat(reference(twice).err()).contains("row 3, column 1: pin 'pin-2' has a row already");
  }

  @Test
  void tooManyRows_areRefusedAtTheFirstTooMany() throws IOException {
    byte[] many = ("pin,value\n" + "2,0.386 V\n".repeat(100_000)).getBytes(UTF_8);
    for (Shell.Result result : new Shell.Result[] {pins(many), reference(many)}) {
      assertThat(result.err()).contains("row 5002").contains("more than 5000 rows");
      assertThat(result.out()).isEmpty();
    }
  }

  @Test
  void resistanceFarBelowZero_isRefused_andSlightlyBelowIsAMeterThatWasZeroed() throws IOException {
    assertThat(reference("pin,value\n2,-5 ohm\n".getBytes(UTF_8)).err())
        .contains("row 2, column 2")
        .contains("resistance must be in [-1 ohm, ")
        .contains("the circuit is live");
    assertThat(reference("pin,value\n2,-0.1 ohm\n".getBytes(UTF_8)).err()).isEmpty();
  }
}
