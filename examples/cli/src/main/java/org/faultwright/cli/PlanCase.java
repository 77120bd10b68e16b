package org.faultwright.cli;

import java.time.Duration;
import java.util.concurrent.Callable;
import org.faultwright.cli.json.NoPlanJson;
import org.faultwright.cli.json.PlanJson;
import org.faultwright.cli.text.ComparisonText;
import org.faultwright.cli.text.NoPlanText;
import org.faultwright.cli.text.Page;
import org.faultwright.cli.text.PlanText;
import org.faultwright.cli.text.RepairOrNotText;
import org.faultwright.diagnosis.Answer;
import org.faultwright.diagnosis.Diagnosis;
import org.faultwright.diagnosis.NoPlan;
import org.faultwright.diagnosis.PlanResult;
import org.faultwright.pack.Pack;
import org.faultwright.planning.PlanLimits;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Shows the whole plan of a case before the first screw is turned. */
@Command(
    name = "plan",
    mixinStandardHelpOptions = true,
    description = {
      "Show the whole plan of one case: what to do first, and what then, whatever comes out;",
      "what it is expected to take, and how the job may end."
    },
    exitCodeListHeading = "%nExit codes:%n",
    exitCodeList = {
      "0:There is a plan; or the job is best ended at once: the function is back, or no step pays.",
      "1:Something stands in the way of a plan, and it says what; or the case or its pack has"
          + " errors.",
      "2:The command was not understood, or the file is not there.",
      "3:A fault of Faultwright itself."
    })
final class PlanCase implements Callable<Integer> {

  private final Surroundings surroundings;

  @Parameters(
      index = "0",
      paramLabel = "FILE",
      description = "The case file; - reads it from standard input.")
  private String file = "";

  @Option(
      names = "--depth",
      paramLabel = "STEPS",
      defaultValue = "8",
      description = "Follow each branch for so many steps. Default: ${DEFAULT-VALUE}.")
  private int depth;

  @Option(
      names = "--least",
      paramLabel = "PERCENT",
      defaultValue = "1",
      description =
          "Do not follow branches that happen in fewer cases of a hundred. Default:"
              + " ${DEFAULT-VALUE}.")
  private double least;

  @Option(
      names = "--seconds",
      paramLabel = "SECONDS",
      defaultValue = "2",
      description = "Time for looking ahead. Default: ${DEFAULT-VALUE}.")
  private double seconds;

  @Option(
      names = "--as-if-agreed",
      description =
          "Plan as if the customer agreed to all that nobody has asked for yet, for a talk with the"
              + " customer. What was refused stays refused.")
  private boolean asIfAgreed;

  @Option(names = "--json", description = "Print the plan as JSON, for other programs.")
  private boolean json;

  @Mixin private CompareOption comparing = new CompareOption();

  @Mixin private PageOption page = new PageOption();

  @Mixin private PacksOption packs = new PacksOption();

  @Mixin private PackOption named = new PackOption();

  @Mixin private ShopOption shop = new ShopOption();

  PlanCase(Surroundings surroundings) {
    this.surroundings = surroundings;
  }

  @Override
  public Integer call() {
    PlanLimits limits = limits();
    page.check();
    comparing.check();
    OpenedCase opened = OpenedCase.read(file, packs, named, surroundings);
    try (Diagnosis diagnosis = opened.open(shop.engine(surroundings))) {
      PlanResult result = diagnosis.plan(limits);
      Beside beside = Beside.of(diagnosis, result, limits, comparing);
      result
          .found()
          .ifPresent(
              plan ->
                  page.write(
                      surroundings,
                      opened.pack(),
                      diagnosis.answer(),
                      plan,
                      limits,
                      beside,
                      shop.file()));
      if (json) {
        writeJson(opened.pack(), result, beside);
      } else if (!page.isWanted() || result.found().isEmpty()) {
        writeText(opened, diagnosis.answer(), result, beside);
      }
      return exitCode(result);
    }
  }

  private void writeJson(Pack pack, PlanResult result, Beside beside) {
    if (result instanceof PlanResult.Planned planned) {
      new PlanJson(pack)
          .write(surroundings.out(), planned.plan(), beside.repairOrNot(), beside.compared());
    } else if (result instanceof NoPlan none) {
      new NoPlanJson(pack).write(surroundings.out(), none);
    }
  }

  private void writeText(OpenedCase opened, Answer answer, PlanResult result, Beside beside) {
    Pack pack = opened.pack();
    Page screen = new Page(surroundings.screen());
    if (result instanceof PlanResult.Planned planned) {
      new PlanText(screen, pack).write(answer, planned.plan());
    } else if (result instanceof NoPlan none) {
      new NoPlanText(screen, pack, answer).write(none);
    }
    RepairOrNotText worth = new RepairOrNotText(screen, pack);
    beside.repairOrNot().ifPresent(r -> worth.write(r, opened.caseFile().intake()));
    beside.compared().ifPresent(new ComparisonText(screen)::write);
    screen.printOn(surroundings.out());
  }

  private static int exitCode(PlanResult result) {
    boolean isDecided =
        result instanceof PlanResult.Planned
            || result instanceof NoPlan.FunctionBack
            || result instanceof NoPlan.NotWorthIt;
    return isDecided ? ExitCode.CLEAN : ExitCode.FINDINGS;
  }

  private PlanLimits limits() {
    if (depth < 1) {
      throw Stopped.byUsage("--depth must be at least 1: " + depth);
    }
    if (!(least > 0 && least <= 100)) {
      throw Stopped.byUsage("--least must be above 0 and at most 100: " + least);
    }
    if (!(seconds > 0 && seconds <= 3600)) {
      throw Stopped.byUsage("--seconds must be above 0 and at most 3600: " + seconds);
    }
    Duration budget = Duration.ofMillis(Math.max(1, Math.round(1000 * seconds)));
    return new PlanLimits(budget, PlanLimits.ORDINARY.mostAhead(), least / 100, depth, asIfAgreed);
  }
}
