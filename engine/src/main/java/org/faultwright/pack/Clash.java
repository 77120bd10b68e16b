package org.faultwright.pack;

import java.util.List;

/** Facts that cannot hold together, as the pack states. */
public record Clash(List<Condition> together, String says) {

  /** Copies the list. */
  public Clash {
    together = List.copyOf(together);
  }
}
