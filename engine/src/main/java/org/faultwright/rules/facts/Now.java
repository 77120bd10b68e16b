package org.faultwright.rules.facts;

import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.faultwright.casefile.FactId;
import org.faultwright.casefile.Guard;
import org.faultwright.casefile.Situation;
import org.faultwright.casefile.Truth;
import org.faultwright.pack.ComplaintId;
import org.faultwright.pack.Condition;
import org.faultwright.pack.ConsentId;
import org.faultwright.pack.Conventions;
import org.faultwright.pack.Ordered;

/**
 * The case as conditions see it now. Each update is a fact of its own: two are equal when they are
 * one.
 */
public final class Now {

  private final Situation situation;
  private final Situation remembered;
  private final Grounds grounds;
  private final Map<ComplaintId, Proof> proofs;
  private final Set<ComplaintId> reported;

  /**
   * A moment of a case.
   *
   * @param situation what stands now
   * @param remembered the same with the latest word of each step and point, even where a later
   *     attempt can have changed what it tells of: what raises a hold is believed until seen
   *     otherwise
   * @param grounds which facts say so
   * @param proofs the function tests that count now
   * @param reported the complaints that the customer reports
   */
  public Now(
      Situation situation,
      Situation remembered,
      Grounds grounds,
      Map<ComplaintId, Proof> proofs,
      Set<ComplaintId> reported) {
    this.situation = situation;
    this.remembered = remembered;
    this.grounds = grounds;
    this.proofs = Ordered.copy(proofs);
    this.reported = Ordered.copy(reported);
  }

  /** What stands now. */
  public Situation situation() {
    return situation;
  }

  /** Whether a condition is met. */
  public boolean met(Condition condition) {
    return Guard.evaluate(condition, situation) == Truth.TRUE;
  }

  /** Whether a condition is met, by the latest word about everything. */
  public boolean metByLatestWord(Condition condition) {
    return Guard.evaluate(condition, remembered) == Truth.TRUE;
  }

  /** The facts on which a condition rests that is met by the latest word. */
  public Set<FactId> groundsOf(Condition condition) {
    return grounds.of(condition, remembered);
  }

  /**
   * Whether something found or done is among what such a condition rests on, and not the bench and
   * the customer's word alone.
   */
  public boolean restsOnFindings(Condition condition) {
    return grounds.haveFinding(condition, remembered);
  }

  /** Whether the customer has refused something. */
  public boolean refused(ConsentId consent) {
    return Boolean.FALSE.equals(situation.consents().get(consent));
  }

  /** Whether the customer has agreed to something. */
  public boolean agreed(ConsentId consent) {
    return Boolean.TRUE.equals(situation.consents().get(consent));
  }

  /** The function test of a complaint that counts now. */
  public Optional<Proof> proof(ComplaintId complaint) {
    return Optional.ofNullable(proofs.get(complaint));
  }

  /** Whether the complaint's function test passed since an attempt, and nothing changed after. */
  public boolean proved(ComplaintId complaint) {
    Proof proof = proofs.get(complaint);
    return proof != null && !proof.lost() && proof.afterAttempt();
  }

  /** Whether the complaint's function test passed, but in an open device. */
  public boolean passedOpen(ComplaintId complaint) {
    Proof proof = proofs.get(complaint);
    return proof != null && !proof.lost() && !proof.closedThen();
  }

  /** Whether a function is still missed, and the data are neither safe nor may be lost. */
  public boolean dataAtStake() {
    return !reported.isEmpty()
        && !allProved()
        && !met(new Condition.Done(Conventions.BACK_UP_DATA))
        && !agreed(Conventions.RISK_DATA);
  }

  /** The complaints that the customer reports. */
  public Set<ComplaintId> reported() {
    return reported;
  }

  /** Whether every function that the customer misses is proved to be back. */
  public boolean allProved() {
    return !reported.isEmpty() && reported.stream().allMatch(this::proved);
  }
}
