package org.faultwright.planning;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * A plan beside rules of thumb, on the same case, in the same shop, under the same permissions. The
 * rules are defined in {@code policies.md}. Immutable.
 *
 * @param rows the plan first, then the others in the order of {@link Way}
 */
public record PlanComparison(List<Row> rows) {

  /** How a job can be gone about. */
  public enum Way {
    /** The plan. */
    PLAN,
    /** The test that tells most for what it costs; repairs where none tells enough. */
    MOST_INFORMATION,
    /** No tests; the repair that is likeliest to help for what it costs. */
    PROBABILITY_PER_COST,
    /** No tests; the repair of the likeliest cause. */
    LIKELIEST_FIRST
  }

  /**
   * What comes of one way.
   *
   * @param course all that may happen, followed to the end of each branch
   * @param pBeyond the probability of the branches too unlikely to be worked out by the rule
   *     itself; there it goes on by {@link Way#PROBABILITY_PER_COST}
   * @param less by how much the expected cost could be less without that, at most
   * @param more by how much it could be more, at most: a wide bound
   * @param simulated what came out for devices drawn at random, where that was asked for
   */
  public record Row(
      Way way,
      Plan course,
      double pBeyond,
      double less,
      double more,
      Optional<Simulated> simulated) {

    /** What the job is expected to cost, risks and comebacks included. */
    public double expectedCost() {
      return course.expectedCost();
    }

    /** Minutes with hands on the device, expected. */
    public double expectedHands() {
      return course.expected().hands();
    }
  }

  /** Copies the list. */
  public PlanComparison {
    rows = List.copyOf(rows);
  }

  /** The plan itself. */
  public Row plan() {
    return rows.get(0);
  }

  /** One of the rows. */
  public Row row(Way way) {
    return rows.stream().filter(r -> r.way() == way).findFirst().orElseThrow();
  }

  /** How many times as much a way costs as the plan; empty where the plan costs nothing. */
  public OptionalDouble timesAsMuch(Way way) {
    double plan = plan().expectedCost();
    return plan > 0 ? OptionalDouble.of(row(way).expectedCost() / plan) : OptionalDouble.empty();
  }

  /** How many minutes of hands a way takes more than the plan; below 0 where it takes less. */
  public double minutesMore(Way way) {
    return row(way).expectedHands() - plan().expectedHands();
  }
}
