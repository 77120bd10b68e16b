package org.faultwright.cli.paper;

import java.time.ZoneId;
import java.time.ZonedDateTime;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.stream.Stream;
import org.faultwright.cli.text.PlanExamples;
import org.faultwright.diagnosis.Answer;
import org.faultwright.pack.Pack;
import org.faultwright.planning.Plan;
import org.faultwright.planning.PlanComparison;
import org.faultwright.planning.PlanComparison.Row;
import org.faultwright.planning.PlanComparison.Way;
import org.faultwright.planning.PlanLimits;
import org.faultwright.planning.PlanNode;
import org.faultwright.planning.PlanNode.Ending;
import org.faultwright.planning.Quote;
import org.faultwright.planning.RepairOrNot;
import org.faultwright.planning.RepairOrNot.Turning;
import org.faultwright.planning.Shop;
import org.faultwright.planning.Spend;

/** Papers made by hand. */
final class PaperExamples {

  private PaperExamples() {}

  static PlanPaper paper() {
    return paper(PlanExamples.pack(), PlanExamples.answer());
  }

  /** Its numbers mean nothing. */
  private static RepairOrNot worth() {
    Quote quote =
        new Quote(
            26.5,
            48,
            30,
            0.72,
            OptionalDouble.of(40),
            0.2,
            Set.of(PlanExamples.pack().parts().keySet().iterator().next()));
    return new RepairOrNot(
        new Turning.From(45, false), OptionalDouble.of(120), 31.5, OptionalDouble.of(118), quote);
  }

  private static PlanComparison compared() {
    return new PlanComparison(
        Stream.of(Way.values())
            .map(
                way ->
                    new Row(
                        way,
                        new Plan(
                            new PlanNode.End(
                                Ending.REPAIRED,
                                new Spend(20 + way.ordinal(), 0, 12, 0),
                                32 + way.ordinal(),
                                0.01),
                            Shop.ORDINARY,
                            0,
                            0,
                            0),
                        0,
                        0,
                        0,
                        Optional.empty()))
            .toList());
  }

  static PlanPaper paper(Pack pack, Answer answer) {
    return new PlanPaper(
        pack,
        answer,
        PlanExamples.plan(),
        PlanLimits.ORDINARY,
        20,
        Optional.of(worth()),
        Optional.of(compared()),
        Optional.of("shop.yaml"),
        ZonedDateTime.of(2026, 3, 14, 9, 30, 0, 0, ZoneId.of("UTC")),
        "faultwright 0");
  }
}
