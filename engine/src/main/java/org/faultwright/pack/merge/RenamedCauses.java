package org.faultwright.pack.merge;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.faultwright.pack.Cause;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.Event;
import org.faultwright.pack.Harm;
import org.faultwright.pack.NodeId;
import org.faultwright.pack.Observation;
import org.faultwright.pack.OneOf;
import org.faultwright.pack.Pack;
import org.faultwright.pack.PackDraft;
import org.faultwright.pack.Part;
import org.faultwright.pack.Point;
import org.faultwright.pack.Step;
import org.faultwright.pack.Symptom;

/** The same pack with some causes called otherwise. */
final class RenamedCauses {

  private final Map<CauseId, CauseId> names;

  RenamedCauses(Map<CauseId, CauseId> names) {
    this.names = names;
  }

  Pack in(Pack p) {
    PackDraft draft = PackDraft.of(p);
    draft.parts.replaceAll((id, part) -> part(part));
    draft.symptoms.replaceAll((id, symptom) -> symptom(symptom));
    draft.causes.clear();
    draft.causes.putAll(causes(values(p.causes(), c -> cause(c, p))));
    draft.groups.replaceAll((id, g) -> new OneOf(g.id(), g.certain(), causes(g.members())));
    draft.events.replaceAll((id, event) -> event(event));
    draft.steps.replaceAll((id, step) -> step(step));
    return draft.build();
  }

  private CauseId name(CauseId cause) {
    return names.getOrDefault(cause, cause);
  }

  private NodeId node(NodeId node) {
    return node instanceof CauseId cause ? name(cause) : node;
  }

  private static <K, V> Map<K, V> values(
      Map<K, V> map, java.util.function.UnaryOperator<V> change) {
    Map<K, V> changed = new LinkedHashMap<>();
    map.forEach((k, v) -> changed.put(k, change.apply(v)));
    return changed;
  }

  private <V> Map<CauseId, V> causes(Map<CauseId, V> map) {
    Map<CauseId, V> changed = new LinkedHashMap<>();
    map.forEach((k, v) -> changed.put(name(k), v));
    return changed;
  }

  private <V> Map<NodeId, V> nodes(Map<NodeId, V> map) {
    Map<NodeId, V> changed = new LinkedHashMap<>();
    map.forEach((k, v) -> changed.put(node(k), v));
    return changed;
  }

  private Set<CauseId> causes(Set<CauseId> set) {
    Set<CauseId> changed = new LinkedHashSet<>();
    set.forEach(c -> changed.add(name(c)));
    return changed;
  }

  private Cause cause(Cause c, Pack pack) {
    String title = c.title();
    if (names.containsKey(c.id())) {
      title = title + " (" + pack.title() + ")";
    }
    return new Cause(
        name(c.id()),
        title,
        c.kind(),
        c.likelihood(),
        c.oneOf(),
        c.after(),
        causes(c.follows()),
        c.shows(),
        c.boards(),
        c.sendOn());
  }

  private Part part(Part p) {
    return new Part(
        p.id(),
        p.title(),
        causes(p.carries()),
        p.price(),
        p.paired(),
        p.leadTime(),
        p.reseats(),
        p.leaves(),
        p.afterwards(),
        p.bad());
  }

  private Symptom symptom(Symptom s) {
    return new Symptom(
        s.id(), s.title(), s.shows().map(this::observation), s.overlooked(), s.provokes());
  }

  private Event event(Event e) {
    return new Event(e.id(), e.title(), e.combination(), nodes(e.inputs()), e.otherwise());
  }

  private Observation observation(Observation shows) {
    if (shows instanceof Observation.OfNode o) {
      return new Observation.OfNode(
          node(o.node()), o.catches(), o.criesWolf(), o.positive(), o.negative());
    } else if (shows instanceof Observation.OfNodes o) {
      return new Observation.OfNodes(nodes(o.rates()), o.criesWolf(), o.positive(), o.negative());
    } else if (shows instanceof Observation.OfTable o) {
      return new Observation.OfTable(
          o.given().stream().map(this::node).toList(), o.outcomes(), o.rows());
    }
    Observation.OfStates o = (Observation.OfStates) shows;
    List<Observation.TrueState> states = new ArrayList<>();
    o.states().forEach(s -> states.add(new Observation.TrueState(s.id(), nodes(s.triggers()))));
    return new Observation.OfStates(states, o.outcomes(), o.rows());
  }

  private Point point(Point p) {
    List<Point.ReadingState> states = new ArrayList<>();
    p.states()
        .forEach(s -> states.add(new Point.ReadingState(s.id(), nodes(s.triggers()), s.lies())));
    return new Point(
        p.id(), p.title(), p.pin(), p.reference(), p.basis(), states, p.boards(), p.conditions());
  }

  private Step step(Step s) {
    Optional<Step.PinTable> table =
        s.pinTable()
            .map(
                t ->
                    new Step.PinTable(
                        t.leads(),
                        t.instrument(),
                        t.points().stream().map(this::point).toList(),
                        t.connector()));
    List<Harm> harms =
        s.mayCause().stream().map(h -> new Harm(name(h.cause()), h.chance(), h.cost())).toList();
    return new Step(
        s.id(),
        s.title(),
        s.how(),
        s.effort(),
        s.consumables(),
        s.conditions(),
        s.provokes(),
        s.shows().map(this::observation),
        s.proves(),
        table,
        causes(s.changes()),
        s.swap(),
        harms,
        s.thenRepeat(),
        s.repeatable(),
        s.copies(),
        s.dataRisk(),
        s.limits(),
        s.cautions(),
        s.does(),
        s.boards(),
        s.compares());
  }
}
