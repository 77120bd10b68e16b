package org.faultwright.faulttree;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** Trees that say the same in other words. */
final class TreeRewrite {

  private TreeRewrite() {}

  /** With every and as a negated or of negations, and every or likewise. */
  static FaultTree byDeMorgan(FaultTree tree) {
    Map<EventName, TreeNode> nodes = new LinkedHashMap<>();
    tree.nodes()
        .forEach(
            (name, node) ->
                nodes.put(
                    name,
                    node instanceof TreeNode.Gate gate
                        ? new TreeNode.Gate("", deMorgan(gate.formula()))
                        : node));
    return new FaultTree(tree.name(), "", nodes);
  }

  private static Formula deMorgan(Formula formula) {
    List<Formula> of = formula.arguments().stream().map(TreeRewrite::deMorgan).toList();
    if (formula instanceof Formula.And) {
      return new Formula.Not(new Formula.Or(of.stream().map(TreeRewrite::not).toList()));
    } else if (formula instanceof Formula.Or) {
      return new Formula.Not(new Formula.And(of.stream().map(TreeRewrite::not).toList()));
    } else if (formula instanceof Formula.Imply) {
      return new Formula.Not(new Formula.And(List.of(of.get(0), not(of.get(1)))));
    }
    return rebuilt(formula, of);
  }

  private static Formula not(Formula formula) {
    return new Formula.Not(formula);
  }

  private static Formula rebuilt(Formula formula, List<Formula> of) {
    if (formula instanceof Formula.And) {
      return new Formula.And(of);
    } else if (formula instanceof Formula.Or) {
      return new Formula.Or(of);
    } else if (formula instanceof Formula.Not) {
      return new Formula.Not(of.get(0));
    } else if (formula instanceof Formula.Xor) {
      return new Formula.Xor(of);
    } else if (formula instanceof Formula.Iff) {
      return new Formula.Iff(of);
    } else if (formula instanceof Formula.Nand) {
      return new Formula.Nand(of);
    } else if (formula instanceof Formula.Nor) {
      return new Formula.Nor(of);
    } else if (formula instanceof Formula.AtLeast vote) {
      return new Formula.AtLeast(vote.min(), of);
    } else if (formula instanceof Formula.Cardinality count) {
      return new Formula.Cardinality(count.min(), count.max(), of);
    } else if (formula instanceof Formula.Imply) {
      return new Formula.Imply(of.get(0), of.get(1));
    }
    return formula;
  }

  /** With all gates written into the top event. */
  static FaultTree inOne(FaultTree tree) {
    Map<EventName, TreeNode> nodes = new LinkedHashMap<>();
    tree.nodes()
        .forEach(
            (name, node) -> {
              if (!(node instanceof TreeNode.Gate)) {
                nodes.put(name, node);
              }
            });
    nodes.put(RandomTrees.TOP, new TreeNode.Gate("", flat(tree, new Formula.Of(RandomTrees.TOP))));
    return new FaultTree(tree.name(), "", nodes);
  }

  private static Formula flat(FaultTree tree, Formula formula) {
    if (formula instanceof Formula.Of of
        && tree.nodes().get(of.event()) instanceof TreeNode.Gate gate) {
      return flat(tree, gate.formula());
    }
    return rebuilt(formula, formula.arguments().stream().map(x -> flat(tree, x)).toList());
  }

  /** With every and and or cut in two, the halves being gates of their own. */
  static FaultTree split(FaultTree tree) {
    Map<EventName, TreeNode> nodes = new LinkedHashMap<>();
    tree.nodes()
        .forEach(
            (name, node) ->
                nodes.put(
                    name,
                    node instanceof TreeNode.Gate gate
                        ? new TreeNode.Gate("", split(gate.formula(), nodes))
                        : node));
    return new FaultTree(tree.name(), "", nodes);
  }

  private static Formula split(Formula formula, Map<EventName, TreeNode> nodes) {
    List<Formula> of = formula.arguments().stream().map(x -> split(x, nodes)).toList();
    if (of.size() < 3 || !(formula instanceof Formula.And || formula instanceof Formula.Or)) {
      return rebuilt(formula, of);
    }
    int half = of.size() / 2;
    List<Formula> halves = new ArrayList<>();
    for (List<Formula> part : List.of(of.subList(0, half), of.subList(half, of.size()))) {
      EventName name = new EventName("half" + nodes.size());
      nodes.put(name, new TreeNode.Gate("", rebuilt(formula, part)));
      halves.add(new Formula.Of(name));
    }
    return rebuilt(formula, halves);
  }
}
