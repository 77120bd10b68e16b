package org.faultwright.compile;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import org.faultwright.inference.Model;

/**
 * Builds variables of a model from conditional rows over true-or-false parents. Equal requests
 * share a variable.
 */
final class Wiring {

  final Model model = new Model();
  private final Map<List<Object>, Ref> gates = new LinkedHashMap<>();

  /** An independent yes or no. */
  Ref coin(String name, double p) {
    return p == 0 || p == 1 ? Ref.of(p == 1) : root(name, p);
  }

  /** An independent yes or no that is a variable even where it is certain. */
  Ref.At root(String name, double p) {
    int v = model.variable(name, 2);
    model.factor(new int[] {v}, new int[] {model.constant(1 - p), model.constant(p)});
    return new Ref.At(v, 1);
  }

  /** {@code acc or (x and u)}. */
  Ref orAnd(String name, Ref acc, Ref x, Ref u) {
    if (acc.equals(Ref.YES) || x.equals(Ref.NO) || u.equals(Ref.NO)) {
      return acc;
    }
    if (acc.equals(Ref.NO)) {
      return and(name, x, u);
    }
    return gate("or", name, List.of(acc, x, u), t -> t[0] || (t[1] && t[2]));
  }

  /** {@code a or b}. */
  Ref or(String name, Ref a, Ref b) {
    return orAnd(name, a, b, Ref.YES);
  }

  /** {@code a and b}. */
  Ref and(String name, Ref a, Ref b) {
    if (a.equals(Ref.NO) || b.equals(Ref.NO)) {
      return Ref.NO;
    }
    if (a.equals(Ref.YES)) {
      return b;
    }
    if (b.equals(Ref.YES)) {
      return a;
    }
    return gate("and", name, List.of(a, b), t -> t[0] && t[1]);
  }

  /** {@code a and not b}. */
  Ref andNot(String name, Ref a, Ref b) {
    if (a.equals(Ref.NO) || b.equals(Ref.YES)) {
      return Ref.NO;
    }
    if (b.equals(Ref.NO)) {
      return a;
    }
    return gate("and-not", name, List.of(a, b), t -> t[0] && !t[1]);
  }

  /** The opposite. */
  Ref not(String name, Ref a) {
    if (a instanceof Ref.Known k) {
      return Ref.of(!k.value());
    }
    Ref.At at = (Ref.At) a;
    if (model.states(at.variable()) == 2) {
      return new Ref.At(at.variable(), 1 - at.state());
    }
    return gate("not", name, List.of(a), t -> !t[0]);
  }

  /** A function of the inputs, shared by equal requests with the same kind. */
  Ref gate(String kind, String name, List<Ref> inputs, Function<boolean[], Boolean> function) {
    List<Object> key = new ArrayList<>(inputs);
    key.add(kind);
    Ref known = gates.get(key);
    if (known == null) {
      known = noisy(name, inputs, t -> function.apply(t) ? 1.0 : 0.0);
      gates.put(key, known);
    }
    return known;
  }

  /** A yes or no with P(yes) by the truth of the inputs. */
  Ref noisy(String name, List<Ref> inputs, Function<boolean[], Double> pYes) {
    if (inputs.stream().allMatch(r -> r instanceof Ref.Known)) {
      return coin(name, pYes.apply(truths(inputs, Map.of())));
    }
    int v =
        variable(
            name,
            2,
            inputs,
            t -> {
              double p = pYes.apply(t);
              return new double[] {1 - p, p};
            });
    return new Ref.At(v, 1);
  }

  /** A variable of several states with a row of probabilities by the truth of the inputs. */
  int variable(String name, int states, List<Ref> inputs, Function<boolean[], double[]> row) {
    int[] parents =
        inputs.stream()
            .filter(r -> r instanceof Ref.At)
            .mapToInt(r -> ((Ref.At) r).variable())
            .distinct()
            .toArray();
    return model.conditional(
        name,
        states,
        parents,
        at -> {
          Map<Integer, Integer> where = new LinkedHashMap<>();
          for (int i = 0; i < parents.length; i++) {
            where.put(parents[i], at[i]);
          }
          return row.apply(truths(inputs, where));
        });
  }

  private static boolean[] truths(List<Ref> inputs, Map<Integer, Integer> where) {
    boolean[] t = new boolean[inputs.size()];
    for (int i = 0; i < t.length; i++) {
      Ref r = inputs.get(i);
      t[i] =
          r instanceof Ref.Known k
              ? k.value()
              : where.get(((Ref.At) r).variable()) == ((Ref.At) r).state();
    }
    return t;
  }
}
