package org.faultwright.pack;

import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/**
 * Who descends from whom in a pack: which causes can move an event, an observation or a complaint,
 * and which causes an attempt touches. Immutable once built; cost of building is linear in the size
 * of the pack times its causes.
 */
public final class Lineage {

  private final Pack pack;
  private final Map<NodeId, Set<CauseId>> ancestors = new LinkedHashMap<>();

  private final Map<PointId, Step> comparisons = new LinkedHashMap<>();

  private Lineage(Pack pack) {
    this.pack = pack;
    for (Step step : pack.steps().values()) {
      step.compares()
          .ifPresent(
              c -> {
                comparisons.putIfAbsent(c.point(), step);
                comparisons.putIfAbsent(c.with(), step);
              });
    }
  }

  /** The lineage of a pack whose events form no cycle. */
  public static Lineage of(Pack pack) {
    Lineage lineage = new Lineage(pack);
    pack.causes().keySet().forEach(lineage::ancestors);
    pack.events().keySet().forEach(lineage::ancestors);
    return lineage;
  }

  /**
   * The causes that can move a node: for a cause, itself and what it follows, directly or not; for
   * an event, those of its inputs, and the bad new part of each part that carries an input.
   */
  public Set<CauseId> ancestors(NodeId node) {
    Set<CauseId> known = ancestors.get(node);
    if (known != null) {
      return known;
    }
    Set<CauseId> found = new LinkedHashSet<>();
    if (node instanceof CauseId cause) {
      found.add(cause);
      for (CauseId root : pack.causes().get(cause).follows().keySet()) {
        found.addAll(ancestors(root));
      }
      pack.causes().get(cause).oneOf().ifPresent(g -> found.addAll(pack.groups().get(g).members()));
    } else {
      for (NodeId input : pack.events().get((EventId) node).inputs().keySet()) {
        found.addAll(ancestors(input));
        if (input instanceof CauseId cause) {
          carriers(cause).forEach(part -> found.add(part.bad()));
        }
      }
    }
    Set<CauseId> result = Ordered.copy(found);
    ancestors.put(node, result);
    return result;
  }

  /** The causes that can move any of the nodes. */
  public Set<CauseId> ancestors(Collection<? extends NodeId> nodes) {
    Set<CauseId> found = new LinkedHashSet<>();
    nodes.forEach(node -> found.addAll(ancestors(node)));
    return found;
  }

  /** The parts that carry a cause. */
  public Set<Part> carriers(CauseId cause) {
    Set<Part> found = new LinkedHashSet<>();
    for (Part part : pack.parts().values()) {
      if (part.carries().contains(cause)) {
        found.add(part);
      }
    }
    return found;
  }

  /** The nodes that an observation looks at. */
  public static Set<NodeId> looksAt(Observation shows) {
    if (shows instanceof Observation.OfNode o) {
      return Set.of(o.node());
    } else if (shows instanceof Observation.OfNodes o) {
      return o.rates().keySet();
    } else if (shows instanceof Observation.OfTable o) {
      return Ordered.copy(o.given());
    }
    Set<NodeId> found = new LinkedHashSet<>();
    ((Observation.OfStates) shows).states().forEach(s -> found.addAll(s.triggers().keySet()));
    return found;
  }

  /**
   * The causes that can move a reading of a point. Where the point is compared with another one,
   * they are those of both and of the comparison: the two are read anew together.
   */
  public Set<CauseId> ancestors(Point point) {
    Set<NodeId> nodes = new LinkedHashSet<>(looksAt(point));
    comparisonOf(point.id()).ifPresent(step -> nodes.addAll(compared(step)));
    return ancestors(nodes);
  }

  /** The step that compares a point with another one. */
  public Optional<Step> comparisonOf(PointId point) {
    return Optional.ofNullable(comparisons.get(point));
  }

  /** All that a comparison and the readings that it compares look at. */
  private Set<NodeId> compared(Step step) {
    Set<NodeId> nodes = new LinkedHashSet<>();
    step.shows().ifPresent(o -> nodes.addAll(looksAt(o)));
    step.compares()
        .ifPresent(
            c -> {
              pack.point(c.point()).ifPresent(p -> nodes.addAll(looksAt(p)));
              pack.point(c.with()).ifPresent(p -> nodes.addAll(looksAt(p)));
            });
    return nodes;
  }

  /** The nodes that a point looks at, what it is compared with left aside. */
  public static Set<NodeId> looksAt(Point point) {
    Set<NodeId> found = new LinkedHashSet<>();
    point.states().forEach(s -> found.addAll(s.triggers().keySet()));
    return found;
  }

  /** The causes that can move what a step shows, its readings included. */
  public Set<CauseId> ancestors(Step step) {
    Set<CauseId> found = new LinkedHashSet<>(ancestors(compared(step)));
    step.pinTable().ifPresent(t -> t.points().forEach(p -> found.addAll(ancestors(p))));
    return found;
  }

  /**
   * All that an attempt does to causes: its own changes, those of a replaced part and of the
   * connectors that replacing it disturbs. Where several blocks name a cause, the surest cure
   * counts.
   */
  public Map<CauseId, Change> changes(Step step) {
    Map<CauseId, Change> found = new LinkedHashMap<>();
    step.swap()
        .ifPresent(
            swap -> {
              Part part = pack.parts().get(swap.part());
              Chance sure = Chance.byDefinition(1);
              Chance never = Chance.byDefinition(0);
              part.carries().forEach(c -> found.put(c, new Change(sure, never)));
              found.put(part.bad(), new Change(sure, never));
              part.reseats()
                  .forEach(
                      s -> pack.steps().get(s).changes().forEach((c, x) -> keepSurer(found, c, x)));
            });
    step.changes().forEach((c, x) -> keepSurer(found, c, x));
    return found;
  }

  private static void keepSurer(Map<CauseId, Change> found, CauseId cause, Change change) {
    found.merge(cause, change, (a, b) -> a.cures().p() >= b.cures().p() ? a : b);
  }

  /**
   * All harm that an attempt may do, a bad new part included: P(cause afterwards | absent before).
   */
  public Map<CauseId, Double> harms(Step step) {
    Map<CauseId, Double> found = new LinkedHashMap<>();
    step.mayCause()
        .forEach(h -> found.merge(h.cause(), h.chance().p(), (a, b) -> 1 - (1 - a) * (1 - b)));
    step.swap()
        .ifPresent(
            swap ->
                found.merge(
                    pack.parts().get(swap.part()).bad(),
                    1 - swap.donorGood().p(),
                    (a, b) -> 1 - (1 - a) * (1 - b)));
    return found;
  }

  /** The causes that an attempt touches: changed or harmed. */
  public Set<CauseId> touches(Step step) {
    Set<CauseId> found = new LinkedHashSet<>(changes(step).keySet());
    found.addAll(harms(step).keySet());
    return found;
  }

  /** Whether an attempt can move what depends on the given ancestors. */
  public boolean moves(Step attempt, Set<CauseId> ancestors) {
    return touches(attempt).stream().anyMatch(ancestors::contains);
  }
}
