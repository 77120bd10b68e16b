package org.faultwright.rules.facts;

import java.util.Optional;
import org.faultwright.pack.Condition;
import org.faultwright.pack.ConsentId;
import org.faultwright.rules.Blocked;

/**
 * Concluded: one part of a guard.
 *
 * @param kind what kind of reason it is where it is not met
 * @param words the reason
 * @param wayOut what would meet it
 * @param consent the consent that it asks for, where it asks for one
 */
public record Requirement(
    Subject subject,
    Blocked.Kind kind,
    Condition condition,
    String words,
    String wayOut,
    Optional<ConsentId> consent) {

  /** One that asks for no consent. */
  public Requirement(
      Subject subject, Blocked.Kind kind, Condition condition, String words, String wayOut) {
    this(subject, kind, condition, words, wayOut, Optional.empty());
  }
}
