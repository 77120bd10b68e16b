package org.faultwright.faulttree;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Deque;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * What a top event depends on, put in order: gates after the gates they are made of, basic events
 * in the order in which the walk from the top first meets them, which is the order of variables in
 * diagrams.
 *
 * @param gates the gates below the top, the top last; empty where the top is no gate
 * @param basics the basic events below the top
 */
record FaultLogic(FaultTree tree, EventName top, List<EventName> gates, List<EventName> basics) {

  /** Copies the lists. */
  FaultLogic {
    gates = List.copyOf(gates);
    basics = List.copyOf(basics);
  }

  /**
   * Walks down from a top event.
   *
   * @param lastFirst whether the last input of each gate is looked at first
   */
  static FaultLogic of(FaultTree tree, EventName top, boolean lastFirst) {
    Set<EventName> gates = new LinkedHashSet<>();
    Set<EventName> basics = new LinkedHashSet<>();
    Map<EventName, List<EventName>> inputs = new LinkedHashMap<>();
    Deque<EventName> path = new ArrayDeque<>();
    Deque<Integer> next = new ArrayDeque<>();
    enter(tree, top, lastFirst, inputs, basics, path, next);
    while (!path.isEmpty()) {
      EventName at = path.peek();
      int i = next.pop();
      if (i == inputs.get(at).size()) {
        path.pop();
        gates.add(at);
        continue;
      }
      next.push(i + 1);
      EventName input = inputs.get(at).get(i);
      if (!inputs.containsKey(input)) {
        enter(tree, input, lastFirst, inputs, basics, path, next);
      }
    }
    return new FaultLogic(tree, top, List.copyOf(gates), List.copyOf(basics));
  }

  private static void enter(
      FaultTree tree,
      EventName event,
      boolean lastFirst,
      Map<EventName, List<EventName>> inputs,
      Set<EventName> basics,
      Deque<EventName> path,
      Deque<Integer> next) {
    TreeNode node = tree.nodes().get(event);
    if (node instanceof TreeNode.Basic) {
      basics.add(event);
    } else if (node instanceof TreeNode.Gate gate) {
      List<EventName> of = new ArrayList<>(FaultTree.references(gate.formula()));
      if (lastFirst) {
        Collections.reverse(of);
      }
      inputs.put(event, of);
      path.push(event);
      next.push(0);
    }
  }

  /** A kind of function that can be joined; {@code T} is a function of the basic events. */
  interface Algebra<T, E extends Exception> {

    T constant(boolean value);

    T not(T a) throws E;

    T and(List<T> of) throws E;

    T or(List<T> of) throws E;

    /** An odd number is true. */
    T odd(List<T> of) throws E;

    /**
     * At least so many are true.
     *
     * @param min from 1 to the number of arguments
     */
    T atLeast(int min, List<T> of) throws E;

    /** Told of each gate as it becomes known; what it returns is used in its place. */
    default T named(EventName gate, T value) {
      return value;
    }
  }

  /**
   * The top event in an algebra.
   *
   * @param known the basic events in it, and gates that are known already
   */
  <T, E extends Exception> T evaluate(Algebra<T, E> algebra, Map<EventName, T> known) throws E {
    Map<EventName, T> values = new LinkedHashMap<>(known);
    tree.nodes()
        .forEach(
            (name, node) -> {
              if (node instanceof TreeNode.House house) {
                values.put(name, algebra.constant(house.value()));
              }
            });
    for (EventName gate : gates) {
      if (!known.containsKey(gate)) {
        Formula formula = ((TreeNode.Gate) tree.nodes().get(gate)).formula();
        values.put(gate, algebra.named(gate, evaluate(algebra, values, formula)));
      }
    }
    return values.get(top);
  }

  private static <T, E extends Exception> T evaluate(
      Algebra<T, E> algebra, Map<EventName, T> values, Formula formula) throws E {
    if (formula instanceof Formula.Of of) {
      return values.get(of.event());
    } else if (formula instanceof Formula.Constant constant) {
      return algebra.constant(constant.value());
    }
    List<T> of = new ArrayList<>();
    for (Formula argument : formula.arguments()) {
      of.add(evaluate(algebra, values, argument));
    }
    if (formula instanceof Formula.And) {
      return algebra.and(of);
    } else if (formula instanceof Formula.Or) {
      return algebra.or(of);
    } else if (formula instanceof Formula.Not) {
      return algebra.not(of.get(0));
    } else if (formula instanceof Formula.Xor) {
      return algebra.odd(of);
    } else if (formula instanceof Formula.Iff) {
      // an even number of false ones
      T odd = algebra.odd(of);
      return of.size() % 2 == 1 ? odd : algebra.not(odd);
    } else if (formula instanceof Formula.Nand) {
      return algebra.not(algebra.and(of));
    } else if (formula instanceof Formula.Nor) {
      return algebra.not(algebra.or(of));
    } else if (formula instanceof Formula.Imply) {
      return algebra.or(List.of(algebra.not(of.get(0)), of.get(1)));
    } else if (formula instanceof Formula.AtLeast atLeast) {
      return atLeast(algebra, atLeast.min(), of);
    }
    Formula.Cardinality cardinality = (Formula.Cardinality) formula;
    T low = atLeast(algebra, cardinality.min(), of);
    if (cardinality.max() == of.size()) {
      return low;
    }
    return algebra.and(List.of(low, algebra.not(atLeast(algebra, cardinality.max() + 1, of))));
  }

  private static <T, E extends Exception> T atLeast(Algebra<T, E> algebra, int min, List<T> of)
      throws E {
    return min == 0 ? algebra.constant(true) : algebra.atLeast(min, of);
  }
}
