package org.faultwright.cli.text;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.function.DoubleFunction;
import org.faultwright.diagnosis.Answer;
import org.faultwright.pack.Pack;
import org.faultwright.planning.Plan;
import org.faultwright.planning.PlanNode.Ending;
import org.faultwright.planning.Spend;

/** A whole plan: what to expect, then its steps. */
public final class PlanText {

  private static final double HALF = 0.5;
  private static final double NINE_IN_TEN = 0.9;

  /** What happens in fewer cases is not worth a line. */
  private static final double RARE = 0.0005;

  private final Page page;
  private final Pack pack;

  /** Writes on the page about a device of the pack. */
  public PlanText(Page page, Pack pack) {
    this.page = page;
    this.pack = pack;
  }

  /** Writes the plan below what must be seen to first. */
  public void write(Answer answer, Plan plan) {
    Dangers.write(page, pack, answer);
    Foreword.write(page, pack, answer);
    if (!plan.asIfAgreed().isEmpty()) {
      page.heading("NOT AGREED YET");
      page.item(PlanWords.AS_IF_AGREED);
      plan.asIfAgreed().forEach(consent -> page.bullet(Wording.consent(pack, consent)));
    }
    page.heading("WHAT TO EXPECT");
    page.labelled("time", Ink.PLAIN, range(plan::hands, PlanWords::minutes, "hands on"));
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
    new PlanSteps(page, pack, PlanWalk.of(plan, pack)).write();
  }

  /** What is not exceeded in half of the cases, and in nine of ten, as far as that is known. */
  private static String range(
      DoubleFunction<OptionalDouble> atMost, DoubleFunction<String> shown, String of) {
    OptionalDouble half = atMost.apply(HALF);
    OptionalDouble most = atMost.apply(NINE_IN_TEN);
    if (half.isEmpty()) {
      return "not known: most cases are not followed to the end; see --seconds, --depth and"
          + " --least";
    }
    return "at most "
        + shown.apply(half.getAsDouble())
        + " in half of the cases"
        + (most.isPresent()
            ? ", " + shown.apply(most.getAsDouble()) + " in nine of ten"
            : "; too many of the rest are not followed to the end: see --seconds")
        + " ("
        + of
        + ")";
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
        parts.add(PlanWords.ending(e.getKey()) + " " + Figures.percent(e.getValue()));
      }
    }
    if (plan.pOpen() > RARE) {
      parts.add("not followed to the end " + Figures.percent(plan.pOpen()));
    }
    return String.join(", ", parts);
  }
}
