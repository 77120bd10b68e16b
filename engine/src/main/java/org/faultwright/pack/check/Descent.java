package org.faultwright.pack.check;

import java.util.AbstractSet;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.Collection;
import java.util.HashMap;
import java.util.Iterator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.faultwright.pack.Cause;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.Complaint;
import org.faultwright.pack.Event;
import org.faultwright.pack.NodeId;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Part;

/**
 * What lies below a node of the fault tree: the causes and events that can bring it about. Walks
 * over numbers and without recursion, so that no pack is too large or too deep for it.
 */
final class Descent {

  private final List<NodeId> nodes = new ArrayList<>();
  private final Map<NodeId, Integer> numbers = new HashMap<>();
  private final int[][] below;

  private final Pack pack;

  Descent(Pack pack) {
    this.pack = pack;
    pack.causes().keySet().forEach(this::number);
    pack.events().keySet().forEach(this::number);
    this.below = new int[nodes.size()][];
    Map<CauseId, Set<CauseId>> badParts = new HashMap<>();
    for (Part part : pack.parts().values()) {
      part.carries()
          .forEach(c -> badParts.computeIfAbsent(c, k -> new LinkedHashSet<>()).add(part.bad()));
    }
    for (Cause cause : pack.causes().values()) {
      below[numbers.get(cause.id())] = numbers(cause.follows().keySet());
    }
    for (Event event : pack.events().values()) {
      Set<NodeId> inputs = new LinkedHashSet<>(event.inputs().keySet());
      event.inputs().keySet().stream()
          .filter(badParts::containsKey)
          .forEach(c -> inputs.addAll(badParts.get(c)));
      below[numbers.get(event.id())] = numbers(inputs);
    }
  }

  /** The node and all that can bring it about. */
  Set<NodeId> of(NodeId node) {
    return of(List.of(node));
  }

  /** The nodes and all that can bring them about; causes first, in the order of the pack. */
  Set<NodeId> of(Collection<? extends NodeId> starts) {
    BitSet found = new BitSet();
    int[] open = new int[nodes.size()];
    int size = 0;
    for (int start : numbers(starts)) {
      if (!found.get(start)) {
        found.set(start);
        open[size++] = start;
      }
    }
    while (size > 0) {
      for (int next : below[open[--size]]) {
        if (!found.get(next)) {
          found.set(next);
          open[size++] = next;
        }
      }
    }
    return new Nodes(found);
  }

  /** All that can bring about any complaint. */
  Set<NodeId> ofComplaints() {
    return of(pack.complaints().values().stream().map(Complaint::event).toList());
  }

  private void number(NodeId node) {
    numbers.put(node, nodes.size());
    nodes.add(node);
  }

  private int[] numbers(Collection<? extends NodeId> of) {
    return of.stream().filter(numbers::containsKey).mapToInt(numbers::get).toArray();
  }

  /** A set of nodes by their numbers. */
  private final class Nodes extends AbstractSet<NodeId> {
    private final BitSet found;

    Nodes(BitSet found) {
      this.found = found;
    }

    @Override
    public boolean contains(Object node) {
      Integer number = numbers.get(node);
      return number != null && found.get(number);
    }

    @Override
    public Iterator<NodeId> iterator() {
      return found.stream().mapToObj(nodes::get).iterator();
    }

    @Override
    public int size() {
      return found.cardinality();
    }
  }
}
