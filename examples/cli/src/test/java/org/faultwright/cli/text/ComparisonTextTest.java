package org.faultwright.cli.text;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.faultwright.planning.Plan;
import org.faultwright.planning.PlanComparison;
import org.faultwright.planning.PlanComparison.Row;
import org.faultwright.planning.PlanComparison.Way;
import org.faultwright.planning.PlanNode;
import org.faultwright.planning.PlanNode.Ending;
import org.faultwright.planning.Shop;
import org.faultwright.planning.Simulated;
import org.faultwright.planning.Spend;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** A plan beside rules of thumb, in words. The figures mean nothing. */
class ComparisonTextTest {

  private static Row row(Way way, double hands, double money, double pBeyond) {
    Spend spend = new Spend(hands, 0, money, 0);
    PlanNode end = new PlanNode.End(Ending.REPAIRED, spend, spend.cost(Shop.ORDINARY), 0.02);
    Simulated drawn =
        new Simulated(10_000, hands + money, 0.5, hands, 0.1, Map.of(Ending.REPAIRED, 1.0), 0.02);
    return new Row(
        way,
        new Plan(end, Shop.ORDINARY, 0, 0, 0),
        pBeyond,
        3 * pBeyond,
        40 * pBeyond,
        Optional.of(drawn));
  }

  private static PlanComparison compared(double handsOfLikeliest) {
    List<Row> rows = new ArrayList<>();
    for (Way way : Way.values()) {
      boolean isLikeliest = way == Way.LIKELIEST_FIRST;
      rows.add(
          row(way, isLikeliest ? handsOfLikeliest : 30, 20, way == Way.MOST_INFORMATION ? 0.1 : 0));
    }
    return new PlanComparison(rows);
  }

  @Test
  void sentence_saysTimesAndMinutes() {
    assertThat(ComparisonText.sentence(compared(60)))
        .isEqualTo(
            "Repairing the likeliest cause first, without a test, costs 1.6 times as much and takes"
                + " 30 min more.");
    assertThat(ComparisonText.sentence(compared(30)))
        .isEqualTo("Repairing the likeliest cause first, without a test, costs the same.");
  }

  @ParameterizedTest
  @ValueSource(ints = {40, 79, 80, 100})
  void tableFitsTheScreen_andSaysWhatIsCutOff(int width) {
    Page page = new Page(new Screen(width, false, false));
    new ComparisonText(page).write(compared(60));

    assertThat(page.lines()).allMatch(line -> Letters.columns(line) <= width);
    assertThat(String.join(" ", page.lines()).replaceAll(" +", " "))
        .contains("repair of the likeliest cause")
        .contains("Drawn at random, 10 000 devices, this plan: 50.00 +- 0.50 on average where")
        .contains("Not followed to the last, test that tells most per cost: in 10 % of cases");
  }
}
