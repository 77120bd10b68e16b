package org.faultwright.pack.check;

import java.util.function.Consumer;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.OneOf;
import org.faultwright.pack.Pack;
import org.faultwright.problem.Problem;

/** A member of a one-of group that another cause brings about. */
final class OneOfWithFollows implements PackCheck {

  @Override
  public String id() {
    return "one-of-with-follows";
  }

  @Override
  public void check(Pack pack, Positions at, Consumer<Problem> found) {
    for (OneOf group : pack.groups().values()) {
      for (CauseId member : group.members()) {
        for (CauseId root : pack.causes().get(member).follows().keySet()) {
          found.accept(
              Problem.error(
                  id(),
                  at.of("causes/" + member + "/follows/" + root),
                  "cause '%s' is a member of group '%s', so it cannot follow '%s' as well"
                      .formatted(member, group.id(), root),
                  "take it out of the group, or leave out 'follows'"));
        }
      }
    }
  }
}
