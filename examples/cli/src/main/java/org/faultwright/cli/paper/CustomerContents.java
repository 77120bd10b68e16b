package org.faultwright.cli.paper;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.function.DoubleFunction;
import java.util.stream.Collectors;
import org.faultwright.casefile.Intake;
import org.faultwright.cli.text.Figures;
import org.faultwright.cli.text.PlanWords;
import org.faultwright.explanation.FactWords;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Part;
import org.faultwright.planning.Plan;
import org.faultwright.planning.PlanNode;
import org.faultwright.planning.PlanNode.Ending;
import org.faultwright.planning.Quote;
import org.faultwright.planning.RepairOrNot;
import org.faultwright.planning.RepairOrNot.Turning;
import org.faultwright.planning.Shop;
import org.faultwright.rules.Standing;

/** The sheet for the customer: ranges, ends, and what all of it rests on. */
final class CustomerContents {

  private static final double HALF = 0.5;
  private static final double NINE_IN_TEN = 0.9;

  /** What happens in fewer cases is not worth a line. */
  private static final double RARE = 0.0005;

  private final PlanPaper paper;
  private final Plan plan;
  private final Pack pack;
  private final Intake intake;
  private final CustomerFigures figures;
  private final Optional<Quote> quote;
  private final List<Block> blocks = new ArrayList<>();

  private CustomerContents(PlanPaper paper) {
    this.paper = paper;
    this.plan = paper.plan();
    this.pack = paper.pack();
    this.intake = paper.answer().caseFile().intake();
    this.figures = new CustomerFigures(plan);
    this.quote = paper.repairOrNot().map(RepairOrNot::quote);
  }

  static List<Block> of(PlanPaper paper) {
    CustomerContents contents = new CustomerContents(paper);
    contents.addRange();
    contents.addEndings();
    contents.addAgreement();
    contents.addBasis();
    return contents.blocks;
  }

  /** Time and ends in short, for the bench. */
  static List<Block.Entry> expectations(PlanPaper paper) {
    CustomerContents contents = new CustomerContents(paper);
    List<String> ends = new ArrayList<>();
    paper
        .plan()
        .endings()
        .forEach(
            (ending, p) -> {
              if (p > RARE) {
                ends.add(PlanWords.ending(ending) + " " + Figures.percent(Math.min(1, p)));
              }
            });
    if (paper.plan().pOpen() > RARE) {
      ends.add("not followed to the end " + Figures.percent(Math.min(1, paper.plan().pOpen())));
    }
    return List.of(
        entry(
            "Hands on",
            cell(contents.figures.hands(HALF), PlanWords::minutes)
                + " in half of the cases, "
                + cell(contents.figures.hands(NINE_IN_TEN), PlanWords::minutes)
                + " in nine of ten"),
        entry("Ends", String.join(", ", ends)));
  }

  private void addRange() {
    blocks.add(new Block.Heading(2, "For the customer"));
    blocks.add(
        new Block.Paragraph(
            pack.title()
                + (pack.invented() ? " (invented)" : "")
                + ", "
                + paper.answer().caseFile().name()
                + ". Made "
                + Contents.made(paper)
                + "."));
    blocks.add(
        new Block.Paragraph(
            "An estimate and no fixed price: what it takes depends on what is found on the way."));
    blocks.add(
        new Block.Table(
            List.of("What it may take", "in half of such jobs", "in nine of ten"),
            List.of(
                row("Work on the device", figures::hands, PlanWords::minutes),
                row("The same with waiting", figures::bench, PlanWords::minutes),
                row("Price", this::price, Figures::money))));
    blocks.add(new Block.Paragraph(priceBasis()));
    paysFrom().ifPresent(text -> blocks.add(new Block.Paragraph(text)));
  }

  /** From a quote, which knows all cases to their ends; else as far as the plan is followed. */
  private OptionalDouble price(double p) {
    return quote
        .map(q -> OptionalDouble.of(p == HALF ? q.half() : q.nineInTen()))
        .orElseGet(() -> figures.price(p));
  }

  private static List<String> row(
      String label, DoubleFunction<OptionalDouble> atMost, DoubleFunction<String> shown) {
    return List.of(label, cell(atMost.apply(HALF), shown), cell(atMost.apply(NINE_IN_TEN), shown));
  }

  private static String cell(OptionalDouble most, DoubleFunction<String> shown) {
    return most.isPresent() ? "at most " + shown.apply(most.getAsDouble()) : "not known";
  }

  private String priceBasis() {
    Shop shop = plan.shop();
    String rates =
        "The price has the work in it ("
            + rate(shop.rate())
            + " a minute, "
            + rate(shop.waitRate())
            + " a minute of waiting), parts, and the fee of sending on ("
            + Figures.money(shop.sendOnFee())
            + ") where it comes to that; in the shop's currency, with no tax added.";
    String assumed =
        quote
            .map(
                q -> q.assumedParts().stream().map(part -> pack.parts().get(part).title()).toList())
            .orElseGet(() -> List.copyOf(assumedParts()))
            .stream()
            .collect(Collectors.joining(", "));
    return rates
        + (paper.shopFile().isEmpty()
            ? " No rates of the shop were given: these are assumed, and not yet a quote to hand"
                + " out."
            : "")
        + (assumed.isEmpty()
            ? ""
            : " Of these parts nobody states a price, and "
                + Figures.money(shop.partPrice())
                + " is assumed: "
                + assumed
                + ".");
  }

  /** A rate as it was stated: a small one is not rounded to nothing. */
  private static String rate(double rate) {
    return BigDecimal.valueOf(rate).stripTrailingZeros().toPlainString();
  }

  private Set<String> assumedParts() {
    Set<String> found = new LinkedHashSet<>();
    findAssumed(plan.root(), found);
    return found;
  }

