package org.faultwright.pack.check;

import java.util.LinkedHashSet;
import java.util.Set;
import java.util.function.Consumer;
import org.faultwright.pack.Cause;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.Event;
import org.faultwright.pack.GroupId;
import org.faultwright.pack.NodeId;
import org.faultwright.pack.Pack;
import org.faultwright.problem.Problem;

/** An event that needs more inputs than can act together, because some exclude each other. */
final class EventNever implements PackCheck {

  @Override
  public String id() {
    return "event-never";
  }

  @Override
  public void check(Pack pack, Positions at, Consumer<Problem> found) {
    for (Event event : pack.events().values()) {
      int needed =
          event.combination() instanceof Event.Combination.All
              ? event.inputs().size()
              : event.combination() instanceof Event.Combination.AtLeast a ? a.k() : 0;
      int most = most(pack, event);
      if (most < needed && event.otherwise().p() == 0) {
        found.accept(
            Problem.warning(
                id(),
                at.of("events/" + event.id()),
                "event '%s' needs %d of its inputs, but at most %d can be present together"
                    .formatted(event.id(), needed, most),
                "members of a one-of group exclude each other: should it be 'any'?"));
      }
    }
  }

  private static int most(Pack pack, Event event) {
    int most = 0;
    Set<GroupId> groups = new LinkedHashSet<>();
    for (NodeId input : event.inputs().keySet()) {
      Cause cause = input instanceof CauseId c ? pack.causes().get(c) : null;
      if (cause == null || cause.oneOf().isEmpty() || groups.add(cause.oneOf().get())) {
        most++;
      }
    }
    return most;
  }
}
