package org.faultwright.casefile;

import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.function.Consumer;
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
    return with(d -> d.board = Optional.of(board));
  }

  /** The same with this goal. */
  public Intake withGoal(Goal goal) {
    return with(d -> d.goal = goal);
  }

  /** The same with this ceiling. */
  public Intake withCeiling(OptionalDouble ceiling) {
    return with(d -> d.ceiling = ceiling);
  }

  /** The same with this value of a working device. */
  public Intake withDeviceValue(OptionalDouble deviceValue) {
    return with(d -> d.deviceValue = deviceValue);
  }

  /** The same with this value of the data. */
  public Intake withDataValue(OptionalDouble dataValue) {
    return with(d -> d.dataValue = dataValue);
  }

  /** The same with or without data that must not be lost. */
  public Intake withIrreplaceableData(boolean irreplaceableData) {
    return with(d -> d.irreplaceableData = irreplaceableData);
  }

  /** The same with these tools missing from the shop. */
  public Intake withLacking(Set<ToolId> lacking) {
    return with(d -> d.lacking = lacking);
  }

  /** The same with this highest skill at the bench. */
  public Intake withSkill(Skill skill) {
    return with(d -> d.skill = skill);
  }

  private Intake with(Consumer<Draft> change) {
    Draft draft = new Draft(this);
    change.accept(draft);
    return draft.intake();
  }

  /** An intake while one thing of it is changed. */
  private static final class Draft {
    private Optional<BoardId> board;
    private Goal goal;
    private Set<ConsentId> consented;
    private Set<ConsentId> refused;
    private OptionalDouble ceiling;
    private OptionalDouble deviceValue;
    private OptionalDouble dataValue;
    private boolean irreplaceableData;
    private Set<ToolId> lacking;
    private Skill skill;

    Draft(Intake intake) {
      board = intake.board;
      goal = intake.goal;
      consented = intake.consented;
      refused = intake.refused;
      ceiling = intake.ceiling;
      deviceValue = intake.deviceValue;
      dataValue = intake.dataValue;
      irreplaceableData = intake.irreplaceableData;
      lacking = intake.lacking;
      skill = intake.skill;
    }

    Intake intake() {
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
}
