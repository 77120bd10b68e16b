package org.faultwright.pack.check;

import java.util.ArrayList;
import java.util.List;
import org.faultwright.pack.Pack;
import org.faultwright.problem.Problem;

/** All checks of packs, in the order in which they are made. */
public final class PackChecks {

  private static final List<PackCheck> ALL = List.of();

  private PackChecks() {}

  /** All checks. */
  public static List<PackCheck> all() {
    return ALL;
  }

  /** The problems that the checks find in a pack, sorted by place. */
  public static List<Problem> problems(Pack pack, Positions at) {
    List<Problem> found = new ArrayList<>();
    ALL.forEach(check -> check.check(pack, at, found::add));
    found.sort(null);
    return List.copyOf(found);
  }
}
