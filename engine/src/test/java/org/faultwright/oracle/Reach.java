package org.faultwright.oracle;

import java.util.Collection;
import java.util.LinkedHashSet;
import java.util.Set;
import java.util.stream.Stream;
import org.faultwright.pack.Cause;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.Event;
import org.faultwright.pack.NodeId;
import org.faultwright.pack.Observation;
import org.faultwright.pack.OneOf;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Part;
import org.faultwright.pack.Point;
import org.faultwright.pack.Step;

/** What moves with some causes: followed downstream until nothing more is reached. */
final class Reach {

  private final Pack pack;
  private final Set<NodeId> reached = new LinkedHashSet<>();

  Reach(Pack pack, Collection<CauseId> from) {
    this.pack = pack;
    reached.addAll(from);
    int before;
    do {
      before = reached.size();
      spread();
    } while (reached.size() > before);
  }

  private void spread() {
    for (OneOf group : pack.groups().values()) {
      if (group.members().stream().anyMatch(reached::contains)) {
        reached.addAll(group.members());
      }
    }
    for (Cause cause : pack.causes().values()) {
      if (cause.follows().keySet().stream().anyMatch(reached::contains)) {
        reached.add(cause.id());
      }
    }
    for (Event event : pack.events().values()) {
      if (event.inputs().keySet().stream().anyMatch(this::reachesInput)) {
        reached.add(event.id());
      }
    }
  }

  private boolean reachesInput(NodeId input) {
    return reached.contains(input)
        || pack.parts().values().stream()
            .anyMatch(part -> standsIn(part, input) && reached.contains(part.bad()));
  }

  /** Whether a bad new part stands in for a node where the node is an input. */
  static boolean standsIn(Part part, NodeId input) {
    return input instanceof CauseId cause && part.carries().contains(cause);
  }

  boolean reaches(NodeId node) {
    return reached.contains(node);
  }

  boolean reaches(Observation shows) {
    if (shows instanceof Observation.OfNode o) {
      return reaches(o.node());
    } else if (shows instanceof Observation.OfNodes o) {
      return o.rates().keySet().stream().anyMatch(this::reaches);
    } else if (shows instanceof Observation.OfTable o) {
      return o.given().stream().anyMatch(this::reaches);
    }
    return ((Observation.OfStates) shows)
        .states().stream().flatMap(s -> s.triggers().keySet().stream()).anyMatch(this::reaches);
  }

  /** Whether it reaches a point, or what that is compared with. */
  boolean reaches(Point point) {
    return reachesAlone(point)
        || pack.steps().values().stream()
            .filter(s -> s.compares().filter(c -> c.isAbout(point.id())).isPresent())
            .anyMatch(this::reaches);
  }

  private boolean reachesAlone(Point point) {
    return point.states().stream()
        .flatMap(s -> s.triggers().keySet().stream())
        .anyMatch(this::reaches);
  }

  boolean reaches(Step step) {
    return step.shows().filter(this::reaches).isPresent()
        || step.compares().stream()
            .flatMap(c -> Stream.of(c.point(), c.with()))
            .flatMap(p -> pack.point(p).stream())
            .anyMatch(this::reachesAlone)
        || step.pinTable().filter(t -> t.points().stream().anyMatch(this::reaches)).isPresent();
  }
}
