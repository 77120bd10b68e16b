package org.faultwright.cli.paper;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.OptionalDouble;
import java.util.function.ToDoubleFunction;
import org.faultwright.planning.Plan;
import org.faultwright.planning.PlanNode;

/**
 * Time and price of a plan as a customer meets them. What the customer loses with a device that is
 * returned unrepaired is a cost to the plan, and no price of the work: it is taken off. What is not
 * followed to its end counts as dearest and longest.
 */
final class CustomerFigures {

  private static final double ROUNDING = 1e-9;

  private final Plan plan;
  private final List<Plan.Course> courses;

  CustomerFigures(Plan plan) {
    this.plan = plan;
    this.courses = plan.courses();
  }

  /** Minutes with hands on the device that are not exceeded with probability p. */
  OptionalDouble hands(double p) {
    return quantile(p, c -> c.spend().hands());
  }

  /** Minutes at the bench, waiting included, that are not exceeded with probability p. */
  OptionalDouble bench(double p) {
    return quantile(p, c -> c.spend().hands() + c.spend().waiting());
  }

  /** The price of the work that is not exceeded with probability p. */
  OptionalDouble price(double p) {
    return quantile(p, this::price);
  }

  /** P(the price is above this), of the courses that are followed to their ends. */
  double pAbove(double price) {
    return courses.stream()
        .filter(c -> c.last() instanceof PlanNode.End && price(c) > price + ROUNDING)
        .mapToDouble(Plan.Course::p)
        .sum();
  }

  private double price(Plan.Course c) {
    return c.price(plan.shop());
  }

  private OptionalDouble quantile(double p, ToDoubleFunction<Plan.Course> value) {
    List<Plan.Course> sorted = new ArrayList<>(courses);
    sorted.sort(
        Comparator.comparing((Plan.Course c) -> c.last() instanceof PlanNode.AndSoOn)
            .thenComparingDouble(value));
    double sum = 0;
    for (Plan.Course c : sorted) {
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
