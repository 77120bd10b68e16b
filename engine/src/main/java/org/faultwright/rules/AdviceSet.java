package org.faultwright.rules;

import java.util.List;

/**
 * What to do next, and what else could be done.
 *
 * @param primary the one advice that nothing outranks
 * @param others the others, best first
 * @param conflicts facts that do not go together, those included that inference found
 */
public record AdviceSet(Advice primary, List<Advice> others, List<Conflict> conflicts) {

  /** Copies the lists. */
  public AdviceSet {
    others = List.copyOf(others);
    conflicts = List.copyOf(conflicts);
  }
}
