package org.faultwright.rules.facts;

import java.util.Set;
import org.faultwright.casefile.FactId;
import org.faultwright.pack.Ordered;

/** Facts that cannot hold together under the pack's numbers, found by inference. */
public record Impossible(Set<FactId> facts) {

  /** Copies the facts, keeping their order. */
  public Impossible {
    facts = Ordered.copy(facts);
    if (facts.isEmpty()) {
      throw new IllegalArgumentException("impossible facts must name at least one fact");
    }
  }
}
