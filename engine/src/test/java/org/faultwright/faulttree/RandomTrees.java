package org.faultwright.faulttree;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.SplittableRandom;

/** Small random fault trees with shared events, and their figures by summing over all states. */
public final class RandomTrees {

  /** The top event of every random tree. */
  public static final EventName TOP = new EventName("top");

  private final SplittableRandom random;
  private final boolean coherent;
  private final boolean extremes;

  private RandomTrees(long seed, boolean coherent, boolean extremes) {
    this.random = new SplittableRandom(seed);
    this.coherent = coherent;
    this.extremes = extremes;
  }

  /** A tree with all connectives and house events; some probabilities are 0, tiny or 1. */
  public static FaultTree any(long seed) {
    return new RandomTrees(seed, false, true).draw();
  }

  /** A tree of and, or and votes. */
  static FaultTree coherent(long seed) {
    return new RandomTrees(seed, true, false).draw();
  }

  private FaultTree draw() {
    Map<EventName, TreeNode> nodes = new LinkedHashMap<>();
    int basics = random.nextInt(2, 8);
    for (int i = 0; i < basics; i++) {
      nodes.put(new EventName("e" + i), new TreeNode.Basic("", probability()));
    }
    if (!coherent && random.nextInt(3) == 0) {
      nodes.put(new EventName("house"), new TreeNode.House("", random.nextBoolean()));
    }
    int gates = random.nextInt(1, 6);
    for (int i = 0; i < gates; i++) {
      EventName name = i == gates - 1 ? TOP : new EventName("g" + i);
      List<EventName> below = List.copyOf(nodes.keySet());
      nodes.put(name, new TreeNode.Gate("", formula(below, 0)));
    }
    return new FaultTree("random", "", nodes);
  }

  private EventProbability probability() {
    int kind = extremes ? random.nextInt(12) : 11;
    return switch (kind) {
      case 0 -> new EventProbability.Fixed(0);
      case 1 -> new EventProbability.Fixed(1);
      case 2 -> new EventProbability.Fixed(1e-9 * random.nextDouble());
      case 3 -> new EventProbability.Exponential(random.nextDouble(), 2 * random.nextDouble());
      default -> new EventProbability.Fixed(random.nextDouble());
    };
  }

  private Formula formula(List<EventName> below, int depth) {
    if (depth > 0 && (depth > 2 || random.nextInt(3) > 0)) {
      return !coherent && random.nextInt(40) == 0
          ? new Formula.Constant(random.nextBoolean())
          : new Formula.Of(below.get(random.nextInt(below.size())));
    }
    List<Formula> of = new ArrayList<>();
    int inputs = random.nextInt(2, 5);
    for (int i = 0; i < inputs; i++) {
      of.add(formula(below, depth + 1));
    }
    int low = random.nextInt(inputs + 1);
    return switch (random.nextInt(coherent ? 4 : 12)) {
      case 0 -> new Formula.And(of);
      case 1, 2 -> new Formula.Or(of);
      case 3 -> new Formula.AtLeast(coherent ? Math.max(1, low) : low, of);
      case 4 -> new Formula.Xor(of);
      case 5 -> new Formula.Iff(of);
      case 6 -> new Formula.Nand(of);
      case 7 -> new Formula.Nor(of);
      case 8 -> new Formula.Not(of.get(0));
      case 9 -> new Formula.Imply(of.get(0), of.get(1));
      case 10 -> new Formula.Cardinality(low, low + random.nextInt(inputs + 1 - low), of);
      default -> new Formula.And(of);
    };
  }

  /** The basic events of a tree. */
  public static List<EventName> basics(FaultTree tree) {
    return tree.nodes().keySet().stream()
        .filter(n -> tree.nodes().get(n) instanceof TreeNode.Basic)
        .toList();
  }

  /** Whether the top event happens where exactly these basic events do. */
  public static boolean happens(FaultTree tree, EventName top, Set<EventName> happening) {
    TreeNode node = tree.nodes().get(top);
    if (node instanceof TreeNode.Basic) {
      return happening.contains(top);
    } else if (node instanceof TreeNode.House house) {
      return house.value();
    }
    return holds(tree, ((TreeNode.Gate) node).formula(), happening);
  }

  private static boolean holds(FaultTree tree, Formula formula, Set<EventName> happening) {
    if (formula instanceof Formula.Of of) {
      return happens(tree, of.event(), happening);
    } else if (formula instanceof Formula.Constant constant) {
      return constant.value();
    }
    List<Formula> of = formula.arguments();
    int yes = (int) of.stream().filter(x -> holds(tree, x, happening)).count();
    int no = of.size() - yes;
    if (formula instanceof Formula.And) {
      return no == 0;
    } else if (formula instanceof Formula.Or) {
      return yes > 0;
    } else if (formula instanceof Formula.Not) {
      return yes == 0;
    } else if (formula instanceof Formula.Xor) {
      return yes % 2 == 1;
    } else if (formula instanceof Formula.Iff) {
      return no % 2 == 0;
    } else if (formula instanceof Formula.Nand) {
      return no > 0;
    } else if (formula instanceof Formula.Nor) {
      return yes == 0;
    } else if (formula instanceof Formula.AtLeast vote) {
      return yes >= vote.min();
    } else if (formula instanceof Formula.Cardinality count) {
      return yes >= count.min() && yes <= count.max();
    }
    return !holds(tree, of.get(0), happening) || holds(tree, of.get(1), happening);
  }

  /** All sets of some events. */
  static List<Set<EventName>> subsets(List<EventName> events) {
    List<Set<EventName>> all = new ArrayList<>();
    for (int bits = 0; bits < 1 << events.size(); bits++) {
      Set<EventName> set = new LinkedHashSet<>();
      for (int i = 0; i < events.size(); i++) {
        if ((bits >> i & 1) == 1) {
          set.add(events.get(i));
        }
      }
      all.add(set);
    }
    return all;
  }

  /** P(top and condition) by summing over all states of the basic events. */
  static double p(FaultTree tree, java.util.function.Predicate<Set<EventName>> what) {
    double p = 0;
    List<EventName> basics = basics(tree);
    for (Set<EventName> happening : subsets(basics)) {
      if (what.test(happening)) {
        double product = 1;
        for (EventName e : basics) {
          EventProbability of = ((TreeNode.Basic) tree.nodes().get(e)).probability();
          product *= happening.contains(e) ? of.p() : of.pNot();
        }
        p += product;
      }
    }
    return p;
  }

  /** The same tree with another probability of one event. */
  static FaultTree with(FaultTree tree, EventName event, double p) {
    Map<EventName, TreeNode> nodes = new LinkedHashMap<>(tree.nodes());
    nodes.put(event, new TreeNode.Basic("", new EventProbability.Fixed(p)));
    return new FaultTree(tree.name(), tree.label(), nodes);
  }
}
