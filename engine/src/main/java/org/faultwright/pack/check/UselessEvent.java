package org.faultwright.pack.check;

import java.util.LinkedHashSet;
import java.util.Set;
import java.util.function.Consumer;
import org.faultwright.pack.EventId;
import org.faultwright.pack.Lineage;
import org.faultwright.pack.NodeId;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Step;
import org.faultwright.problem.Problem;

/** An event that neither a complaint nor anything that is looked at depends on. */
final class UselessEvent implements PackCheck {

  @Override
  public String id() {
    return "useless-event";
  }

  @Override
  public void check(Pack pack, Positions at, Consumer<Problem> found) {
    Set<NodeId> used = new LinkedHashSet<>();
    pack.complaints().values().forEach(c -> used.add(c.event()));
    for (Step step : pack.steps().values()) {
      step.shows().ifPresent(o -> used.addAll(Lineage.looksAt(o)));
      step.pinTable().ifPresent(t -> t.points().forEach(p -> used.addAll(Lineage.looksAt(p))));
    }
    pack.symptoms().values().forEach(s -> s.shows().map(Lineage::looksAt).ifPresent(used::addAll));
    Set<NodeId> reached = new Descent(pack).of(used);
    for (EventId event : pack.events().keySet()) {
      if (!reached.contains(event)) {
        found.accept(
            Problem.warning(
                id(),
                at.of("events/" + event),
                "event '" + event + "' is used by no complaint, no other event and no step",
                "name it where it matters, or leave it out"));
      }
    }
  }
}
