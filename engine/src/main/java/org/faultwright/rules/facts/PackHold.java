package org.faultwright.rules.facts;

import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import org.faultwright.pack.BenchState;
import org.faultwright.pack.Condition;
import org.faultwright.pack.Hold;
import org.faultwright.pack.HoldId;
import org.faultwright.pack.Ordered;
import org.faultwright.pack.Pack;
import org.faultwright.pack.PointId;
import org.faultwright.pack.Step;
import org.faultwright.pack.StepId;

/** A hold of the pack. Two are equal when they have the same id. */
public final class PackHold {

  private final Hold hold;
  private final Set<StepId> liftingSteps;
  private final Set<BenchState> liftingPositions;

  /** A hold of a pack. */
  public PackHold(Pack pack, Hold hold) {
    this.hold = hold;
    Set<StepId> steps = new LinkedHashSet<>();
    Set<BenchState> positions = new LinkedHashSet<>();
    lifting(hold.until(), pack, steps, positions);
    this.liftingSteps = Ordered.copy(steps);
    this.liftingPositions = Ordered.copy(positions);
  }

  private static void lifting(
      Condition until, Pack pack, Set<StepId> steps, Set<BenchState> positions) {
    if (until instanceof Condition.All all) {
      all.parts().forEach(p -> lifting(p, pack, steps, positions));
    } else if (until instanceof Condition.Any any) {
      any.parts().forEach(p -> lifting(p, pack, steps, positions));
    } else if (until instanceof Condition.Done c) {
      steps.add(c.step());
    } else if (until instanceof Condition.OutcomeIs c) {
      steps.add(c.step());
    } else if (until instanceof Condition.ReadingIs c) {
      pack.steps().values().stream()
          .filter(s -> reads(s, c.point()))
          .forEach(s -> steps.add(s.id()));
    } else if (until instanceof Condition.BenchIs c) {
      positions.add(c.state());
    } else if (until instanceof Condition.Works c) {
      pack.steps().values().stream()
          .filter(s -> s.proves().isPresent() && s.proves().get().equals(c.complaint()))
          .forEach(s -> steps.add(s.id()));
    }
  }

  private static boolean reads(Step step, PointId point) {
    return step.pinTable()
        .map(t -> t.points().stream().anyMatch(p -> p.id().equals(point)))
        .orElse(false);
  }

  /** The hold. */
  public Hold hold() {
    return hold;
  }

  /** Its id. */
  public HoldId id() {
    return hold.id();
  }

  /** What raises it. */
  public Condition raisedBy() {
    return hold.when();
  }

  /** What lifts it. */
  public Condition liftedBy() {
    return hold.until();
  }

  /** The steps that can lift it, as far as what lifts it names a step. */
  public Set<StepId> liftingSteps() {
    return liftingSteps;
  }

  /** The bench positions that can lift it. */
  public Set<BenchState> liftingPositions() {
    return liftingPositions;
  }

  /**
   * What a guard asks for while the hold is in force: that it is lifted, or that what raised it is
   * seen not to be so.
   */
  public Condition untilLifted() {
    return new Condition.Any(List.of(liftedBy(), new Condition.Not(raisedBy())));
  }

  /** What a guard asks for while the hold is not in force: that it does not come into force. */
  public Condition unlessRisen() {
    return new Condition.Unless(
        new Condition.All(List.of(raisedBy(), new Condition.Unless(liftedBy()))));
  }

  @Override
  public boolean equals(Object other) {
    return other instanceof PackHold h && h.id().equals(id());
  }

  @Override
  public int hashCode() {
    return id().hashCode();
  }
}
