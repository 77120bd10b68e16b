package org.faultwright.planning;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.Set;
import org.faultwright.pack.ConsentId;
import org.faultwright.pack.Ordered;
import org.faultwright.planning.PlanNode.Ending;

/**
 * A whole plan: what to do first, and what then, whatever comes out. It can be walked without the
 * engine. Immutable.
 *
 * @param root what to do first
 * @param shop the prices and rates that it is made with
 * @param atLeast no plan can be expected to cost less than this, in the shop's currency
 * @param stepsAhead the longest line of steps that was looked at: where it mattered most, not
 *     everywhere
 * @param pLeftOut the probability of the worlds that were not looked at: each figure holds given
 *     that the device is in none of them
 * @param asIfAgreed what the customer is taken to agree to, though nobody has asked yet: a plan for
 *     a talk with the customer, not yet one to work by. Empty where the plan keeps to what was
 *     agreed
 */
public record Plan(
    PlanNode root,
    Shop shop,
    double atLeast,
    int stepsAhead,
    double pLeftOut,
    Set<ConsentId> asIfAgreed) {

  /** Costs that differ by less than this part are equal. */
  private static final double ROUNDING = 1e-9;

  /** Copies the set, keeping its order. */
  public Plan {
    asIfAgreed = Ordered.copy(asIfAgreed);
  }

  /** A plan that keeps to what the customer has agreed to. */
  public Plan(PlanNode root, Shop shop, double atLeast, int stepsAhead, double pLeftOut) {
    this(root, shop, atLeast, stepsAhead, pLeftOut, Set.of());
  }

  /** What the job is expected to cost by this plan, risks and comebacks included. */
  public double expectedCost() {
    return root.expectedCost();
  }

  /** Whether no plan can be cheaper, but for rounding. */
  public boolean isOptimal() {
    return gap() <= ROUNDING * Math.max(1, expectedCost());
  }

  /** By how much the best plan might be cheaper, at most. */
  public double gap() {
    return Math.max(0, expectedCost() - atLeast);
  }

  /**
   * One way in which the plan may go.
   *
   * @param spend all that it takes up to its end
   * @param steps the steps done, function tests not counted
   * @param last how it ends
   */
  public record Course(double p, Spend spend, int steps, PlanNode last) {

    /**
     * What the work comes to: all that is spent but the risk, and but what is lost with a device
     * that is returned.
     */
    public double price(Shop shop) {
      return spend.price(shop) - (last instanceof PlanNode.End end ? end.valueLost() : 0);
    }
  }

  /** All ways in which the plan may go; probabilities sum to 1. */
  public List<Course> courses() {
    List<Course> found = new ArrayList<>();
    walk(root, 1, Spend.NOTHING, 0, found);
    return found;
  }

  private static void walk(PlanNode node, double p, Spend before, int steps, List<Course> found) {
    if (node instanceof PlanNode.DoTest test) {
      for (PlanNode.Branch b : test.branches()) {
        walk(b.then(), p * b.p(), before.plus(test.spend()), steps + 1, found);
      }
    } else if (node instanceof PlanNode.DoRepair repair) {
      Spend now = before.plus(repair.spend());
      walk(repair.ifPassed(), p * repair.pPass(), now, steps + 1, found);
      walk(repair.ifFailed(), p * (1 - repair.pPass()), now, steps + 1, found);
    } else if (p > 0) {
      Spend end = node instanceof PlanNode.End e ? e.spend() : Spend.NOTHING;
      found.add(new Course(p, before.plus(end), steps, node));
    }
  }

  /** P(the job ends so), for each ending. What is not followed to its end is in none. */
  public Map<Ending, Double> endings() {
    Map<Ending, Double> p = new EnumMap<>(Ending.class);
    for (Ending e : Ending.values()) {
      p.put(e, 0.0);
    }
    for (Course c : courses()) {
      if (c.last() instanceof PlanNode.End end) {
        p.merge(end.ending(), c.p(), (a, b) -> Math.min(1, a + b)); // a sum may round up
      }
    }
    return p;
  }

  /** P(the plan is not followed to the end of the job). */
  public double pOpen() {
    return Math.min(
        1,
        courses().stream()
            .filter(c -> c.last() instanceof PlanNode.AndSoOn)
            .mapToDouble(Course::p)
            .sum());
  }

  /** P(the device comes back, its function lost after all). */
  public double pComeback() {
    return Math.min(
        1,
        courses().stream()
            .mapToDouble(c -> c.last() instanceof PlanNode.End end ? c.p() * end.pComeback() : 0)
            .sum());
  }

  /** The expected number of steps, function tests after repairs not counted. */
  public double expectedSteps() {
    return courses().stream().mapToDouble(c -> c.p() * c.steps()).sum();
  }

  /** What is expected to be spent, up to where the plan is followed. */
  public Spend expected() {
    Spend sum = Spend.NOTHING;
    for (Course c : courses()) {
      sum = sum.plus(c.spend().times(c.p()));
    }
    return sum;
  }

  /**
   * Minutes with hands on the device that are not exceeded with the given probability. What is not
   * followed to its end counts as longest; empty where the answer lies there.
   *
   * @param p in (0, 1)
   */
  public OptionalDouble hands(double p) {
    return quantile(p, c -> c.spend().hands());
  }

  /** The price of the work that is not exceeded with the given probability, as {@link #hands}. */
  public OptionalDouble price(double p) {
    return quantile(p, c -> c.price(shop));
  }

  private OptionalDouble quantile(double p, java.util.function.ToDoubleFunction<Course> value) {
    if (!(p > 0 && p < 1)) {
      throw new IllegalArgumentException("p must be in (0, 1): " + p);
    }
    List<Course> all = new ArrayList<>(courses());
    all.sort(
        Comparator.comparing((Course c) -> c.last() instanceof PlanNode.AndSoOn)
            .thenComparingDouble(value));
    double sum = 0;
    for (Course c : all) {
      sum += c.p();
      if (sum >= p - ROUNDING) {
        return c.last() instanceof PlanNode.AndSoOn
            ? OptionalDouble.empty()
            : OptionalDouble.of(value.applyAsDouble(c));
      }
    }
    return OptionalDouble.empty();
  }
}
