package org.faultwright.faulttree;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.faultwright.pack.Ordered;

/**
 * Events and how they follow from one another; any of them can be taken for the top (IEC 61025).
 * Immutable. Every event that is referred to is defined, and no event is made of itself.
 *
 * @param name what the tree is called, spelt as one part of an {@link EventName}
 * @param label what it is about, for people; empty: nothing is said
 * @param nodes the events by name, in the author's order
 */
public record FaultTree(String name, String label, Map<EventName, TreeNode> nodes) {

  /** Most levels of connectives within one formula. */
  public static final int FORMULA_DEPTH = 200;

  /**
   * Copies the map and checks it.
   *
   * @throws IllegalArgumentException when an event is not defined, is made of itself, or has a
   *     formula that is nested too deep
   */
  public FaultTree {
    if (!EventName.isPart(name)) {
      throw new IllegalArgumentException(
          "name of a tree must be letters, digits, underscores and single hyphens: " + name);
    }
    nodes = Ordered.copy(nodes);
    for (Map.Entry<EventName, TreeNode> e : nodes.entrySet()) {
      if (e.getValue() instanceof TreeNode.Gate gate) {
        for (EventName used : references(gate.formula())) {
          if (!nodes.containsKey(used)) {
            throw new IllegalArgumentException(
                "event must be defined: " + used + ", in " + e.getKey());
          }
        }
      }
    }
    cycle(nodes)
        .ifPresent(
            c -> {
              throw new IllegalArgumentException("event must not be made of itself: " + c);
            });
  }

  /** The events that a formula refers to, each once, in order. */
  public static Set<EventName> references(Formula formula) {
    Set<EventName> found = new LinkedHashSet<>();
    collect(formula, found, 0);
    return found;
  }

  private static void collect(Formula formula, Set<EventName> found, int depth) {
    if (depth > FORMULA_DEPTH) {
      throw new IllegalArgumentException(
          "formula must not be nested deeper than " + FORMULA_DEPTH + " connectives");
    }
    if (formula instanceof Formula.Of of) {
      found.add(of.event());
    }
    formula.arguments().forEach(a -> collect(a, found, depth + 1));
  }

  /** A chain of events each of which is made of the next, and the last of the first; if any is. */
  public static Optional<List<EventName>> cycle(Map<EventName, TreeNode> nodes) {
    Map<EventName, List<EventName>> below = new LinkedHashMap<>();
    nodes.forEach((name, node) -> below.put(name, below(node)));
    Set<EventName> done = new LinkedHashSet<>();
    for (EventName start : nodes.keySet()) {
      // a path with the place of the next input to be looked at; not recursive, since chains may
      // be long
      Deque<EventName> path = new ArrayDeque<>();
      Deque<Integer> next = new ArrayDeque<>();
      Set<EventName> onPath = new LinkedHashSet<>();
      if (!done.contains(start)) {
        path.push(start);
        next.push(0);
        onPath.add(start);
      }
      while (!path.isEmpty()) {
        EventName at = path.peek();
        List<EventName> inputs = below.getOrDefault(at, List.of());
        int i = next.pop();
        if (i == inputs.size()) {
          path.pop();
          onPath.remove(at);
          done.add(at);
          continue;
        }
        next.push(i + 1);
        EventName input = inputs.get(i);
        if (onPath.contains(input)) {
          List<EventName> chain = new ArrayList<>(onPath);
          return Optional.of(List.copyOf(chain.subList(chain.indexOf(input), chain.size())));
        }
        if (!done.contains(input)) {
          path.push(input);
          next.push(0);
          onPath.add(input);
        }
      }
    }
    return Optional.empty();
  }

  private static List<EventName> below(TreeNode node) {
    return node instanceof TreeNode.Gate gate ? List.copyOf(references(gate.formula())) : List.of();
  }

  /** The gates that no other gate refers to: what may be meant as a top event, in order. */
  public List<EventName> roots() {
    Set<EventName> used = new LinkedHashSet<>();
    nodes.values().forEach(node -> used.addAll(below(node)));
    return nodes.keySet().stream()
        .filter(n -> nodes.get(n) instanceof TreeNode.Gate && !used.contains(n))
        .toList();
  }
}
