package org.faultwright.cli;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.faultwright.cli.json.AnswerJson;
import org.faultwright.cli.text.AnswerText;
import org.faultwright.cli.text.Page;
import org.faultwright.diagnosis.Answer;
import org.faultwright.diagnosis.Diagnosis;
import org.faultwright.diagnosis.Outlook;
import org.faultwright.diagnosis.Scrutiny;
import org.faultwright.explanation.WhyCause;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.Id;
import org.faultwright.pack.Pack;
import org.faultwright.problem.Nearest;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Ranks the causes of one case and says what to do next, or works through a case in a dialogue. */
@Command(
    name = "diagnose",
    mixinStandardHelpOptions = true,
    description = {
      "Rank the causes of one case and say what to do next.",
      "Without a case file: take in a device and work through its case, one question at a time."
    },
    exitCodeListHeading = "%nExit codes:%n",
    exitCodeList = {
      "0:There is an answer.",
      "1:The case or its pack has errors, or its facts cannot all be true.",
      "2:The command was not understood, or the file is not there.",
      "3:A fault of Faultwright itself."
    })
final class Diagnose implements Callable<Integer> {

  /** Sets of causes that a closer look shows. */
  private static final int MOST_SETS = 5;

  private final Surroundings surroundings;

  @Parameters(
      index = "0",
      arity = "0..1",
      paramLabel = "FILE",
      description = "The case file; - reads it from standard input.")
  private String file = "";

  @Option(
      names = "--resume",
      paramLabel = "FILE",
      description = "Go on with this case in a dialogue; every answer is kept in it.")
  private String resumed = "";

  @Option(
      names = "--as",
      paramLabel = "FILE",
      description = "Keep the new case in this file instead of asking for its name.")
  private String as = "";

  @Option(
      names = "--plain",
      description =
          "A dialogue in plain sentences for a screen reader: no bars, nothing is drawn over. Also"
              + " answers through a pipe.")
  private boolean plain;

  @Option(names = "--json", description = "Print the answer as JSON, for other programs.")
  private boolean json;

  @Option(
      names = "--why",
      paramLabel = "CAUSE",
      description = "Explain this cause in full instead of the leader in short. May be repeated.")
  private List<String> asked = new ArrayList<>();

  @Option(
      names = "--all",
      description =
          "Show every cause and every step, with the reason where one is not open, and a closer"
              + " look: which causes come together, whether the facts agree, which numbers decide.")
  private boolean all;

  @Mixin private PacksOption packs = new PacksOption();

  @Mixin private PackOption named = new PackOption();

  @Mixin private ShopOption shop = new ShopOption();

  Diagnose(Surroundings surroundings) {
    this.surroundings = surroundings;
  }

  /** As if called with this case file and no options. */
  static Diagnose of(Surroundings surroundings, String file) {
    Diagnose command = new Diagnose(surroundings);
    command.file = file;
    return command;
  }

  @Override
  public Integer call() {
    if (file.isEmpty()) {
      BenchDialogue dialogue = new BenchDialogue(surroundings, packs, named, shop, plain);
      return resumed.isEmpty() ? dialogue.begin(as) : dialogue.resume(resumed);
    }
    if (!resumed.isEmpty() || !as.isEmpty() || plain) {
      throw Stopped.byUsage(
          "--resume, --as and --plain belong to a dialogue; to go on with a case: diagnose --resume"
              + " "
              + file);
    }
    OpenedCase opened = OpenedCase.read(file, packs, named, surroundings);
    List<CauseId> causes = asked.stream().map(name -> cause(opened.pack(), name)).toList();
    try (Diagnosis diagnosis = opened.open(shop.engine(surroundings))) {
      Answer answer = diagnosis.answer();
      List<WhyCause> why = new ArrayList<>();
      if (answer.posterior().isPresent()) {
        List<CauseId> explained =
            causes.isEmpty() ? List.of(answer.posterior().get().leader().cause()) : causes;
        explained.forEach(cause -> why.add(diagnosis.why(cause)));
      }
      Optional<Scrutiny> scrutiny =
          (json || all) && answer.posterior().isPresent()
              ? Optional.of(diagnosis.scrutiny(MOST_SETS))
              : Optional.empty();
      print(opened.pack(), answer, why, scrutiny);
      return answer.outlook() instanceof Outlook.ImpossibleEvidence
          ? ExitCode.FINDINGS
          : ExitCode.CLEAN;
    }
  }

  private void print(Pack pack, Answer answer, List<WhyCause> why, Optional<Scrutiny> scrutiny) {
    if (json) {
      new AnswerJson(pack).write(surroundings.out(), answer, why, scrutiny);
      return;
    }
    Page page = new Page(surroundings.screen());
    boolean leader = asked.isEmpty();
    new AnswerText(pack, all)
        .write(page, answer, leader ? why : List.of(), leader ? List.of() : why, scrutiny);
    page.printOn(surroundings.out());
  }

  private static CauseId cause(Pack pack, String name) {
    if (Id.isWellSpelt(name) && pack.causes().containsKey(new CauseId(name))) {
      return new CauseId(name);
    }
    List<String> known = pack.causes().keySet().stream().map(CauseId::value).toList();
    throw Stopped.byUsage(
        "--why: pack '"
            + pack.id()
            + "' has no cause '"
            + name
            + "'; "
            + Nearest.of(name, known)
                .map(near -> "did you mean '" + near + "'?")
                .orElse("it has: " + String.join(", ", known)));
  }
}
