package org.faultwright.cli.text;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.faultwright.faulttree.CircuitResult;
import org.faultwright.faulttree.CutSetResult;
import org.faultwright.faulttree.CutSets;
import org.faultwright.faulttree.EventName;
import org.faultwright.faulttree.FaultTree;
import org.faultwright.faulttree.Importance;
import org.faultwright.faulttree.PackTree.LeftOut;
import org.faultwright.faulttree.PrimeImplicants;
import org.faultwright.faulttree.TreeFigures;
import org.faultwright.faulttree.TreeNode;

/** Figures of a fault tree as tables that fit the screen. */
public final class TreeText {

  private static final int COLUMN = 8;
  private static final List<String> MEASURES =
      List.of("p", "given", "Birnb", "crit", "FV", "RAW", "RRW");

  private final Page page;
  private final FaultTree tree;
  private final TreeFigures figures;
  private final int most;

  /**
   * Figures to be laid out.
   *
   * @param most the most events that are listed
   */
  public TreeText(Page page, FaultTree tree, TreeFigures figures, int most) {
    this.page = page;
    this.tree = tree;
    this.figures = figures;
    this.most = most;
  }

  /**
   * Writes all of it.
   *
   * @param leavesOut of a pack: what figures of independent events leave out
   */
  public void write(String title, String from, Optional<Set<LeftOut>> leavesOut) {
    page.heading("TREE " + figures.top() + (title.isEmpty() ? "" : ": " + title));
    page.item(from);
    page.item(shape());
    probability(leavesOut.orElse(Set.of()));
    if (figures.cutSets() instanceof CutSets cutSets) {
      cutSets(cutSets);
    } else {
      page.heading("MINIMAL CUT SETS");
      page.item(
          "too many: their diagram would have more than "
              + ((CutSetResult.OverBudget) figures.cutSets()).allowedNodes()
              + " nodes");
    }
    if (!figures.isCoherent()) {
      primeImplicants();
    }
    importances();
  }

  private String shape() {
    long gates = tree.nodes().values().stream().filter(n -> n instanceof TreeNode.Gate).count();
    String against =
        figures.importances().stream()
            .filter(
                i ->
                    i.bearing() == Importance.Bearing.AGAINST
                        || i.bearing() == Importance.Bearing.BOTH)
            .map(i -> i.event().value())
            .limit(5)
            .collect(Collectors.joining(", "));
    return counted(figures.importances().size(), "basic event")
        + " below it, "
        + counted(gates, "gate")
        + " in the tree; "
        + (figures.isCoherent()
            ? "coherent"
            : "not coherent: these can keep it from happening: " + against);
  }

  private static String counted(long number, String word) {
    return number + " " + word + (number == 1 ? "" : "s");
  }

  private void probability(Set<LeftOut> leavesOut) {
    page.heading("PROBABILITY");
    String independent = leavesOut.isEmpty() ? "" : "; events taken as independent";
    if (figures.circuit() instanceof CircuitResult.Exact exact) {
      line(digits(exact.pTop()), "exact, by the circuit" + taken(leavesOut));
    } else {
      page.item("the circuit would be too large");
    }
    line(digits(figures.pTop()), "exact, by a decision diagram" + independent);
    if (figures.cutSets() instanceof CutSets cutSets) {
      cutSets
          .minCutUpperBound()
          .ifPresent(b -> line(digits(b), "min-cut upper bound" + independent));
      line(digits(cutSets.pSum()), "rare-event sum, an upper bound" + independent);
    }
  }

  private static String taken(Set<LeftOut> leavesOut) {
    List<String> words = new ArrayList<>();
    if (leavesOut.contains(LeftOut.HISTORY)) {
      words.add("shared history");
    }
    if (leavesOut.contains(LeftOut.GROUPS)) {
      words.add("groups of causes");
    }
    return words.isEmpty() ? "" : "; with " + String.join(" and ", words);
  }

