package org.faultwright.cli;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import org.faultwright.pack.yaml.YamlText;
import org.faultwright.problem.Problem;
import org.faultwright.problem.ProblemReport;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Parameters;

/** Shows all problems of packs, fragments, cases and shops' preferences. */
@Command(
    name = "lint",
    mixinStandardHelpOptions = true,
    description =
        "Show every problem of packs, fragments, cases and shops' preferences, each at its place"
            + " and with the way out.",
    exitCodeListHeading = "%nExit codes:%n",
    exitCodeList = {
      "0:No errors; there may be warnings.",
      "1:At least one error.",
      "2:The command was not understood, or a file is not there.",
      "3:A fault of Faultwright itself."
    })
final class Lint implements Callable<Integer> {

  private final Surroundings surroundings;

  @Parameters(
      arity = "1..*",
      paramLabel = "FILE|DIR",
      description =
          "Files, or folders with .yaml files at any depth, but for a target beside a pom.xml: what"
              + " Maven builds are copies; - is standard input.")
  private List<String> names = new ArrayList<>();

  @Mixin private PacksOption packs = new PacksOption();

  Lint(Surroundings surroundings) {
    this.surroundings = surroundings;
  }

  @Override
  public Integer call() {
    List<YamlText> texts = new ArrayList<>();
    for (String name : names) {
      texts.addAll(texts(name));
    }
    Linting linting = new Linting(packs);
    linting.readPacks(texts);
    List<Problem> all = new ArrayList<>();
    for (YamlText text : texts) {
      Linting.Found found = linting.problemsOf(text);
      surroundings.results(ProblemReport.of(found.problems(), found.texts()));
      found.skipped().ifPresent(surroundings::tell);
      all.addAll(found.problems());
    }
    surroundings
        .out()
        .println(
            texts.size() + (texts.size() == 1 ? " file: " : " files: ") + ProblemReport.count(all));
    return ProblemReport.firstError(all).isPresent() ? ExitCode.FINDINGS : ExitCode.CLEAN;
  }

  private List<YamlText> texts(String name) {
    if (name.equals(Sources.STANDARD_INPUT)) {
      return List.of(Sources.text(name, surroundings));
    }
    Path path = Sources.existing(name);
    if (!Files.isDirectory(path)) {
      return List.of(YamlText.read(path));
    }
    List<Path> files = Bundle.yamlFiles(path);
    if (files.isEmpty()) {
      throw Stopped.byUsage("folder '" + name + "' has no .yaml files");
    }
    return files.stream().map(YamlText::read).toList();
  }
}
