package org.faultwright.cli;

import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import org.faultwright.casefile.Fact;
import org.faultwright.cli.json.AnswerJson;
import org.faultwright.cli.text.Page;
import org.faultwright.cli.text.SupposedText;
import org.faultwright.diagnosis.Answer;
import org.faultwright.diagnosis.Diagnosis;
import org.faultwright.diagnosis.Engine;
import org.faultwright.diagnosis.Outlook;
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
      required = true,
      paramLabel = "FACT",
      description =
          "A fact as case files spell it, such as '{outcome: bend-check, is: drops-out}'. May be"
              + " repeated; all are supposed together.")
  private List<String> facts = new ArrayList<>();

  @Option(names = "--json", description = "Print both answers as JSON, for other programs.")
  private boolean json;

  @Mixin private PacksOption packs = new PacksOption();

  @Mixin private PackOption named = new PackOption();

  Suppose(Surroundings surroundings) {
    this.surroundings = surroundings;
  }

  @Override
  public Integer call() {
    Ahead.loadRules();
    OpenedCase opened = OpenedCase.read(file, packs, named, surroundings);
    List<Fact> supposed = facts.stream().map(f -> FactArgument.read(opened.pack(), f)).toList();
    try (Diagnosis diagnosis = opened.open(Engine.create())) {
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

  private static boolean isImpossible(Answer answer) {
    return answer.outlook() instanceof Outlook.ImpossibleEvidence;
  }
}