  private void line(String number, String words) {
    page.hanging("  " + pad(number, 13), Ink.STRONG, words, Ink.PLAIN);
  }

  private void cutSets(CutSets cutSets) {
    page.heading("MINIMAL CUT SETS: " + count(cutSets.count()) + orders(cutSets));
    if (!cutSets.listed().isEmpty()) {
      page.hanging(
          "  " + pad("p", COLUMN + 1) + pad("share", COLUMN), Ink.PLAIN, "events", Ink.PLAIN);
    }
    for (CutSets.CutSet set : cutSets.listed()) {
      String share = figures.pTop() > 0 ? shortly(set.p() / figures.pTop()) : "";
      row(set.p(), share, names(set.events()));
    }
    CutSets.LeftOut left = cutSets.leftOut();
    left("of more events than asked for", left.byOrder());
    left("less likely than asked for", left.byProbability());
    left("not listed", left.byNumber());
    if (cutSets.impossible() > 0) {
      page.item(count(cutSets.impossible()) + " more are impossible: two causes of one group");
    }
  }

  private void row(double p, String share, String names) {
    page.hanging(
        "  " + pad(shortly(p), COLUMN + 1) + pad(share, COLUMN), Ink.PLAIN, names, Ink.PLAIN);
  }

  private static String orders(CutSets cutSets) {
    String orders =
        cutSets.byOrder().entrySet().stream()
            .limit(6)
            .map(e -> count(e.getValue()) + " of order " + e.getKey())
            .collect(Collectors.joining(", "));
    return orders.isEmpty()
        ? ""
        : " (" + orders + (cutSets.byOrder().size() > 6 ? ", ..." : "") + ")";
  }

  private void left(String words, CutSets.LeftOut.Part part) {
    if (part.count() > 0) {
      page.item(count(part.count()) + " " + words + ", together " + shortly(part.pSum()));
    }
  }

  private void primeImplicants() {
    if (figures.primeImplicants().isEmpty()) {
      page.heading("PRIME IMPLICANTS");
      page.item("too many to be found");
      return;
    }
    PrimeImplicants all = figures.primeImplicants().get();
    page.heading("PRIME IMPLICANTS: " + count(all.count()));
    for (PrimeImplicants.Implicant i : all.listed()) {
      List<String> literals = new ArrayList<>(i.happen().stream().map(EventName::value).toList());
      i.absent().forEach(e -> literals.add("not " + e));
      row(i.p(), "", literals.isEmpty() ? "(certain)" : String.join(", ", literals));
    }
    if (all.listed().size() < all.count()) {
      page.item(count(all.count() - all.listed().size()) + " not listed");
    }
  }

  private static String names(List<EventName> events) {
    return events.isEmpty()
        ? "(certain)"
        : events.stream().map(EventName::value).collect(Collectors.joining(", "));
  }

  private void importances() {
    List<Importance> sorted =
        figures.importances().stream()
            .sorted(
                Comparator.comparingDouble(
                    i ->
                        -Math.abs(
                            i.relative()
                                .map(Importance.Relative::criticality)
                                .orElse(i.birnbaum()))))
            .toList();
    if (sorted.isEmpty() || most == 0) {
      return;
    }
    page.heading("IMPORTANCE");
    int name = page.screen().width() - 2 - MEASURES.size() * COLUMN;
    boolean narrow = page.screen().isNarrow();
    if (!narrow) {
      page.hanging("  " + pad("event", name) + right(MEASURES), Ink.PLAIN, "", Ink.PLAIN);
    }
    List<Importance> shown = sorted.subList(0, Math.min(most, sorted.size()));
    for (Importance i : shown) {
      importance(i, name, narrow);
    }
    if (shown.size() < sorted.size()) {
      page.item(sorted.size() - shown.size() + " not listed; all with --most " + sorted.size());
    }
    page.gap();
    page.item(
        "given: P(event | top). Birnb: Birnbaum. crit: criticality. FV: Fussell-Vesely, by cut"
            + " sets. RAW, RRW: risk achievement, reduction worth.");
  }

