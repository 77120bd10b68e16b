package org.faultwright.cli;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import java.util.concurrent.Callable;
import org.faultwright.casefile.Fact;
import org.faultwright.cli.json.NetworkJson;
import org.faultwright.cli.text.NetworkText;
import org.faultwright.cli.text.Page;
import org.faultwright.compile.CompiledPack;
import org.faultwright.explanation.FactWords;
import org.faultwright.faulttree.FaultTree;
import org.faultwright.faulttree.TreeNetwork;
import org.faultwright.inference.Inquiry;
import org.faultwright.inference.Marginals;
import org.faultwright.interchange.BayesNetwork;
import org.faultwright.interchange.Bif;
import org.faultwright.interchange.ExchangeText;
import org.faultwright.interchange.OpenPsa;
import org.faultwright.interchange.PackNetwork;
import org.faultwright.problem.Nearest;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Posteriors of a network: of a file, or of a pack. */
@Command(
    name = "network",
    mixinStandardHelpOptions = true,
    description =
        "Show how likely each state of each variable of a network is, given findings: of a file in"
            + " BIF or in the Open-PSA format, or of a pack.",
    exitCodeListHeading = "%nExit codes:%n",
    exitCodeList = {
      "0:There are posteriors.",
      "1:The file or pack has errors, the findings cannot all be true, or the network is too wide.",
      "2:The command was not understood, or there is no such file, pack, variable or state.",
      "3:A fault of Faultwright itself."
    })
final class Network implements Callable<Integer> {

  private final Surroundings surroundings;

  @Parameters(
      index = "0",
      paramLabel = "PACK|FILE",
      description =
          "A network in BIF, a fault tree in the Open-PSA format, a pack by name or a pack.yaml; -"
              + " reads it from standard input.")
  private String source = "";

  @Option(
      names = "--given",
      paramLabel = "VARIABLE=STATE",
      description = "A finding, such as smoke=yes. May be repeated.")
  private List<String> given = new ArrayList<>();

  @Option(
      names = "--fact",
      paramLabel = "FACT",
      description =
          "Of a pack: a fact as case files spell it, such as '{complaint: does-not-charge}'. May be"
              + " repeated.")
  private List<String> facts = new ArrayList<>();

  @Option(
      names = "--show",
      paramLabel = "VARIABLE",
      description = "Show this variable. May be repeated; without it all, of a pack its causes.")
  private List<String> shown = new ArrayList<>();

  @Option(names = "--json", description = "Print the posteriors as JSON, for other programs.")
  private boolean json;

  @Option(
      names = "--bif",
      description = "Print the network in BIF instead; of a pack with the facts as variables.")
  private boolean bif;

  @Option(
      names = "--mission-time",
      paramLabel = "T",
      description = "What a file means by system-mission-time, in the unit of its rates.")
  private Double missionTime;

  @Mixin private PacksOption packs = new PacksOption();

  Network(Surroundings surroundings) {
    this.surroundings = surroundings;
  }

  /**
   * A network that can be asked.
   *
   * @param from where it comes from, in words
   * @param asked the variables that are shown unless others are asked for
   * @param found findings that come with it
   * @param facts the same in words
   */
  private record Opened(
      BayesNetwork network,
      String from,
      Set<Integer> asked,
      Map<Integer, Integer> found,
      List<String> facts) {}

  @Override
  public Integer call() {
    Opened opened = open();
    BayesNetwork network = opened.network();
    Map<Integer, Integer> findings = new LinkedHashMap<>(opened.found());
    for (String finding : given) {
      find(network, finding, findings);
    }
    Set<Integer> asked = new LinkedHashSet<>();
    shown.forEach(name -> asked.add(variable(network, name, "--show")));
    if (asked.isEmpty()) {
      asked.addAll(opened.asked());
    }
    if (bif) {
      surroundings.out().print(Bif.write(network));
      return ExitCode.CLEAN;
    }
    Marginals marginals = Inquiry.of(weights(network, findings), asked).of(network.tables());
    if (marginals instanceof Marginals.Exact exact) {
      print(opened, findings, exact);
      return ExitCode.CLEAN;
    } else if (marginals instanceof Marginals.OverBudget over) {
      throw Stopped.byFinding(
          String.format(
              java.util.Locale.ROOT,
              "the network is too wide: an exact answer would take %.1e table entries, and %.1e are"
                  + " allowed",
              Math.min(over.whole(), over.perCase()),
              over.budget()));
    }
    throw Stopped.byFinding(
        "these findings cannot all be true: " + words(network, clash(network, findings)));
  }

