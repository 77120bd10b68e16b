package org.faultwright.cli.text;

import java.util.List;
import java.util.stream.Collectors;
import org.faultwright.diagnosis.Answer;
import org.faultwright.diagnosis.NoPlan;
import org.faultwright.explanation.FactWords;
import org.faultwright.pack.Pack;
import org.faultwright.pack.StepId;
import org.faultwright.planning.PlanNode;
import org.faultwright.rules.Blocked;

/** Why there is no step to plan, how the job would end, and what would open a step. */
public final class NoPlanText {

  /** What stands further down would open less. */
  private static final int MOST_OBSTACLES = 6;

  private static final int MOST_STEPS = 3;

  /** A device that comes back more often than this is not done. */
  private static final double LIKELY = 0.5;

  private final Page page;
  private final Pack pack;
  private final Answer answer;

  /** Writes on the page about the case of an answer. */
  public NoPlanText(Page page, Pack pack, Answer answer) {
    this.page = page;
    this.pack = pack;
    this.answer = answer;
  }

  /** Writes the reason and the ways out. */
  public void write(NoPlan none) {
    Dangers.write(page, pack, answer);
    if (none instanceof NoPlan.FactsImpossible impossible) {
      FactsAside.writeImpossible(page, pack, answer, impossible.clash());
      return;
    }
    page.heading("NO STEP TO PLAN");
    page.labelled("why", Ink.PLAIN, why(none));
    none.end().ifPresent(end -> page.labelled("end", Ink.PLAIN, end(end)));
    if (none instanceof NoPlan.NothingOpen nothing) {
      write("WHAT STANDS IN THE WAY", nothing.obstacles());
    } else if (none instanceof NoPlan.NotWorthIt open) {
      write("IT WOULD PAY IF THE CUSTOMER AGREED", open.obstacles());
    } else {
      page.labelled("way out", Ink.PLAIN, wayOut(none));
    }
  }

  private String why(NoPlan none) {
    if (none instanceof NoPlan.TooWide wide) {
      return "too many possibilities: an exact answer would take about "
          + Figures.times(wide.predicted() / wide.budget())
          + " as much work as is allowed";
    } else if (none instanceof NoPlan.NothingReported) {
      return "no complaint has been told, so that nothing is known to be wrong";
    } else if (none instanceof NoPlan.FunctionBack) {
      return "no function is lost any more";
    } else if (none instanceof NoPlan.NoRepair) {
      return "the pack has no repair for any cause that may be there";
    } else if (none instanceof NoPlan.AboveCeiling above) {
      return "each repair that is open costs more than the "
          + Figures.money(above.ceiling())
          + " that the customer will pay"
          + (above.refused() ? ", and the customer has refused to pay more" : "");
    } else if (none instanceof NoPlan.NotWorthIt open) {
      return "to end the job is cheaper than to go on: with "
          + Naming.step(pack, open.cheapest())
          + ", the cheapest way, it is expected to cost "
          + Figures.money(open.costOfGoingOn());
    }
    return "no repair that may help can be done now, nor a test that would open one";
  }

  private static String end(PlanNode.End end) {
    String cost = Figures.money(end.expectedCost()) + " expected";
    return switch (end.ending()) {
      case REPAIRED ->
          "close up and hand over; it comes back in "
              + Figures.percent(end.pComeback())
              + " of cases ("
              + cost
              + ")";
      case SENT_ON -> "send on, " + cost + ", closing up included";
      case RETURNED -> "return as it is, " + cost + " with the value that is lost";
    };
  }

  private String wayOut(NoPlan none) {
    if (none instanceof NoPlan.TooWide) {
      return "take out facts that say little";
    } else if (none instanceof NoPlan.NothingReported) {
      return "tell what the customer complains of: "
          + pack.complaints().keySet().stream()
              .map(c -> "complaint: " + c.value())
              .collect(Collectors.joining(", "));
    } else if (none instanceof NoPlan.FunctionBack) {
      return none.end().orElseThrow().pComeback() > LIKELY
          ? "it will likely be lost again: 'diagnose' says where to look before it is handed over"
          : "tell a function test that fails, where it is lost again";
    } else if (none instanceof NoPlan.AboveCeiling above) {
      return (above.refused() ? "only if the customer thinks better of it" : "ask the customer")
          + ": a ceiling of "
          + Figures.money(Math.ceil(above.cost()))
          + " opens "
          + Naming.step(pack, above.cheapest())
          + "; or tell consent: above-ceiling";
    }
    return "send it on, or write a step for these causes into the pack";
  }

  private void write(String heading, List<NoPlan.Obstacle> obstacles) {
    if (obstacles.isEmpty()) {
      return;
    }
    page.heading(heading);
    int shown = Math.min(MOST_OBSTACLES, obstacles.size());
    obstacles.subList(0, shown).forEach(o -> page.bullet(words(o)));
    if (shown < obstacles.size()) {
      page.item((obstacles.size() - shown) + " more: 'diagnose --all' lists them");
    }
  }

  private String words(NoPlan.Obstacle obstacle) {
    Blocked blocked = obstacle.blocked();
    boolean saysWayOut = blocked.kind() == Blocked.Kind.LACKS_CONSENT;
    boolean isWayOut = blocked.kind() == Blocked.Kind.CONDITION_NOT_MET;
    StringBuilder text = new StringBuilder();
    if (!saysWayOut) {
      text.append(sentence(blocked.words()));
      obstacle.turn().ifPresent(t -> text.append(" Held: " + FactWords.of(pack, t) + "."));
    }
    if (!isWayOut && !blocked.wayOut().isEmpty()) {
      text.append(saysWayOut ? "" : " Way out: ");
      text.append(saysWayOut ? sentence(blocked.wayOut()) : Wording.plain(blocked.wayOut()) + ".");
    }
    String steps =
        obstacle.opens().isEmpty()
            ? " Stands, with other things, before " + steps(obstacle.steps())
            : " Opens " + steps(obstacle.opens());
    return text + steps + ".";
  }

  private static String sentence(String words) {
    String whole = Dangers.sentence(Wording.plain(words));
    return whole.endsWith(".") ? whole : whole + ".";
  }

  private String steps(List<StepId> steps) {
    int shown = Math.min(MOST_STEPS, steps.size());
    String first =
        steps.subList(0, shown).stream()
            .map(s -> Naming.step(pack, s))
            .collect(Collectors.joining("; "));
    return shown == steps.size() ? first : first + "; and " + (steps.size() - shown) + " more";
  }
}
