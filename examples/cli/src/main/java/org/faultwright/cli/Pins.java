package org.faultwright.cli;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.concurrent.Callable;
import java.util.stream.Stream;
import org.faultwright.casefile.CaseFile;
import org.faultwright.casefile.Fact;
import org.faultwright.casefile.Intake;
import org.faultwright.casefile.PinTable;
import org.faultwright.casefile.PinTableReader;
import org.faultwright.casefile.PinTableReading;
import org.faultwright.casefile.Told;
import org.faultwright.cli.json.PinsJson;
import org.faultwright.cli.text.Page;
import org.faultwright.cli.text.PinsText;
import org.faultwright.diagnosis.Diagnosis;
import org.faultwright.diagnosis.PinReport;
import org.faultwright.measurement.table.TableProblem;
import org.faultwright.measurement.table.TextTable;
import org.faultwright.pack.Pack;
import org.faultwright.pack.PackId;
import org.faultwright.pack.PointId;
import org.faultwright.pack.Step;
import org.faultwright.pack.StepId;
import org.faultwright.problem.Nearest;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Shows the readings of one step as a table. */
@Command(
    name = "pins",
    mixinStandardHelpOptions = true,
    description = {
      "Show a pin table: each reading beside its reference, and what they say together.",
      "",
      "The readings are those of the case, and of a table if one is given: CSV (commas, semicolons"
          + " or tabs) with the columns pin and value. Pins go by number, net or id; 'value [mV]'"
          + " says the unit of bare numbers; OL, GND and NC are what they are at the bench. What"
          + " was seen without a number goes by the name of the state, such as unsteady.",
      ""
    },
    exitCodeListHeading = "%nExit codes:%n",
    exitCodeList = {
      "0:No pin is odd.",
      "1:A pin is odd, the table fits better when it is turned, or something has errors.",
      "2:The command was not understood, or a file is not there.",
      "3:A fault of Faultwright itself."
    })
final class Pins implements Callable<Integer> {

  /** So many mistakes of a table are shown: more have the same reason, and fill the screen. */
  private static final int MOST_PROBLEMS = 12;

  private final Surroundings surroundings;

  @Parameters(
      index = "0",
      arity = "0..1",
      paramLabel = "FILE",
      description = "The case file; - reads it from standard input. Without one: --pack.")
  private Optional<String> file = Optional.empty();

  @Option(
      names = "--step",
      paramLabel = "STEP",
      description = "The step that takes the readings; needed where several do.")
  private Optional<String> step = Optional.empty();

  @Option(
      names = "--table",
      paramLabel = "TABLE",
      description = "A table of readings to add; - reads it from standard input.")
  private Optional<String> table = Optional.empty();

  @Option(
      names = "--turned",
      paramLabel = "WAY",
      description =
          "The pins of the table were counted wrongly: from-the-other-end, rows-swapped or"
              + " halves-swapped.")
  private Optional<String> turned = Optional.empty();

  @Option(
      names = "--known-good",
      description = "The table was taken on a known-good board with the same meter.")
  private boolean knownGood;

  @Option(names = "--fact", description = "Print the table as a fact to put into a case file.")
  private boolean asFact;

  @Option(names = "--json", description = "Print JSON, for other programs.")
  private boolean json;

  @Mixin private PacksOption packs = new PacksOption();

  @Mixin private PackOption named = new PackOption();

  @Mixin private ShopOption shop = new ShopOption();

  Pins(Surroundings surroundings) {
    this.surroundings = surroundings;
  }

  @Override
  public Integer call() {
    OpenedCase opened = opened();
    StepId read = step(opened);
    Optional<PinTable> noted = table.map(name -> noted(opened, read, name));
    if (asFact) {
      PinTable facts =
          noted.orElseThrow(() -> Stopped.byUsage("--fact needs a table: add --table TABLE"));
      surroundings.out().print(fact(facts));
      return ExitCode.CLEAN;
    }
    try (Diagnosis diagnosis = opened.open(shop.engine(surroundings))) {
      noted.ifPresent(t -> t.facts(setup()).forEach(diagnosis::tell));
      PinReport report = diagnosis.pins(read);
      if (json) {
        PinsJson.write(surroundings.out(), opened.pack(), report, noted);
      } else {
        Page page = new Page(surroundings.screen());
        new PinsText(page, opened.pack()).write(report, noted);
        page.printOn(surroundings.out());
      }
      boolean odd =
          report.isOdd()
              || noted.flatMap(PinTable::turned).isPresent()
              || report.posterior().isEmpty();
      return odd ? ExitCode.FINDINGS : ExitCode.CLEAN;
    }
  }

