package org.faultwright.cli;

import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import org.faultwright.casefile.Fact;
import org.faultwright.cli.json.AnswerJson;
import org.faultwright.cli.text.BranchesText;
import org.faultwright.cli.text.BranchesText.Branch;
import org.faultwright.cli.text.Page;
import org.faultwright.cli.text.SupposedText;
import org.faultwright.diagnosis.Answer;
import org.faultwright.diagnosis.Diagnosis;
import org.faultwright.diagnosis.Outlook;
import org.faultwright.pack.Id;
import org.faultwright.pack.Observation;
import org.faultwright.pack.OutcomeId;
import org.faultwright.pack.Pack;
import org.faultwright.pack.StepId;
import org.faultwright.problem.Nearest;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Asks what would follow if more were known. */
@Command(
    name = "suppose",
    mixinStandardHelpOptions = true,
    description =
        "Show a case beside the same case with more facts supposed. The file stays as it is.",
    exitCodeListHeading = "%nExit codes:%n",
    exitCodeList = {
      "0:There is an answer.",
      "1:The case, its pack or a supposed fact has errors, or the facts cannot all be true.",
      "2:The command was not understood, or the file is not there.",
      "3:A fault of Faultwright itself."
    })
final class Suppose implements Callable<Integer> {

  private final Surroundings surroundings;

  @Parameters(
      index = "0",
      paramLabel = "FILE",
      description = "The case file; - reads it from standard input.")
  private String file = "";

  @Option(
      names = "--fact",
      paramLabel = "FACT",
      description =
          "A fact as case files spell it, such as '{outcome: bend-check, is: drops-out}'. May be"
              + " repeated; all are supposed together, in every branch where there are branches.")
  private List<String> facts = new ArrayList<>();

  @Option(
      names = "--branch",
      paramLabel = "FACTS",
      description =
          "One of several branches side by side: a fact, or a list of them such as '[{bench:"
              + " device-open}, {outcome: look-inside, is: flex-loose}]'. May be repeated.")
  private List<String> branches = new ArrayList<>();

  @Option(
      names = "--each",
      paramLabel = "STEP",
      description = "A branch for each outcome of this step. May be repeated.")
  private List<String> steps = new ArrayList<>();

  @Option(names = "--json", description = "Print both answers as JSON, for other programs.")
  private boolean json;

  @Mixin private PacksOption packs = new PacksOption();

  @Mixin private PackOption named = new PackOption();

  @Mixin private ShopOption shop = new ShopOption();

  Suppose(Surroundings surroundings) {
    this.surroundings = surroundings;
  }

  @Override
  public Integer call() {
    if (facts.isEmpty() && branches.isEmpty() && steps.isEmpty()) {
      throw Stopped.byUsage(
          "suppose what? Add --fact '{outcome: bend-check, is: holds}', --branch with several"
              + " possibilities, or --each STEP");
    }
    OpenedCase opened = OpenedCase.read(file, packs, named, surroundings);
    List<Fact> supposed = facts.stream().map(f -> FactArgument.read(opened.pack(), f)).toList();
    List<List<Fact>> sides = sides(opened.pack());
    try (Diagnosis diagnosis = opened.open(shop.engine(surroundings))) {
      if (!sides.isEmpty()) {
        return sideBySide(opened.pack(), diagnosis, supposed, sides);
      }
      Answer now = diagnosis.answer();
      Answer then = diagnosis.suppose(supposed);
      if (json) {
        new AnswerJson(opened.pack()).writeSupposed(surroundings.out(), now, supposed, then);
      } else {
        Page page = new Page(surroundings.screen());
        new SupposedText(page, opened.pack()).write(now, supposed, then);
        page.printOn(surroundings.out());
      }
      return isImpossible(now) || isImpossible(then) ? ExitCode.FINDINGS : ExitCode.CLEAN;
    }
  }

  /** What each branch supposes beside the facts that all suppose. */
  private List<List<Fact>> sides(Pack pack) {
    List<List<Fact>> sides = new ArrayList<>();
    branches.forEach(b -> sides.add(FactArgument.readSome(pack, b)));
    for (String name : steps) {
      StepId step = step(pack, name);
      List<OutcomeId> outcomes =
          pack.steps().get(step).shows().map(Observation::outcomes).orElse(List.of());
      if (outcomes.isEmpty()) {
        throw Stopped.byUsage("--each: step '" + name + "' has no outcomes; use --branch");
      }
      outcomes.forEach(o -> sides.add(List.of(new Fact.OutcomeSeen(step, o))));
    }
    return sides;
  }

  private static StepId step(Pack pack, String name) {
    if (Id.isWellSpelt(name) && pack.steps().containsKey(new StepId(name))) {
      return new StepId(name);
    }
    List<String> known = pack.steps().keySet().stream().map(StepId::value).toList();
    throw Stopped.byUsage(
        "--each: pack '"
            + pack.id()
            + "' has no step '"
            + name
            + "'"
            + Nearest.of(name, known).map(near -> "; did you mean '" + near + "'?").orElse(""));
  }

  private int sideBySide(Pack pack, Diagnosis diagnosis, List<Fact> inAll, List<List<Fact>> sides) {
    Answer now = diagnosis.answer();
    List<Branch> all = new ArrayList<>();
    for (List<Fact> side : sides) {
      List<Fact> together = new ArrayList<>(inAll);
      together.addAll(side);
      all.add(new Branch(together, diagnosis.suppose(together)));
    }
    if (json) {
      new AnswerJson(pack).writeBranches(surroundings.out(), now, all);
    } else {
      Page page = new Page(surroundings.screen());
      new BranchesText(page, pack).write(now, all);
      page.printOn(surroundings.out());
    }
    boolean cannotBe = isImpossible(now) || all.stream().anyMatch(b -> isImpossible(b.answer()));
    return cannotBe ? ExitCode.FINDINGS : ExitCode.CLEAN;
  }

  private static boolean isImpossible(Answer answer) {
    return answer.outlook() instanceof Outlook.ImpossibleEvidence;
  }
}
