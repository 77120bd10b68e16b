package org.faultwright.cli.text;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.function.DoubleFunction;
import org.faultwright.explanation.FactWords;
import org.faultwright.explanation.SeenWords;
import org.faultwright.pack.BenchState;
import org.faultwright.pack.Pack;
import org.faultwright.planning.Plan;
import org.faultwright.planning.PlanNode;
import org.faultwright.planning.PlanNode.Ending;
import org.faultwright.planning.Spend;

/** A whole plan: what to expect, then the tree, a step to a line and deeper for what follows. */
public final class PlanText {

  private static final double HALF = 0.5;
  private static final double NINE_IN_TEN = 0.9;

  /** What happens in fewer cases is not worth a line. */
  private static final double RARE = 0.0005;

  private static final String INDENT = "  ";

  private final Page page;
  private final Pack pack;

  /** Writes on the page about a device of the pack. */
  public PlanText(Page page, Pack pack) {
    this.page = page;
    this.pack = pack;
  }

  /** Writes the plan. */
  public void write(Plan plan) {
    page.heading("WHAT TO EXPECT");
    page.labelled("time", Ink.PLAIN, range(plan::hands, PlanText::minutes, "hands on"));
    page.labelled("price", Ink.PLAIN, range(plan::price, Figures::money, "time, parts and fees"));
    page.labelled("ends", Ink.PLAIN, endings(plan));
    Spend expected = plan.expected();
    page.labelled(
        "risk",
        Ink.PLAIN,
        Figures.money(expected.risk())
            + ": harm and comebacks, each by how likely it is; comes back in "
            + Figures.percent(plan.pComeback())
            + " of cases");
    page.labelled("in all", Ink.PLAIN, inAll(plan));
    if (plan.pLeftOut() > RARE) {
      page.labelled(
          "left out",
          Ink.PLAIN,
          "rare combinations of causes, " + Figures.percent(plan.pLeftOut()) + " of cases");
    }
    page.heading("PLAN");
    write(plan.root(), 1, 0, "");
  }

  /** What is not exceeded in half of the cases, and in nine of ten, as far as that is known. */
  private static String range(
      DoubleFunction<OptionalDouble> atMost, DoubleFunction<String> shown, String of) {
    OptionalDouble half = atMost.apply(HALF);
    OptionalDouble most = atMost.apply(NINE_IN_TEN);
    if (half.isEmpty()) {
      return "not known: most cases are not followed to the end; see --depth and --least";
    }
    return "at most "
        + shown.apply(half.getAsDouble())
        + " in half of the cases"
        + (most.isPresent()
            ? ", " + shown.apply(most.getAsDouble()) + " in nine of ten"
            : "; more of the rest is not followed to the end")
        + " ("
        + of
        + ")";
  }

  private static String minutes(double minutes) {
    return Figures.time(Duration.ofMinutes(Math.round(minutes)));
  }

  private String inAll(Plan plan) {
    String cost =
        Figures.money(plan.expectedCost())
            + " expected, risk included, in "
            + Math.round(10 * plan.expectedSteps()) / 10.0
            + " steps; ";
    return plan.isOptimal()
        ? cost + "no plan is cheaper"
        : cost
            + (plan.atLeast() > 0
                ? "no plan is below " + Figures.money(plan.atLeast())
                : "how much a better plan could save is not known")
            + " ("
            + plan.stepsAhead()
            + (plan.stepsAhead() == 1 ? " step" : " steps")
            + " ahead)";
  }

  private static String endings(Plan plan) {
    List<String> parts = new ArrayList<>();
    for (Map.Entry<Ending, Double> e : plan.endings().entrySet()) {
      if (e.getValue() > RARE) {
        parts.add(words(e.getKey()) + " " + Figures.percent(e.getValue()));
      }
    }
    if (plan.pOpen() > RARE) {
      parts.add("not followed to the end " + Figures.percent(plan.pOpen()));
    }
    return String.join(", ", parts);
  }

  private static String words(Ending ending) {
    return switch (ending) {
      case REPAIRED -> "repaired";
      case SENT_ON -> "sent on";
      case RETURNED -> "returned as it is";
    };
  }

  private void write(PlanNode node, double p, int depth, String when) {
    if (node instanceof PlanNode.DoTest test) {
      line(
          depth, when + Naming.step(pack, test.step()) + takes(test.spend()) + turns(test.turns()));
      for (PlanNode.Branch b : test.branches()) {
        write(
            b.then(), p * b.p(), depth + 1, when(b.p(), SeenWords.of(pack, test.step(), b.seen())));
      }
    } else if (node instanceof PlanNode.DoRepair repair) {
      line(
          depth,
          when + Naming.step(pack, repair.step()) + takes(repair.spend()) + turns(repair.turns()));
      write(
          repair.ifPassed(), p * repair.pPass(), depth + 1, when(repair.pPass(), "function back"));
      if (repair.pPass() < 1) {
        write(
            repair.ifFailed(),
            p * (1 - repair.pPass()),
            depth + 1,
            when(1 - repair.pPass(), "still lost"));
      }
    } else if (node instanceof PlanNode.End end) {
      line(
          depth, when + (end.ending() == Ending.REPAIRED ? "close up, done" : words(end.ending())));
    } else if (node instanceof PlanNode.AndSoOn more) {
      line(
          depth,
          when
              + "and so on: "
              + Figures.percent(p)
              + " of cases"
              + more.next().map(s -> "; next " + Naming.step(pack, s)).orElse(""));
    }
  }

  private void line(int depth, String text) {
    page.hanging(INDENT.repeat(depth + 1), Ink.PLAIN, text, Ink.PLAIN);
  }

  private static String when(double p, String seen) {
    return Figures.percent(p) + " " + seen + ": ";
  }

  private static String takes(Spend spend) {
    String time = minutes(spend.hands());
    String waiting = spend.waiting() >= 1 ? " and " + minutes(spend.waiting()) + " waiting" : "";
    String money = spend.money() > 0 ? ", " + Figures.money(spend.money()) : "";
    return " (" + time + waiting + money + ")";
  }

  private String turns(List<BenchState> turns) {
    if (turns.isEmpty()) {
      return "";
    }
    return "; first " + String.join(", ", turns.stream().map(t -> FactWords.of(pack, t)).toList());
  }
}
