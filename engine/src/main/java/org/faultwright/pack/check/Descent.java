package org.faultwright.pack.check;

import java.util.ArrayDeque;
import java.util.Collection;
import java.util.Deque;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.faultwright.pack.Cause;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.Complaint;
import org.faultwright.pack.Event;
import org.faultwright.pack.EventId;
import org.faultwright.pack.NodeId;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Part;

/**
 * What lies below a node of the fault tree: the causes and events that can bring it about. Walks
 * without recursion, so that no pack is too deep for it.
 */
final class Descent {

  private final Pack pack;
  private final Map<CauseId, Set<CauseId>> badParts = new LinkedHashMap<>();

  Descent(Pack pack) {
    this.pack = pack;
    for (Part part : pack.parts().values()) {
      part.carries()
          .forEach(c -> badParts.computeIfAbsent(c, k -> new LinkedHashSet<>()).add(part.bad()));
    }
  }

  /** The node and all that can bring it about. */
  Set<NodeId> of(NodeId node) {
    return of(List.of(node));
  }

  /** The nodes and all that can bring them about. */
  Set<NodeId> of(Collection<? extends NodeId> nodes) {
    Set<NodeId> found = new LinkedHashSet<>();
    Deque<NodeId> open = new ArrayDeque<>(nodes);
    while (!open.isEmpty()) {
      NodeId node = open.pop();
      if (found.add(node)) {
        below(node).forEach(open::push);
      }
    }
    return found;
  }

  /** All that can bring about any complaint. */
  Set<NodeId> ofComplaints() {
    return of(pack.complaints().values().stream().map(Complaint::event).toList());
  }

  private Set<NodeId> below(NodeId node) {
    Set<NodeId> below = new LinkedHashSet<>();
    if (node instanceof EventId event) {
      Event e = pack.events().get(event);
      for (NodeId input : e == null ? Set.<NodeId>of() : e.inputs().keySet()) {
        below.add(input);
        if (input instanceof CauseId cause) {
          below.addAll(badParts.getOrDefault(cause, Set.of()));
        }
      }
    } else {
      Cause cause = pack.causes().get((CauseId) node);
      if (cause != null) {
        below.addAll(cause.follows().keySet());
      }
    }
    return below;
  }
}
