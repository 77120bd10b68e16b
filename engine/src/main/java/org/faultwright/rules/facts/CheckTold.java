package org.faultwright.rules.facts;

import org.faultwright.casefile.Fact;
import org.faultwright.casefile.FactId;

/** A line of the check list that has been filled in. */
public record CheckTold(FactId id, Fact.Checked check) {

  /** Whether it is about the same line at the same time as another. */
  public boolean sameLine(CheckTold other) {
    return check.function().equals(other.check.function()) && check.atEnd() == other.check.atEnd();
  }

  /** Whether it is the other end of the same line. */
  public boolean otherEnd(CheckTold other) {
    return check.function().equals(other.check.function()) && check.atEnd() != other.check.atEnd();
  }

  /** Whether it was looked at when the device came in. */
  public boolean testedAtIntake() {
    return !check.atEnd()
        && (check.result() == Fact.Checked.Result.WORKS
            || check.result() == Fact.Checked.Result.FAULTY);
  }

  /** Whether it worked when the device came in. */
  public boolean workedAtIntake() {
    return !check.atEnd() && check.result() == Fact.Checked.Result.WORKS;
  }

  /** Whether it is faulty at the end. */
  public boolean faultyAtEnd() {
    return check.atEnd() && check.result() == Fact.Checked.Result.FAULTY;
  }

  /** Its name in words. */
  public String words() {
    return check.function().replace('-', ' ');
  }
}