  private OpenedCase opened() {
    if (file.isPresent()) {
      return OpenedCase.read(file.get(), packs, named, surroundings);
    }
    Optional<PackId> id = named.id();
    Pack pack =
        named
            .pack()
            .or(
                () ->
                    id.flatMap(i -> packs.library(Optional.empty()).read(i))
                        .flatMap(
                            r ->
                                r instanceof org.faultwright.pack.reader.PackReading.Readable ok
                                    ? Optional.of(ok.pack())
                                    : Optional.empty()))
            .orElseThrow(
                () ->
                    Stopped.byUsage(
                        id.isPresent()
                            ? "there is no pack '" + id.get() + "' that can be used"
                            : "name a case file, or a pack with --pack family/subsystem"));
    return new OpenedCase(pack, CaseFile.empty(pack.id(), Intake.PLAIN), "");
  }

  private Fact.Setup setup() {
    return new Fact.Setup(
        Optional.empty(), Optional.empty(), knownGood, java.util.OptionalDouble.empty());
  }

  /** The step that was named, or the only one that it can be. */
  private StepId step(OpenedCase opened) {
    Map<String, Step> reading = new TreeMap<>();
    opened.pack().steps().values().stream()
        .filter(s -> s.pinTable().isPresent())
        .forEach(s -> reading.put(s.id().value(), s));
    if (step.isPresent()) {
      Step found = reading.get(step.get());
      if (found == null) {
        throw Stopped.byUsage(
            "--step: pack '"
                + opened.pack().id()
                + "' reads no pins in a step '"
                + step.get()
                + "'; "
                + Nearest.of(step.get(), reading.keySet())
                    .map(near -> "did you mean '" + near + "'?")
                    .orElse("it does in: " + String.join(", ", reading.keySet())));
      }
      return found.id();
    }
    List<Step> likely = new ArrayList<>(reading.values());
    List<Stream<Step>> narrower =
        List.of(
            reading.values().stream().filter(s -> isRead(opened.caseFile(), s)),
            reading.values().stream().filter(s -> s.pinTable().get().connector().isPresent()));
    for (Stream<Step> steps : narrower) {
      List<Step> some = steps.toList();
      if (likely.size() != 1 && some.size() == 1) {
        likely = some;
      }
    }
    if (likely.size() == 1) {
      return likely.get(0).id();
    }
    throw Stopped.byUsage(
        likely.isEmpty()
            ? "pack '" + opened.pack().id() + "' has no step that takes readings"
            : "which step? Name it with --step: " + String.join(", ", reading.keySet()));
  }

  private static boolean isRead(CaseFile caseFile, Step step) {
    List<PointId> points = step.pinTable().get().points().stream().map(p -> p.id()).toList();
    return caseFile.facts().stream()
        .map(Told::fact)
        .anyMatch(f -> f instanceof Fact.ReadingTaken r && points.contains(r.point()));
  }

  private PinTable noted(OpenedCase opened, StepId read, String name) {
    byte[] bytes = Sources.bytes(name, TextTable.MOST_BYTES + 1, surroundings);
    PinTableReading reading =
        new PinTableReader(opened.pack(), read, opened.caseFile().intake().board())
            .read(TextTable.read(name, bytes), turned.map(Pins::way));
    if (reading instanceof PinTableReading.Readable readable) {
      return readable.table();
    }
    StringBuilder report = new StringBuilder();
    List<TableProblem> problems = ((PinTableReading.Refused) reading).problems();
    problems.stream().limit(MOST_PROBLEMS).forEach(p -> report.append(p).append('\n'));
    if (problems.size() > MOST_PROBLEMS) {
      report.append("and " + (problems.size() - MOST_PROBLEMS) + " more\n");
    }
    throw Stopped.byProblems(report + "Nothing was taken from the table.");
  }

  private static PinTable.Way way(String key) {
    for (PinTable.Way way : PinTable.Way.values()) {
      if (way.key().equals(key.toLowerCase(Locale.ROOT))) {
        return way;
      }
    }
    throw Stopped.byUsage(
        "--turned must be one of "
            + String.join(", ", Stream.of(PinTable.Way.values()).map(PinTable.Way::key).toList())
            + ": "
            + key);
  }

  /** As a case file spells it; a pin that stands there twice becomes a fact of its own. */
  private String fact(PinTable noted) {
    Map<String, String> values = new java.util.LinkedHashMap<>();
    StringBuilder more = new StringBuilder();
    String on = knownGood ? ", on: known-good" : "";
    for (PinTable.Row row : noted.rows()) {
      String value = row.value().toString();
      if (values.putIfAbsent(row.point().id().value(), value) != null) {
        more.append("  - {reading: ")
            .append(row.point().id())
            .append(", value: ")
            .append(value)
            .append(on)
            .append("}\n");
      }
    }
    StringBuilder fact = new StringBuilder("  - pins: " + noted.step() + "\n    values:\n");
    values.forEach((point, value) -> fact.append("      " + point + ": " + value + "\n"));
    return fact + "    turned: no\n" + (knownGood ? "    on: known-good\n" : "") + more;
  }
}
