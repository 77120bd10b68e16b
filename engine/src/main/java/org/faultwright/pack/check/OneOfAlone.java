package org.faultwright.pack.check;

import java.util.function.Consumer;
import org.faultwright.pack.OneOf;
import org.faultwright.pack.Pack;
import org.faultwright.problem.Problem;

/** A one-of group with nothing to choose from. */
final class OneOfAlone implements PackCheck {

  @Override
  public String id() {
    return "one-of-alone";
  }

  @Override
  public void check(Pack pack, Positions at, Consumer<Problem> found) {
    for (OneOf group : pack.groups().values()) {
      if (group.members().size() < 2) {
        found.accept(
            Problem.warning(
                id(),
                at.of("one-of/" + group.id() + "/members"),
                "group '" + group.id() + "' has fewer than two members",
                "add the others, or leave the group out"));
      }
    }
  }
}
