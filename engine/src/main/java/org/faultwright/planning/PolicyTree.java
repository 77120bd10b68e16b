package org.faultwright.planning;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.PriorityQueue;
import org.faultwright.planning.Assessment.Repairing;
import org.faultwright.planning.Assessment.Testing;
import org.faultwright.planning.Place.Attempt;
import org.faultwright.planning.Place.Result;

/**
 * All that may come of a policy, the likeliest first: places are worked out by the policy in the
 * order of their probability, until there are as many as may be; whatever is left then goes on
 * without tests, by {@link ProbabilityPerCost}. So every branch ends, and the figures are exact for
 * the policy that is cut off there.
 */
final class PolicyTree {

  /** Steps in a job, after which it is ended whatever the policy says. */
  static final int MOST_STEPS = 24;

  private static final Policy BEYOND = new ProbabilityPerCost();

  /** A place, what is done there, and where that leads. */
  static final class Node {
    final Place place;
    final double p;
    private final int order;
    private final int depth;
    private Policy policy;
    Policy.Choice choice = new Policy.Choice.End();

    /** After a test, its results; each belongs to the node at the same place of {@link #next}. */
    List<Seen> seen = List.of();

    /** After a repair, empty or the one where it has failed. */
    List<Node> next = new ArrayList<>();

    private double pPass;
    private double pComeback;
    private PlanNode written;

    private Node(Place place, double p, int order, int depth, Policy policy) {
      this.place = place;
      this.p = p;
      this.order = order;
      this.depth = depth;
      this.policy = policy;
    }

    /** This place and all that follows, as a plan. */
    PlanNode written() {
      return written;
    }
  }

  private final List<Node> all = new ArrayList<>();
  private double pBeyond;
  private double beyondLess;
  private double beyondMore;
  private final List<Node> cut = new ArrayList<>();

  private PolicyTree() {}

  /**
   * Works a policy out.
   *
   * @param mostPlaces places at which the policy itself is asked
   */
  static PolicyTree of(Place start, Policy policy, int mostPlaces) {
    PolicyTree tree = new PolicyTree();
    tree.grow(start, policy, mostPlaces);
    return tree;
  }

  Node root() {
    return all.get(0);
  }

  /** P(the job comes to where the policy is cut off). */
  double pBeyond() {
    return pBeyond;
  }

  /** By how much the policy could be cheaper if it were not cut off, at most. */
  double beyondLess() {
    return beyondLess;
  }

  /** By how much it could be dearer, at most. */
  double beyondMore() {
    return beyondMore;
  }

  private void grow(Place start, Policy policy, int mostPlaces) {
    PriorityQueue<Node> open =
        new PriorityQueue<>(
            Comparator.comparingDouble((Node n) -> -n.p).thenComparingInt(n -> n.order));
    open.add(node(start, 1, 0, policy));
    int asked = 0;
    while (!open.isEmpty()) {
      Node node = open.poll();
      if (node.place.nothingLost() || node.depth >= MOST_STEPS) {
        continue;
      }
      if (node.policy != BEYOND && asked++ >= mostPlaces) {
        node.policy = BEYOND;
        pBeyond += node.p;
        cut.add(node);
      }
      expand(node);
      open.addAll(node.next);
      node.place.forget();
    }
    for (int i = all.size() - 1; i >= 0; i--) {
      write(all.get(i));
    }
    for (Node node : cut) {
      double rest = node.written.expectedCost();
      beyondLess += node.p * rest;
      beyondMore +=
          node.p * Math.max(0, MostSpent.from(node.place, MOST_STEPS - node.depth) - rest);
    }
  }

  private Node node(Place place, double p, int depth, Policy policy) {
    Node node = new Node(place, p, all.size(), depth, policy);
    all.add(node);
    return node;
  }

  private void expand(Node node) {
    node.choice = node.policy.choose(node.place);
    if (node.choice instanceof Policy.Choice.Test test) {
      List<Seen> seen = new ArrayList<>();
      for (Result r : node.place.results(test.test())) {
        Policy then = node.policy.afterTest(r.seen());
        seen.add(r.seen());
        node.next.add(node(r.then(), node.p * r.p(), node.depth + 1, then));
      }
      node.seen = seen;
    } else if (node.choice instanceof Policy.Choice.Repair repair) {
      Attempt attempt = node.place.attempt(repair.repair());
      node.pPass = attempt.pPass();
      node.pComeback = attempt.pComeback();
      Optional<Place> failed = attempt.failed();
      double pFailed = node.p * (1 - attempt.pPass());
      failed.ifPresent(
          f -> node.next.add(node(f, pFailed, node.depth + 1, node.policy.afterFailure())));
    }
  }

  /** Children come later in the list than their parents, so that they are written by now. */
  private void write(Node node) {
    PlanSpending spending = node.place.spending();
    int bench = node.place.bench;
    if (node.place.nothingLost()) {
      node.written = spending.handedOver(bench, node.place.pLost());
    } else if (node.choice instanceof Policy.Choice.Test test) {
      node.written = written(spending, bench, test.test(), node);
    } else if (node.choice instanceof Policy.Choice.Repair choice) {
      Repairing repair = choice.repair();
      PlanNode passed = spending.handedOver(repair.bench(), node.pComeback);
      PlanNode failed = node.next.isEmpty() ? passed : node.next.get(0).written;
      node.written = spending.repair(bench, repair, node.pPass, passed, failed);
    } else {
      node.written = spending.exit(bench);
    }
  }

  private static PlanNode written(PlanSpending spending, int bench, Testing test, Node node) {
    List<PlanNode.Branch> branches = new ArrayList<>();
    double rest = 0;
    for (int i = 0; i < node.next.size(); i++) {
      Node next = node.next.get(i);
      double p = next.p / node.p;
      rest += p * next.written.expectedCost();
      branches.add(new PlanNode.Branch(node.seen.get(i), p, next.written));
    }
    return spending.test(bench, test, rest, branches);
  }
}
