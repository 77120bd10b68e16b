package org.faultwright.cli.dialogue;

import java.util.Optional;
import java.util.OptionalDouble;
import org.faultwright.casefile.Intake;
import org.faultwright.pack.BoardId;
import org.faultwright.pack.Goal;

/** Copies of an intake with one thing changed. */
final class Intakes {

  private Intakes() {}

  static Intake with(Intake i, Goal goal) {
    return new Intake(
        i.board(),
        goal,
        i.consented(),
        i.refused(),
        i.ceiling(),
        i.deviceValue(),
        i.irreplaceableData(),
        i.lacking(),
        i.skill());
  }

  static Intake with(Intake i, BoardId board) {
    return new Intake(
        Optional.of(board),
        i.goal(),
        i.consented(),
        i.refused(),
        i.ceiling(),
        i.deviceValue(),
        i.irreplaceableData(),
        i.lacking(),
        i.skill());
  }

  static Intake withData(Intake i, boolean irreplaceable) {
    return new Intake(
        i.board(),
        i.goal(),
        i.consented(),
        i.refused(),
        i.ceiling(),
        i.deviceValue(),
        irreplaceable,
        i.lacking(),
        i.skill());
  }

  static Intake withCeiling(Intake i, OptionalDouble ceiling) {
    return new Intake(
        i.board(),
        i.goal(),
        i.consented(),
        i.refused(),
        ceiling,
        i.deviceValue(),
        i.irreplaceableData(),
        i.lacking(),
        i.skill());
  }

  static Intake withValue(Intake i, OptionalDouble value) {
    return new Intake(
        i.board(),
        i.goal(),
        i.consented(),
        i.refused(),
        i.ceiling(),
        value,
        i.irreplaceableData(),
        i.lacking(),
        i.skill());
  }
}
