package org.faultwright.pack.check;

import java.util.Set;
import java.util.function.Consumer;
import org.faultwright.pack.Cause;
import org.faultwright.pack.NodeId;
import org.faultwright.pack.OneOf;
import org.faultwright.pack.Pack;
import org.faultwright.problem.Problem;

/** A cause that no complaint depends on. */
final class UnreachableCause implements PackCheck {

  @Override
  public String id() {
    return "unreachable-cause";
  }

  @Override
  public void check(Pack pack, Positions at, Consumer<Problem> found) {
    Set<NodeId> reached = new Descent(pack).ofComplaints();
    for (Cause cause : pack.causes().values()) {
      boolean grouped = cause.oneOf().map(g -> meets(pack.groups().get(g), reached)).orElse(false);
      boolean stands = !(cause.likelihood() instanceof Cause.Likelihood.OnlyCaused);
      if (stands && !grouped && !reached.contains(cause.id())) {
        found.accept(
            Problem.warning(
                id(),
                at.of("causes/" + cause.id()),
                "cause '" + cause.id() + "' can bring about no complaint",
                "name it as an input of the event it brings about, or leave it out"));
      }
    }
  }

  /** A member of a group tells by its absence, too. */
  private static boolean meets(OneOf group, Set<NodeId> reached) {
    return group.members().stream().anyMatch(reached::contains);
  }
}
