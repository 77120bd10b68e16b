package org.faultwright.pack.check;

import java.util.function.Consumer;
import org.faultwright.pack.Complaint;
import org.faultwright.pack.Event;
import org.faultwright.pack.Pack;
import org.faultwright.problem.Problem;

/** A complaint whose event happens for no stated cause. */
final class OtherwiseOnComplaintEvent implements PackCheck {

  @Override
  public String id() {
    return "otherwise-on-complaint-event";
  }

  @Override
  public void check(Pack pack, Positions at, Consumer<Problem> found) {
    for (Complaint complaint : pack.complaints().values()) {
      Event event = pack.events().get(complaint.event());
      if (event.otherwise().p() > 0) {
        found.accept(
            Problem.error(
                id(),
                at.of("events/" + event.id() + "/otherwise"),
                "event '%s' of complaint '%s' must not have 'otherwise': a function that is lost has"
                        .formatted(event.id(), complaint.id())
                    + " a cause",
                "leave it out; the cause 'unlisted' stands for what the pack does not list"));
      }
    }
  }
}
