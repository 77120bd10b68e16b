package org.faultwright.pack.check;

import java.util.List;
import java.util.function.Consumer;
import org.faultwright.pack.Cause;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.Complaint;
import org.faultwright.pack.Pack;
import org.faultwright.problem.Problem;

/** A complaint that leaves no room for what the pack does not list. */
final class ComplaintWithoutUnlisted implements PackCheck {

  @Override
  public String id() {
    return "complaint-without-unlisted";
  }

  @Override
  public void check(Pack pack, Positions at, Consumer<Problem> found) {
    Descent descent = new Descent(pack);
    List<CauseId> unlisted =
        pack.causes().values().stream()
            .filter(c -> c.kind() == Cause.Kind.UNLISTED)
            .map(Cause::id)
            .toList();
    for (Complaint complaint : pack.complaints().values()) {
      boolean open = unlisted.stream().anyMatch(descent.of(complaint.event())::contains);
      if (!open) {
        found.accept(
            Problem.warning(
                id(),
                at.of("complaints/" + complaint.id() + "/event"),
                "complaint '%s' leaves no room for a cause that this pack does not list"
                    .formatted(complaint.id()),
                "add a cause 'unlisted' and name it as an input of event '%s'"
                    .formatted(complaint.event())));
      }
    }
  }
}
