package org.faultwright.casefile;

import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import org.faultwright.pack.BoardId;
import org.faultwright.pack.ConsentId;
import org.faultwright.pack.Goal;
import org.faultwright.pack.Ordered;
import org.faultwright.pack.Step.Skill;
import org.faultwright.pack.ToolId;

/**
 * What is settled when a device is taken in.
 *
 * @param board the board variant, where known
 * @param consented what the customer has agreed to from the start
 * @param refused what the customer has refused
 * @param ceiling the most that the customer will pay, in the shop's currency
 * @param deviceValue what a working device is worth, in the shop's currency
 * @param irreplaceableData whether there is data that must not be lost
 * @param lacking tools that the shop does not have
 * @param skill the highest skill at this bench
 */
public record Intake(
    Optional<BoardId> board,
    Goal goal,
    Set<ConsentId> consented,
    Set<ConsentId> refused,
    OptionalDouble ceiling,
    OptionalDouble deviceValue,
    boolean irreplaceableData,
    Set<ToolId> lacking,
    Skill skill) {

  /** Nothing special: a working device is wanted, nothing agreed yet. */
  public static final Intake PLAIN =
      new Intake(
          Optional.empty(),
          Goal.WORKING,
          Set.of(),
          Set.of(),
          OptionalDouble.empty(),
          OptionalDouble.empty(),
          false,
          Set.of(),
          Skill.BOARD);

  /** Copies the sets, keeping their order. */
  public Intake {
    consented = Ordered.copy(consented);
    refused = Ordered.copy(refused);
    lacking = Ordered.copy(lacking);
  }
}