  private void findAssumed(PlanNode node, Set<String> found) {
    if (node instanceof PlanNode.DoTest test) {
      test.branches().forEach(b -> findAssumed(b.then(), found));
    } else if (node instanceof PlanNode.DoRepair repair) {
      pack.steps()
          .get(repair.step())
          .swap()
          .ifPresent(
              swap -> {
                Part part = pack.parts().get(swap.part());
                if (plan.shop().statedPriceOf(part).isEmpty()) {
                  found.add(part.title());
                }
              });
      findAssumed(repair.ifPassed(), found);
      findAssumed(repair.ifFailed(), found);
    }
  }

  private void addEndings() {
    List<List<String>> rows = new ArrayList<>();
    for (Map.Entry<Ending, Double> e : plan.endings().entrySet()) {
      if (e.getValue() > RARE) {
        rows.add(List.of(words(e.getKey()), Figures.percent(Math.min(1, e.getValue()))));
      }
    }
    if (plan.pOpen() > RARE) {
      rows.add(
          List.of(
              "Not worked out: it goes on, and takes longer",
              Figures.percent(Math.min(1, plan.pOpen()))));
    }
    blocks.add(new Block.Table(List.of("How it may end", "of such jobs"), rows));
    if (plan.pComeback() > RARE) {
      blocks.add(
          new Block.Paragraph(
              "In "
                  + Figures.percent(Math.min(1, plan.pComeback()))
                  + " of such jobs the fault comes back after all, though every test was passed."));
    }
  }

  private static String words(Ending ending) {
    return switch (ending) {
      case REPAIRED -> "Repaired: it works again, and that was tested";
      case SENT_ON -> "Sent on to a shop that can do more";
      case RETURNED -> "Given back as it is: repair would cost more than it is worth";
    };
  }

  private void addAgreement() {
    if (!plan.asIfAgreed().isEmpty()) {
      blocks.add(
          new Block.Paragraph(
              "Not agreed yet, and needed for this: " + Contents.consents(paper) + "."));
    }
    intake.ceiling().ifPresent(most -> blocks.add(new Block.Paragraph(ceiling(most))));
    blocks.add(
        new Block.Blanks(
            List.of("Agreed up to", "Not wanted", "Date", "Customer", "For the shop")));
  }

  private String ceiling(double most) {
    double above = quote.map(Quote::pAboveCeiling).orElseGet(() -> figures.pAbove(most));
    return "Agreed so far: at most "
        + Figures.money(most)
        + ". It would take more in "
        + Figures.percent(Math.min(1, above))
        + " of such jobs"
        + (quote.isEmpty() && plan.pOpen() > RARE
            ? "; in " + Figures.percent(Math.min(1, plan.pOpen())) + " that is not worked out"
            : "")
        + ". Before it does, you are asked.";
  }

  /** From which value of the device on a repair pays, where that depends on it. */
  private Optional<String> paysFrom() {
    return paper
        .repairOrNot()
        .filter(asked -> asked.turning() instanceof Turning.From)
        .map(asked -> (Turning.From) asked.turning())
        .map(
            from ->
                "A repair pays where the device, once it works, is worth "
                    + (from.isExact() ? "" : "about ")
                    + Figures.money(from.deviceValue())
                    + " or more to you.");
  }

  private void addBasis() {
    blocks.add(new Block.Heading(2, "What this rests on"));
    List<Block.Entry> entries = new ArrayList<>();
    entries.add(
        entry(
            "Pack",
            pack.id()
                + " "
                + pack.version()
                + (pack.invented()
                    ? "; an invented device with invented numbers, for demonstration"
                    : "")));
    entries.add(
        entry("Shop", paper.shopFile().orElse("none given; a shop of which nothing is known")));
    entries.add(entry("How good", howGood()));
    entries.add(entry("Left out", leftOut()));
    entries.add(entry("Made by", paper.madeBy() + ", " + Contents.made(paper)));
    blocks.add(new Block.Entries(entries));
    blocks.add(new Block.Heading(3, "Facts told"));
    blocks.add(
        new Block.Items(paper.answer().findings().standings().stream().map(this::fact).toList()));
  }

  private String fact(Standing standing) {
    return FactWords.of(pack, standing.told().fact())
        + (standing.counts() ? "" : " (does not count)");
  }

  private String howGood() {
    String cost =
        "expected to cost "
            + Figures.money(plan.expectedCost())
            + " in "
            + Math.round(10 * plan.expectedSteps()) / 10.0
            + " steps, harm and comebacks included";
    if (plan.isOptimal()) {
      return cost + "; no plan is cheaper";
    }
    return cost
        + (plan.atLeast() > 0
            ? "; no plan is below " + Figures.money(plan.atLeast())
            : "; how much a better plan could save is not known")
        + " (looked "
        + plan.stepsAhead()
        + (plan.stepsAhead() == 1 ? " step" : " steps")
        + " ahead)";
  }

  private String leftOut() {
    List<String> parts = new ArrayList<>();
    if (plan.pLeftOut() > RARE) {
      parts.add("rare combinations of causes, " + Figures.percent(plan.pLeftOut()) + " of cases");
    }
    if (plan.pOpen() > RARE) {
      parts.add(
          "what follows after "
              + paper.limits().mostSteps()
              + " steps, branches that happen in less than "
              + Figures.percent(paper.limits().leastP())
              + " of cases, and what time did not suffice for: "
              + Figures.percent(Math.min(1, plan.pOpen()))
              + " of cases in all");
    }
    parts.add("the time that parts take to come, and other jobs on the bench");
    return String.join("; ", parts);
  }

  private static Block.Entry entry(String label, String text) {
    return new Block.Entry(label, text, false);
  }
}
