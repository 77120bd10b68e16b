package org.faultwright.cli.text;

import java.util.HashMap;
import java.util.Map;
import org.faultwright.cli.text.PlanWalk.Act;
import org.faultwright.cli.text.PlanWalk.Way;
import org.faultwright.pack.CautionId;
import org.faultwright.pack.Pack;

/**
 * The steps of a plan, one below the other, each with its number: a step fits on a small screen and
 * says where to go on, however deep in the plan it stands.
 */
final class PlanSteps {

  private final Page page;
  private final Pack pack;
  private final PlanWalk walk;

  PlanSteps(Page page, Pack pack, PlanWalk walk) {
    this.page = page;
    this.pack = pack;
    this.walk = walk;
  }

  void write() {
    Map<Integer, String> arrivals = PlanWords.arrivals(walk);
    Map<CautionId, Integer> said = new HashMap<>();
    if (walk.acts().isEmpty()) {
      page.item(Dangers.sentence(PlanWords.leads(walk.root())));
    }
    for (Act act : walk.acts()) {
      if (act.number() > 1) {
        page.gap();
      }
      String number = "%3d  ".formatted(act.number());
      page.hanging(number, Ink.STRONG, act.headline(), Ink.STRONG);
      if (arrivals.containsKey(act.number())) {
        page.labelled(
            "when",
            Ink.PLAIN,
            arrivals.get(act.number()) + "; " + Figures.percent(act.p()) + " of all cases");
      }
      page.labelled("time", Ink.PLAIN, PlanWords.takes(act.spend()));
      if (!act.turns().isEmpty()) {
        page.labelled("first", Ink.STRONG, String.join(", then ", act.turns()));
      }
      for (CautionId caution : act.cautions()) {
        String text = pack.cautions().get(caution).text();
        Integer before = said.putIfAbsent(caution, act.number());
        page.labelled(
            "CAUTION",
            Ink.CAUTION,
            before == null ? text : Wording.name(text) + " (in full at " + before + ")");
      }
      act.limits().forEach(limit -> page.labelled("AT MOST", Ink.CAUTION, limit));
      act.proofs().forEach(proof -> page.labelled("prove", Ink.PLAIN, proof));
      for (Way way : act.ways()) {
        page.hanging("  " + page.sign("\u2192", "->") + " ", Ink.STRONG, words(way), Ink.PLAIN);
        way.holds().forEach(says -> page.hanging("    HOLD ", Ink.DANGER, says, Ink.STRONG));
      }
    }
  }

  private static String words(Way way) {
    return way.seen() + ", " + Figures.percent(way.p()) + ": " + PlanWords.leads(way.to());
  }
}
