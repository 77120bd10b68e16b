package org.faultwright.faulttree;

import java.util.List;

/**
 * What makes basic events depend on one another: roots that several of them share, and groups of
 * which at most one happens. Basic events that are not named here are independent.
 *
 * @param roots things that happen independently of one another
 * @param given basic events whose probabilities depend on roots, or on one another
 */
public record Dependence(List<Root> roots, List<Given> given) {

  /** All basic events are independent. */
  public static final Dependence NONE = new Dependence(List.of(), List.of());

  /** Copies the lists. */
  public Dependence {
    roots = List.copyOf(roots);
    given = List.copyOf(given);
  }

  /** Something that several basic events depend on. */
  public record Root(String name, double p) {}

  /**
   * Basic events of which at most one happens, or a single one.
   *
   * @param roots numbers of the roots that it depends on
   * @param members the basic events
   * @param rows for each combination of the roots (no before yes, the last running fastest) first
   *     P(none), then P(member) in order
   */
  public record Given(List<Integer> roots, List<EventName> members, List<Double> rows) {
    /** Copies the lists and checks how many numbers there are. */
    public Given {
      roots = List.copyOf(roots);
      members = List.copyOf(members);
      rows = List.copyOf(rows);
      int wanted = (members.size() + 1) << roots.size();
      if (rows.size() != wanted) {
        throw new IllegalArgumentException("rows must be " + wanted + ": " + rows.size());
      }
    }
  }

  /** The groups with several members. */
  public List<List<EventName>> exclusive() {
    return given.stream().map(Given::members).filter(m -> m.size() > 1).toList();
  }
}
