package org.faultwright.pack;

import java.util.Set;

/**
 * A group of causes of which at most one is present.
 *
 * @param certain whether exactly one of the members is present in every device taken in
 */
public record OneOf(GroupId id, boolean certain, Set<CauseId> members) {

  /** Copies the members, keeping their order. */
  public OneOf {
    members = Ordered.copy(members);
  }
}
