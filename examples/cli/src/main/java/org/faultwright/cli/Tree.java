package org.faultwright.cli;

import java.util.Optional;
import java.util.concurrent.Callable;
import org.faultwright.cli.json.TreeJson;
import org.faultwright.cli.text.Page;
import org.faultwright.cli.text.TreeText;
import org.faultwright.faulttree.AnalysisLimits;
import org.faultwright.faulttree.CircuitResult;
import org.faultwright.faulttree.PackTree;
import org.faultwright.faulttree.TreeAnalysis;
import org.faultwright.faulttree.TreeFigures;
import org.faultwright.interchange.OpenPsa;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Figures of a fault tree: of a pack's complaint or event, or of a file. */
@Command(
    name = "tree",
    mixinStandardHelpOptions = true,
    description =
        "Show the minimal cut sets, the probability and the importances of a fault tree: of a"
            + " pack's complaint or event, or of a file in the Open-PSA model exchange format.",
    exitCodeListHeading = "%nExit codes:%n",
    exitCodeList = {
      "0:There are figures.",
      "1:The file or pack has errors, or the tree is too large.",
      "2:The command was not understood, or there is no such file, pack or top event.",
      "3:A fault of Faultwright itself."
    })
final class Tree implements Callable<Integer> {

  private final Surroundings surroundings;

  @Parameters(
      index = "0",
      paramLabel = "PACK|FILE",
      description =
          "A pack by name (family/subsystem), a pack.yaml, or a fault tree in the Open-PSA format;"
              + " - reads it from standard input.")
  private String source = "";

  @Parameters(
      index = "1",
      arity = "0..1",
      paramLabel = "TOP",
      description =
          "The complaint or event of the pack, or the gate of the file. Without it: the only one"
              + " there is.")
  private String top;

  @Option(names = "--json", description = "Print the figures as JSON, for other programs.")
  private boolean json;

  @Option(
      names = "--open-psa",
      description = "Print the tree in the Open-PSA model exchange format instead of its figures.")
  private boolean openPsa;

  @Option(
      names = "--max-order",
      paramLabel = "N",
      description = "List no cut sets of more events than this. They are counted.")
  private int maxOrder = AnalysisLimits.USUAL.maxOrder();

  @Option(
      names = "--cutoff",
      paramLabel = "P",
      description = "List no cut sets that are less likely than this. They are counted.")
  private double cutoff;

  @Option(
      names = "--most",
      paramLabel = "N",
      description = "List at most so many cut sets and events; without it 10, and 1000 in JSON.")
  private Integer most;

  @Option(
      names = "--mission-time",
      paramLabel = "T",
      description = "What a file means by system-mission-time, in the unit of its rates.")
  private Double missionTime;

  @Mixin private PacksOption packs = new PacksOption();

  Tree(Surroundings surroundings) {
    this.surroundings = surroundings;
  }

  @Override
  public Integer call() {
    AnalysisLimits limits = limits();
    DrawnTree drawn =
        DrawnTree.of(
            source, Optional.ofNullable(top), DrawnTree.time(missionTime), packs, surroundings);
    if (openPsa) {
      surroundings.out().print(OpenPsa.write(drawn.tree()));
      return ExitCode.CLEAN;
    }
    TreeAnalysis analysis = TreeAnalysis.of(drawn.tree(), drawn.top(), drawn.dependence(), limits);
    if (analysis instanceof TreeFigures figures) {
      print(drawn, figures);
      return ExitCode.CLEAN;
    }
    throw Stopped.byFinding(tooLarge(drawn, (TreeAnalysis.OverBudget) analysis, limits));
  }

  private AnalysisLimits limits() {
    if (maxOrder < 1) {
      throw Stopped.byUsage("--max-order must be at least 1: " + maxOrder);
    }
    if (!(cutoff >= 0 && cutoff <= 1)) {
      throw Stopped.byUsage("--cutoff must be in [0, 1]: " + cutoff);
    }
    if (most != null && (most < 0 || most > 100_000)) {
      throw Stopped.byUsage("--most must be in [0, 100000]: " + most);
    }
    int listed = most != null ? most : json ? AnalysisLimits.USUAL.mostListed() : 10;
    return AnalysisLimits.USUAL.listing(maxOrder, cutoff, listed);
  }

  private void print(DrawnTree drawn, TreeFigures figures) {
    if (json) {
      new TreeJson(drawn.tree(), figures)
          .write(
              surroundings.out(),
              drawn.title(),
              drawn.from(),
              drawn.pack().map(PackTree::leavesOut));
      return;
    }
    Page page = new Page(surroundings.screen());
    new TreeText(page, drawn.tree(), figures, most == null ? 10 : most)
        .write(drawn.title(), drawn.from(), drawn.pack().map(PackTree::leavesOut));
    page.printOn(surroundings.out());
  }

  private static String tooLarge(
      DrawnTree drawn, TreeAnalysis.OverBudget over, AnalysisLimits limits) {
    CircuitResult circuit =
        TreeAnalysis.circuit(drawn.tree(), drawn.top(), drawn.dependence(), limits);
    return "the tree is too large: its decision diagram would have more than "
        + over.allowedNodes()
        + " nodes"
        + (circuit instanceof CircuitResult.Exact exact
            ? "; P(" + drawn.top() + ") = " + exact.pTop() + " by the circuit"
            : ", and the circuit would be too large as well")
        + ". Ask about a gate further down";
  }
}
