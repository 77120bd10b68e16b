package org.faultwright.cli;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.faultwright.cli.json.ReferenceJson;
import org.faultwright.cli.text.Page;
import org.faultwright.cli.text.ReferenceBlock;
import org.faultwright.cli.text.ReferenceText;
import org.faultwright.measurement.Quantity;
import org.faultwright.measurement.knowngood.BoardReadings;
import org.faultwright.measurement.knowngood.BoardTables;
import org.faultwright.measurement.knowngood.KnownGood;
import org.faultwright.measurement.knowngood.PinReference;
import org.faultwright.measurement.knowngood.ReferencePolicy;
import org.faultwright.measurement.table.TableProblem;
import org.faultwright.measurement.table.TableReading;
import org.faultwright.measurement.table.TextTable;
import picocli.CommandLine.ArgGroup;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Makes references of readings on known-good boards. */
@Command(
    name = "reference",
    mixinStandardHelpOptions = true,
    description = {
      "Make references for a pack from readings on known-good boards.",
      "",
      "A table is CSV (commas, semicolons or tabs) with one row for each pin. The columns point,"
          + " net and pin say which it is, unit is the unit of bare numbers, limit is at-least or"
          + " at-most where one limit is wanted, note is skipped; each other column is a board. A table of one board may call it value. Nothing, -, GND and"
          + " NC are no reading.",
      ""
    },
    exitCodeListHeading = "%nExit codes:%n",
    exitCodeList = {
      "0:Every pin that was read has a reference.",
      "1:A table has errors, or a pin got no reference.",
      "2:The command was not understood, or a file is not there.",
      "3:A fault of Faultwright itself."
    })
final class References implements Callable<Integer> {

  private final Surroundings surroundings;

  @Spec private CommandSpec spec;

  @Parameters(
      arity = "1..*",
      paramLabel = "TABLE",
      description = "Tables of readings, put together; - is standard input.")
  private List<String> names = new ArrayList<>();

  @Option(
      names = "--unit",
      paramLabel = "UNIT",
      description = "The unit of bare numbers where a row states none, such as V, mV or kohm.")
  private Optional<String> unit = Optional.empty();

  @Option(
      names = "--coverage",
      paramLabel = "PART",
      converter = Percent.class,
      description = "The part of good boards that a reference is to hold; else 95 %%.")
  private double coverage = ReferencePolicy.USUAL.pCoverage();

  @Option(
      names = "--confidence",
      paramLabel = "PART",
      converter = Percent.class,
      description = "How often that is to come true; else 95 %%.")
  private double confidence = ReferencePolicy.USUAL.pConfidence();

  @Option(
      names = "--significance",
      paramLabel = "PART",
      converter = Percent.class,
      description =
          "How often a sound pin may be taken for not normal or for one with an outlier; else 1"
              + " %%.")
  private double significance = ReferencePolicy.USUAL.pSignificance();

  @Option(
      names = "--drop-outliers",
      description = "Leave outliers out of the references. They are named in any case.")
  private boolean dropOutliers;

  @ArgGroup private Form form = new Form();

  /** At most one of them. */
  static final class Form {
    @Option(names = "--block", description = "Print the points for a pack, ready to paste.")
    private boolean block;

    @Option(names = "--json", description = "Print JSON, for other programs.")
    private boolean json;
  }

  References(Surroundings surroundings) {
    this.surroundings = surroundings;
  }

  @Override
  public Integer call() {
    ReferencePolicy policy = policy();
    BoardReadings.Readable readings = readings();
    List<PinReference> pins = new KnownGood(policy).references(readings.pins());
    int boards = readings.boards().size();
    if (form.json) {
      ReferenceJson.write(surroundings.out(), pins, readings.boards(), policy);
    } else if (form.block) {
      // meant for a file, which is UTF-8 whatever the terminal shows
      surroundings.out().print(ReferenceBlock.of(pins, boards, policy));
    } else {
      Page page = new Page(surroundings.screen());
      new ReferenceText(page, policy).write(pins, boards);
      page.gap().text("The points for a pack: the same command with --block.");
      page.printOn(surroundings.out());
    }
    return pins.stream().allMatch(References::isServed) ? ExitCode.CLEAN : ExitCode.FINDINGS;
  }

  private static boolean isServed(PinReference pin) {
    return !(pin.result() instanceof PinReference.Missing missing)
        || missing.reason() == PinReference.Reason.NOT_READ;
  }

  private ReferencePolicy policy() {
    try {
      unit.ifPresent(u -> Quantity.parse("1 " + u));
      return new ReferencePolicy(coverage, confidence, significance, dropOutliers);
    } catch (IllegalArgumentException e) {
      throw new ParameterException(spec.commandLine(), e.getMessage());
    }
  }

  private BoardReadings.Readable readings() {
    List<TextTable> tables = new ArrayList<>();
    List<TableProblem> problems = new ArrayList<>();
    for (String name : names) {
      byte[] bytes = Sources.bytes(name, TextTable.MOST_BYTES + 1, surroundings);
      TableReading reading = TextTable.read(name, bytes);
      if (reading instanceof TableReading.Readable readable) {
        tables.add(readable.table());
      } else {
        problems.addAll(((TableReading.Refused) reading).problems());
      }
    }
    if (!problems.isEmpty()) {
      throw refused(problems, 0);
    }
    BoardReadings readings = BoardTables.read(tables, unit);
    if (readings instanceof BoardReadings.Refused refused) {
      throw refused(refused.problems(), refused.more());
    }
    return (BoardReadings.Readable) readings;
  }

  private static Stopped refused(List<TableProblem> problems, int more) {
    StringBuilder report = new StringBuilder();
    problems.forEach(p -> report.append(p).append('\n'));
    if (more > 0) {
      report.append("and at least ").append(more).append(" more\n");
    }
    return Stopped.byProblems(report + "Nothing was taken from the tables.");
  }
}
