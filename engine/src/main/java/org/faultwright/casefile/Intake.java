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
 * @param dataValue what the data on the device are worth to the customer where they are nowhere
 *     else, in the shop's currency; they are lost to the customer with a device that is returned as
 *     it is
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
    OptionalDouble dataValue,
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

  /** An intake in which nobody says what the data are worth. */
  public Intake(
      Optional<BoardId> board,
      Goal goal,
      Set<ConsentId> consented,
      Set<ConsentId> refused,
      OptionalDouble ceiling,
      OptionalDouble deviceValue,
      boolean irreplaceableData,
      Set<ToolId> lacking,
      Skill skill) {
    this(
        board,
        goal,
        consented,
        refused,
        ceiling,
        deviceValue,
        OptionalDouble.empty(),
        irreplaceableData,
        lacking,
        skill);
  }

  /** Copies the sets, keeping their order. */
  public Intake {
    consented = Ordered.copy(consented);
    refused = Ordered.copy(refused);
    lacking = Ordered.copy(lacking);
  }

  /** The same with this board. */
  public Intake withBoard(BoardId board) {
    return new Intake(
        Optional.of(board),
        goal,
        consented,
        refused,
        ceiling,
        deviceValue,
        dataValue,
        irreplaceableData,
        lacking,
        skill);
  }

  /** The same with this goal. */
  public Intake withGoal(Goal goal) {
    return new Intake(
        board,
        goal,
        consented,
        refused,
        ceiling,
        deviceValue,
        dataValue,
        irreplaceableData,
        lacking,
        skill);
  }

  /** The same with this ceiling. */
  public Intake withCeiling(OptionalDouble ceiling) {
    return new Intake(
        board,
        goal,
        consented,
        refused,
        ceiling,
        deviceValue,
        dataValue,
        irreplaceableData,
        lacking,
        skill);
  }

  /** The same with this value of a working device. */
  public Intake withDeviceValue(OptionalDouble deviceValue) {
    return new Intake(
        board,
        goal,
        consented,
        refused,
        ceiling,
        deviceValue,
        dataValue,
        irreplaceableData,
        lacking,
        skill);
  }

  /** The same with this value of the data. */
  public Intake withDataValue(OptionalDouble dataValue) {
    return new Intake(
        board,
        goal,
        consented,
        refused,
        ceiling,
        deviceValue,
        dataValue,
        irreplaceableData,
        lacking,
        skill);
  }

  /** The same with or without data that must not be lost. */
  public Intake withIrreplaceableData(boolean irreplaceableData) {
    return new Intake(
        board,
        goal,
        consented,
        refused,
        ceiling,
        deviceValue,
        dataValue,
        irreplaceableData,
        lacking,
        skill);
  }

  /** The same with these tools missing from the shop. */
  public Intake withLacking(Set<ToolId> lacking) {
    return new Intake(
        board,
        goal,
        consented,
        refused,
        ceiling,
        deviceValue,
        dataValue,
        irreplaceableData,
        lacking,
        skill);
  }

  /** The same with this highest skill at the bench. */
  public Intake withSkill(Skill skill) {
    return new Intake(
        board,
        goal,
        consented,
        refused,
        ceiling,
        deviceValue,
        dataValue,
        irreplaceableData,
        lacking,
        skill);
  }
}
