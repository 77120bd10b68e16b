package org.faultwright.oracle;

import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.EventId;
import org.faultwright.pack.GroupId;
import org.faultwright.pack.Id;
import org.faultwright.pack.NodeId;
import org.faultwright.pack.Observation;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Part;
import org.faultwright.pack.Point;
import org.faultwright.pack.PointId;
import org.faultwright.pack.Step;
import org.faultwright.pack.StepId;
import org.faultwright.pack.SymptomId;

/** Which causes can move what a step or a symptom shows. */
final class Ancestry {

  private final Pack pack;
  private final Map<NodeId, Set<CauseId>> badNewParts = new LinkedHashMap<>();

  Ancestry(Pack pack) {
    this.pack = pack;
    for (Part part : pack.parts().values()) {
      for (CauseId carried : part.carries()) {
        badNewParts.computeIfAbsent(carried, c -> new LinkedHashSet<>()).add(part.bad());
      }
    }
  }

  /** The causes that can move anything that a step or a symptom shows, readings included. */
  Set<CauseId> ofSource(Id source) {
    Set<CauseId> found = new LinkedHashSet<>();
    if (source instanceof SymptomId symptom) {
      pack.symptoms().get(symptom).shows().ifPresent(o -> add(found, o));
    } else {
      Step step = pack.steps().get((StepId) source);
      step.shows().ifPresent(o -> add(found, o));
      step.compares().ifPresent(c -> List.of(c.point(), c.with()).forEach(p -> addPair(found, p)));
      for (Point point : step.pinTable().map(Step.PinTable::points).orElse(List.of())) {
        found.addAll(ofPoint(point));
      }
    }
    return found;
  }

  /** The causes that can move the readings of a point, or of what it is compared with. */
  Set<CauseId> ofPoint(Point point) {
    Set<CauseId> found = new LinkedHashSet<>();
    addOwn(found, point);
    addPair(found, point.id());
    return found;
  }

  private void addPair(Set<CauseId> found, PointId point) {
    for (Step step : pack.steps().values()) {
      if (step.compares().filter(c -> c.isAbout(point)).isPresent()) {
        step.shows().ifPresent(o -> add(found, o));
        for (Step other : pack.steps().values()) {
          other.pinTable().stream()
              .flatMap(t -> t.points().stream())
              .filter(p -> step.compares().get().isAbout(p.id()))
              .forEach(p -> addOwn(found, p));
        }
      }
    }
  }

  private void addOwn(Set<CauseId> found, Point point) {
    point.states().forEach(s -> s.triggers().keySet().forEach(n -> add(found, n)));
  }

  private void add(Set<CauseId> found, Observation shows) {
    if (shows instanceof Observation.OfNode o) {
      add(found, o.node());
    } else if (shows instanceof Observation.OfNodes o) {
      o.rates().keySet().forEach(n -> add(found, n));
    } else if (shows instanceof Observation.OfStates o) {
      o.states().forEach(s -> s.triggers().keySet().forEach(n -> add(found, n)));
    } else if (shows instanceof Observation.OfTable o) {
      o.given().forEach(n -> add(found, n));
    }
  }

  private void add(Set<CauseId> found, NodeId node) {
    if (node instanceof CauseId cause) {
      found.add(cause);
      Optional<GroupId> group = pack.causes().get(cause).oneOf();
      group.ifPresent(g -> found.addAll(pack.groups().get(g).members()));
      pack.causes().get(cause).follows().keySet().forEach(root -> add(found, root));
    } else {
      for (NodeId input : pack.events().get((EventId) node).inputs().keySet()) {
        add(found, input);
        badNewParts(input).forEach(bad -> add(found, bad));
      }
    }
  }

  /** The causes that act like this node where it is the input of an event. */
  Set<CauseId> badNewParts(NodeId input) {
    return badNewParts.getOrDefault(input, Set.of());
  }
}