  private void importance(Importance i, int name, boolean narrow) {
    List<String> values = values(i);
    String event = i.event().value();
    if (narrow) {
      page.hanging("  ", Ink.PLAIN, event, Ink.STRONG);
      List<String> pairs = new ArrayList<>();
      for (int m = 0; m < values.size(); m++) {
        pairs.add(MEASURES.get(m) + " " + values.get(m));
      }
      page.hanging("    ", Ink.PLAIN, String.join(", ", pairs), Ink.PLAIN);
    } else if (Letters.columns(event) < name) {
      page.hanging("  " + pad(event, name) + right(values), Ink.PLAIN, "", Ink.PLAIN);
    } else {
      page.hanging("  " + event, Ink.PLAIN, "", Ink.PLAIN);
      page.hanging("  " + pad("", name) + right(values), Ink.PLAIN, "", Ink.PLAIN);
    }
  }

  private List<String> values(Importance i) {
    List<String> values = new ArrayList<>(List.of(shortly(i.p())));
    Optional<Importance.Relative> r = i.relative();
    values.add(r.map(x -> shortly(given(i.event(), x))).orElse("-"));
    values.add(shortly(i.birnbaum()));
    values.add(r.map(x -> shortly(x.criticality())).orElse("-"));
    values.add(
        r.filter(x -> x.cutSets().isPresent())
            .map(x -> shortly(x.cutSets().getAsDouble()))
            .orElse("-"));
    values.add(r.map(x -> shortly(x.achievementWorth())).orElse("-"));
    values.add(r.map(x -> shortly(x.reductionWorth())).orElse("-"));
    return values;
  }

  /** As the circuit has it, with all dependence, where there is one. */
  private double given(EventName event, Importance.Relative relative) {
    return figures.circuit() instanceof CircuitResult.Exact exact
        ? exact.pGivenTop().getOrDefault(event, relative.diagnostic())
        : relative.diagnostic();
  }

  private static String right(List<String> values) {
    return values.stream()
        .map(v -> " ".repeat(Math.max(0, COLUMN - v.length())) + v)
        .collect(Collectors.joining());
  }

  private static String pad(String text, int columns) {
    return text + " ".repeat(Math.max(0, columns - Letters.columns(text)));
  }

  /** How many: a plain number as long as it is exact. */
  static String count(double count) {
    return count < 1e15 ? String.format(Locale.ROOT, "%.0f", count) : shortly(count);
  }

  /** A number in at most seven signs, with two or three digits that count. */
  static String shortly(double value) {
    if (value == Double.POSITIVE_INFINITY) {
      return "inf";
    }
    double size = Math.abs(value);
    if (size == 0) {
      return "0";
    }
    if (size >= 1e-3 && size < 9995) {
      return plain(value, 3);
    }
    boolean longExponent = size < 1e-9 || size >= 1e10;
    return scientific(value, longExponent || value < 0 ? 2 : 3);
  }

  /** A number with six digits that count. */
  static String digits(double value) {
    double size = Math.abs(value);
    return size == 0 || size >= 1e-3 && size < 1e6 ? plain(value, 6) : scientific(value, 6);
  }

  private static String plain(double value, int digits) {
    BigDecimal rounded =
        new BigDecimal(value)
            .round(new MathContext(digits, RoundingMode.HALF_EVEN))
            .stripTrailingZeros();
    return rounded.signum() == 0 ? "0" : rounded.toPlainString();
  }

  static String scientific(double value, int digits) {
    String text = String.format(Locale.ROOT, "%." + (digits - 1) + "e", value);
    String[] parts = text.split("e");
    String mantissa = parts[0].contains(".") ? parts[0].replaceAll("\\.?0+$", "") : parts[0];
    return mantissa + "e" + Integer.parseInt(parts[1]);
  }
}
