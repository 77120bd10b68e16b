package org.faultwright.faulttree;

import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** A fault tree in the making, for tests: short ways to say what is in it. */
public final class TreeSketch {

  private final Map<EventName, TreeNode> nodes = new LinkedHashMap<>();

  /** A basic event. */
  public TreeSketch basic(String name, double p) {
    nodes.put(new EventName(name), new TreeNode.Basic("", new EventProbability.Fixed(p)));
    return this;
  }

  /** A basic event with a failure rate. */
  TreeSketch rate(String name, double rate, double time) {
    nodes.put(
        new EventName(name), new TreeNode.Basic("", new EventProbability.Exponential(rate, time)));
    return this;
  }

  TreeSketch house(String name, boolean value) {
    nodes.put(new EventName(name), new TreeNode.House("", value));
    return this;
  }

  /** A gate. */
  public TreeSketch gate(String name, Formula formula) {
    nodes.put(new EventName(name), new TreeNode.Gate("", formula));
    return this;
  }

  /** The tree. */
  public FaultTree build() {
    return new FaultTree("sketch", "", nodes);
  }

  /** Figures of a top event within the usual limits. */
  TreeFigures figures(String top) {
    return (TreeFigures) TreeAnalysis.of(build(), new EventName(top), AnalysisLimits.USUAL);
  }

  static List<EventName> names(String... names) {
    return Arrays.stream(names).map(EventName::new).toList();
  }

  static Formula of(String event) {
    return new Formula.Of(new EventName(event));
  }

  static List<Formula> list(Object... parts) {
    return Arrays.stream(parts).map(x -> x instanceof Formula f ? f : of((String) x)).toList();
  }

  /** All of these; events by name. */
  public static Formula and(Object... parts) {
    return new Formula.And(list(parts));
  }

  /** Any of these; events by name. */
  public static Formula or(Object... parts) {
    return new Formula.Or(list(parts));
  }

  /** Not this one. */
  public static Formula not(Object part) {
    return new Formula.Not(list(part).get(0));
  }

  /** At least so many of these. */
  public static Formula atLeast(int min, Object... parts) {
    return new Formula.AtLeast(min, list(parts));
  }
}