  private Opened open() {
    Optional<ExchangeText> text = DrawnTree.file(source, surroundings);
    if (text.isPresent() && DrawnTree.isXml(text.get())) {
      noFacts();
      FaultTree tree =
          DrawnTree.value(OpenPsa.read(text.get(), DrawnTree.time(missionTime)), surroundings);
      TreeNetwork of = TreeNetwork.of(tree);
      return new Opened(
          BayesNetwork.of(tree.name(), of),
          "fault tree " + tree.name() + ", " + source,
          new LinkedHashSet<>(of.events().values()),
          Map.of(),
          List.of());
    } else if (text.isPresent() && DrawnTree.isBif(text.get())) {
      noFacts();
      BayesNetwork network = DrawnTree.value(Bif.read(text.get()), surroundings);
      Set<Integer> all = new LinkedHashSet<>();
      for (int v = 0; v < network.variables().size(); v++) {
        all.add(v);
      }
      return new Opened(network, network.name() + ", " + source, all, Map.of(), List.of());
    }
    CompiledPack compiled = DrawnTree.compiled(DrawnTree.pack(source, text, packs, surroundings));
    List<Fact> read = facts.stream().map(f -> FactArgument.read(compiled.pack(), f)).toList();
    if (read.stream().anyMatch(f -> f instanceof Fact.StepDone)) {
      throw Stopped.byUsage(
          "--fact: a network is of a device as taken in, before any step is carried out; diagnose"
              + " takes the others");
    }
    PackNetwork of =
        PackNetwork.of(compiled, read)
            .orElseThrow(
                () ->
                    Stopped.byUsage(
                        "--fact: these readings were taken by one instrument and share its error,"
                            + " which the tables of a network cannot say; give one of them, or use"
                            + " diagnose"));
    Map<Integer, Integer> told = new LinkedHashMap<>();
    of.told().forEach(v -> told.put(v, 1));
    return new Opened(
        of.network(),
        compiled.pack().title() + (compiled.pack().invented() ? " (invented)" : ""),
        new LinkedHashSet<>(of.causes().values()),
        told,
        read.stream().map(f -> FactWords.of(compiled.pack(), f)).toList());
  }

  private void noFacts() {
    if (!facts.isEmpty()) {
      throw Stopped.byUsage("--fact is for packs; a file takes --given, as in --given smoke=yes");
    }
  }

  private static void find(BayesNetwork network, String finding, Map<Integer, Integer> findings) {
    int equals = finding.lastIndexOf('=');
    if (equals < 0) {
      throw Stopped.byUsage("--given takes VARIABLE=STATE, as in smoke=yes: " + finding);
    }
    int v = variable(network, finding.substring(0, equals).strip(), "--given");
    String wanted = finding.substring(equals + 1).strip();
    List<String> states = network.variables().get(v).states();
    OptionalInt state = network.variables().get(v).state(wanted);
    if (state.isEmpty()) {
      throw Stopped.byUsage(
          "--given: variable '"
              + network.variables().get(v).name()
              + "' has no state '"
              + wanted
              + "'; it has: "
              + String.join(", ", states));
    }
    Integer before = findings.put(v, state.getAsInt());
    if (before != null && before != state.getAsInt()) {
      throw Stopped.byUsage(
          "--given: variable '" + network.variables().get(v).name() + "' cannot be in two states");
    }
  }

  private static int variable(BayesNetwork network, String name, String option) {
    OptionalInt found = network.variable(name);
    if (found.isPresent()) {
      return found.getAsInt();
    }
    List<String> all = network.variables().stream().map(BayesNetwork.Variable::name).toList();
    throw Stopped.byUsage(
        option
            + ": there is no variable '"
            + name
            + "'; "
            + Nearest.of(name, all)
                .map(near -> "did you mean '" + near + "'?")
                .orElse(
                    "there are: "
                        + String.join(", ", all.subList(0, Math.min(12, all.size())))
                        + (all.size() > 12 ? " and " + (all.size() - 12) + " more" : "")));
  }

  private static Map<Integer, double[]> weights(
      BayesNetwork network, Map<Integer, Integer> findings) {
    Map<Integer, double[]> weights = new LinkedHashMap<>();
    findings.forEach(
        (v, state) -> {
          double[] only = new double[network.variables().get(v).states().size()];
          only[state] = 1;
          weights.put(v, only);
        });
    return weights;
  }

  /** A smallest set: leaves out one finding after another; what cannot be left out stays. */
  private static Map<Integer, Integer> clash(BayesNetwork network, Map<Integer, Integer> findings) {
    Map<Integer, Integer> left = new LinkedHashMap<>(findings);
    for (Integer v : findings.keySet()) {
      Map<Integer, Integer> fewer = new LinkedHashMap<>(left);
      fewer.remove(v);
      if (Inquiry.of(weights(network, fewer), Set.of()).of(network.tables())
          instanceof Marginals.Impossible) {
        left = fewer;
      }
    }
    return left;
  }

  private static String words(BayesNetwork network, Map<Integer, Integer> findings) {
    List<String> words = new ArrayList<>();
    findings.forEach(
        (v, state) -> {
          BayesNetwork.Variable of = network.variables().get(v);
          words.add(of.name() + " = " + of.states().get(state));
        });
    return String.join(", ", words);
  }

  private void print(Opened opened, Map<Integer, Integer> findings, Marginals.Exact exact) {
    if (json) {
      new NetworkJson(opened.network(), findings)
          .write(surroundings.out(), opened.from(), opened.facts(), exact);
      return;
    }
    Map<Integer, Integer> named = new LinkedHashMap<>(findings);
    opened.found().keySet().forEach(named::remove);
    List<String> all = new ArrayList<>(opened.facts());
    if (!named.isEmpty()) {
      all.add(words(opened.network(), named));
    }
    Page page = new Page(surroundings.screen());
    new NetworkText(page, opened.network())
        .write(opened.from(), all, opened.facts().isEmpty(), exact);
    page.printOn(surroundings.out());
  }
}
