package org.faultwright.interchange;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.SplittableRandom;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import org.faultwright.faulttree.EventName;
import org.faultwright.faulttree.FaultTree;
import org.faultwright.faulttree.Formula;
import org.faultwright.faulttree.RandomTrees;
import org.faultwright.faulttree.TreeNode;

/** What is written reads as what it was. */
class ExchangeProperty {

  @Property(tries = 300)
  void treeIsTheSame_whenWrittenAndRead(@ForAll long seed) {
    FaultTree tree = scoped(RandomTrees.any(seed), new SplittableRandom(seed));
    ExchangeText text = ExchangeText.of("t.xml", OpenPsa.write(tree));
    Reading<FaultTree> reading = OpenPsa.read(text, OptionalDouble.empty());
    assertThat(reading.report()).isEmpty();
    assertThat(((Reading.Readable<FaultTree>) reading).value()).isEqualTo(tree);
  }

  /** The same tree with labels, and some events private to components. */
  private static FaultTree scoped(FaultTree tree, SplittableRandom random) {
    List<String> containers = List.of("", "", "random.", "random.A.", "random.A.B.", "Other.C.");
    Map<EventName, EventName> names = new LinkedHashMap<>();
    for (EventName name : tree.nodes().keySet()) {
      names.put(name, new EventName(containers.get(random.nextInt(containers.size())) + name));
    }
    Map<EventName, TreeNode> nodes = new LinkedHashMap<>();
    tree.nodes()
        .forEach(
            (name, node) -> {
              String label = random.nextBoolean() ? "" : "5 < 6 & \"\u03a9\" > 3 of " + name;
              nodes.put(
                  names.get(name),
                  node instanceof TreeNode.Gate g
                      ? new TreeNode.Gate(label, renamed(g.formula(), names))
                      : node instanceof TreeNode.House h
                          ? new TreeNode.House(label, h.value())
                          : new TreeNode.Basic(label, ((TreeNode.Basic) node).probability()));
            });
    return new FaultTree(tree.name(), "a tree", nodes);
  }

  private static Formula renamed(Formula f, Map<EventName, EventName> names) {
    List<Formula> of = f.arguments().stream().map(x -> renamed(x, names)).toList();
    if (f instanceof Formula.Of event) {
      return new Formula.Of(names.get(event.event()));
    } else if (f instanceof Formula.And) {
      return new Formula.And(of);
    } else if (f instanceof Formula.Or) {
      return new Formula.Or(of);
    } else if (f instanceof Formula.Not) {
      return new Formula.Not(of.get(0));
    } else if (f instanceof Formula.Xor) {
      return new Formula.Xor(of);
    } else if (f instanceof Formula.Iff) {
      return new Formula.Iff(of);
    } else if (f instanceof Formula.Nand) {
      return new Formula.Nand(of);
    } else if (f instanceof Formula.Nor) {
      return new Formula.Nor(of);
    } else if (f instanceof Formula.AtLeast vote) {
      return new Formula.AtLeast(vote.min(), of);
    } else if (f instanceof Formula.Cardinality count) {
      return new Formula.Cardinality(count.min(), count.max(), of);
    } else if (f instanceof Formula.Imply) {
      return new Formula.Imply(of.get(0), of.get(1));
    }
    return f;
  }

  @Property(tries = 300)
  void networkIsTheSame_whenWrittenAndRead(@ForAll long seed) {
    BayesNetwork network = network(new SplittableRandom(seed));
    Reading<BayesNetwork> reading = Bif.read(ExchangeText.of("n.bif", Bif.write(network)));
    assertThat(reading.report()).isEmpty();
    assertThat(((Reading.Readable<BayesNetwork>) reading).value()).isEqualTo(network);
  }

  private static BayesNetwork network(SplittableRandom random) {
    List<String> strange =
        List.of("plain", "two words", "a,b", "table", "(x)", "<5", "\u03a9", "1.5");
    List<BayesNetwork.Variable> all = new ArrayList<>();
    int n = random.nextInt(1, 6);
    for (int v = 0; v < n; v++) {
      List<String> states = new ArrayList<>();
      for (int s = random.nextInt(2, 5); s > 0; s--) {
        states.add(strange.get(random.nextInt(strange.size())) + s);
      }
      List<Integer> parents = new ArrayList<>();
      int rows = 1;
      for (int p = 0; p < v; p++) {
        if (random.nextInt(2) == 0) {
          parents.add(p);
          rows *= all.get(p).states().size();
        }
      }
      List<List<Double>> table = new ArrayList<>();
      for (int r = 0; r < rows; r++) {
        table.add(row(states.size(), random));
      }
      all.add(
          new BayesNetwork.Variable(
              strange.get(random.nextInt(strange.size())) + " " + v, states, parents, table));
    }
    return new BayesNetwork("net " + random.nextInt(9), all);
  }

  private static List<Double> row(int states, SplittableRandom random) {
    double[] weights = random.doubles(states).map(x -> x < 0.2 ? 0 : x).toArray();
    double sum = 0;
    for (double w : weights) {
      sum += w;
    }
    List<Double> row = new ArrayList<>();
    for (int s = 0; s < states; s++) {
      row.add(sum == 0 ? (s == 0 ? 1.0 : 0.0) : weights[s] / sum);
    }
    return row;
  }
}
