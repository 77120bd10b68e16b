package org.faultwright.faulttree;

/** An event of a fault tree, as it is defined. */
public sealed interface TreeNode {

  /** What the event is, for people; empty: nothing is said. */
  String label();

  /** An event that follows from others. */
  record Gate(String label, Formula formula) implements TreeNode {}

  /** An event that is looked into no further. Basic events are independent of one another. */
  record Basic(String label, EventProbability probability) implements TreeNode {}

  /** An event that is set to happen or not to happen, by whoever analyses the tree. */
  record House(String label, boolean value) implements TreeNode {}
}
