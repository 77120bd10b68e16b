package org.faultwright.planning;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.OptionalDouble;
import java.util.Set;
import org.faultwright.pack.Ordered;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Part;
import org.faultwright.pack.PartId;
import org.faultwright.pack.StepId;
import org.faultwright.planning.PlanNode.Ending;

/**
 * What the customer can be told of a plan: a range, and what it rests on. Prices are those of the
 * work (time, parts, consumables, the fee of sending on), in the shop's currency; what a comeback
 * or harm would cost the shop is not in them, nor what the customer loses with a device that is
 * returned. Immutable.
 *
 * @param half the price that is not exceeded in half of the cases
 * @param nineInTen the price that is not exceeded in nine of ten
 * @param expected the price on average
 * @param pRepaired P(the function is back, as far as tests show)
 * @param ceiling the most that the customer will pay, where stated
 * @param pAboveCeiling P(the price is above that); 0 where none is stated
 * @param assumedParts parts in the plan of which neither shop nor pack states a price
 */
public record Quote(
    double half,
    double nineInTen,
    double expected,
    double pRepaired,
    OptionalDouble ceiling,
    double pAboveCeiling,
    Set<PartId> assumedParts) {

  /** Sums of probabilities are as good as this. */
  private static final double ROUNDING = 1e-9;

  /** Copies the set, keeping its order. */
  public Quote {
    assumedParts = Ordered.copy(assumedParts);
  }

  /** A quote for a plan that is followed to its ends. */
  static Quote of(Plan plan, Pack pack, OptionalDouble ceiling) {
    record Priced(double price, double p) {}
    List<Priced> all = new ArrayList<>();
    double expected = 0;
    double above = 0;
    for (Plan.Course c : plan.courses()) {
      double price = c.price(plan.shop());
      all.add(new Priced(price, c.p()));
      expected += c.p() * price;
      above += ceiling.isPresent() && price > ceiling.getAsDouble() + ROUNDING ? c.p() : 0;
    }
    all.sort(Comparator.comparingDouble(Priced::price));
    double sum = 0;
    double half = Double.NaN;
    double nineInTen = all.get(all.size() - 1).price();
    for (Priced c : all) {
      sum += c.p();
      if (Double.isNaN(half) && sum >= 0.5 - ROUNDING) {
        half = c.price();
      }
      if (sum >= 0.9 - ROUNDING) {
        nineInTen = c.price();
        break;
      }
    }
    Set<PartId> assumed = new LinkedHashSet<>();
    findAssumed(plan.root(), plan.shop(), pack, assumed);
    return new Quote(
        half,
        nineInTen,
        expected,
        Math.min(1, plan.endings().get(Ending.REPAIRED)),
        ceiling,
        Math.min(1, above),
        assumed);
  }

  private static void findAssumed(PlanNode node, Shop shop, Pack pack, Set<PartId> assumed) {
    if (node instanceof PlanNode.DoTest test) {
      test.branches().forEach(b -> findAssumed(b.then(), shop, pack, assumed));
    } else if (node instanceof PlanNode.DoRepair repair) {
      addAssumed(repair.step(), shop, pack, assumed);
      findAssumed(repair.ifPassed(), shop, pack, assumed);
      findAssumed(repair.ifFailed(), shop, pack, assumed);
    }
  }

  private static void addAssumed(StepId step, Shop shop, Pack pack, Set<PartId> assumed) {
    pack.steps()
        .get(step)
        .swap()
        .ifPresent(
            swap -> {
              Part part = pack.parts().get(swap.part());
              if (shop.statedPriceOf(part).isEmpty()) {
                assumed.add(part.id());
              }
            });
  }
}
