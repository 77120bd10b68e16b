package org.faultwright.cli.paper;

import java.util.List;
import java.util.Optional;
import org.faultwright.cli.text.Figures;
import org.faultwright.cli.text.Naming;
import org.faultwright.cli.text.PlanWalk;
import org.faultwright.cli.text.PlanWalk.Act;
import org.faultwright.cli.text.PlanWalk.Finish;
import org.faultwright.cli.text.PlanWalk.Unfollowed;
import org.faultwright.cli.text.PlanWalk.Way;
import org.faultwright.cli.text.PlanWords;
import org.faultwright.planning.PlanNode.Ending;

/** The places of a plan as boxes. Long words are cut; they stand in full beside the steps. */
final class PlanBoxes {

  private static final double PLAIN = 11.5;
  private static final double KIND = 12.5;

  private final PlanWalk walk;

  PlanBoxes(PlanWalk walk) {
    this.walk = walk;
  }

  /** Something to do, with all that must be known before it is begun. */
  Box act(Act act, Optional<Way> by) {
    Box.Lines body =
        new Box.Lines()
            .add(act.number() + "  " + act.kind(), KIND, true, 2)
            .add(Plain.of(act.title()), KIND, false, 4)
            .add(Plain.of(PlanWords.takes(act.spend())), PLAIN, false, 2);
    if (!act.turns().isEmpty()) {
      body.add("First: " + Plain.of(String.join(", then ", act.turns())), PLAIN, false, 5);
    }
    if (!act.cautions().isEmpty()) {
      List<String> letters =
          walk.cautions().stream().filter(act.cautions()::contains).map(walk::letter).toList();
      body.warn("CAUTION " + String.join(" ", letters), PLAIN, 3);
    }
    if (!act.limits().isEmpty()) {
      body.warn("AT MOST " + Plain.of(String.join("; ", act.limits())), PLAIN, 3);
    }
    act.proofs().stream()
        .limit(2)
        .forEach(proof -> body.add("Prove: " + Plain.of(proof), PLAIN, false, 4));
    return new Box(outline(act), head(by), body.lines());
  }

  /** Something to do that is drawn in another part. */
  Box elsewhere(Act act, Way by, int part) {
    Box.Lines body =
        new Box.Lines()
            .add("Goes on in part " + part, KIND, true, 1)
            .add(act.number() + " " + act.kind() + ": " + Plain.of(act.title()), PLAIN, false, 3);
    return new Box(Box.Outline.ELSEWHERE, head(Optional.of(by)), body.lines());
  }

  /** The results of an act that have no room in its part. */
  Box more(int results, int part) {
    Box.Lines body =
        new Box.Lines()
            .add("Goes on in part " + part, KIND, true, 1)
            .add(results + (results == 1 ? " more result" : " more results"), PLAIN, false, 1);
    return new Box(Box.Outline.ELSEWHERE, List.of(), body.lines());
  }

  /** An end, or where the plan is not followed further. */
  Box leaf(Way way) {
    Box.Lines body = new Box.Lines();
    if (way.to() instanceof Finish end) {
      body.add("END: " + PlanWords.finish(end), KIND, true, 2);
      String cases = Figures.percent(end.p()) + " of all cases";
      String back =
          end.ending() == Ending.REPAIRED
              ? "; of these " + Figures.percent(end.pComeback()) + " come back"
              : "";
      body.add(Plain.of(cases + back), PLAIN, false, 2);
      return new Box(Box.Outline.END, head(Optional.of(way)), body.lines());
    }
    Unfollowed open = (Unfollowed) way.to();
    body.add(
        open.next().map(next -> "GO ON WITH " + Plain.of(next)).orElse("END THE JOB"),
        PLAIN,
        false,
        4);
    body.add(
        Plain.of("Not followed: " + Figures.percent(open.p()) + " of all cases"), PLAIN, false, 2);
    return new Box(Box.Outline.OPEN, head(Optional.of(way)), body.lines());
  }

  private List<Box.Line> head(Optional<Way> by) {
    Box.Lines lines = new Box.Lines();
    by.ifPresent(
        way -> {
          String seen = Naming.sentence(Plain.of(way.seen()));
          lines.add(seen + ": " + Plain.of(Figures.percent(way.p())), PLAIN, true, 4);
          way.holds().stream()
              .limit(2)
              .forEach(says -> lines.warn("HOLD " + Plain.of(says), PLAIN, 8));
        });
    return lines.lines();
  }

  private static Box.Outline outline(Act act) {
    return act.kind().equals("REPAIR") ? Box.Outline.REPAIR : Box.Outline.TEST;
  }
}
