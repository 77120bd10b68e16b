package org.faultwright.compile;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.DoubleUnaryOperator;
import org.faultwright.casefile.FactId;
import org.faultwright.casefile.Told;
import org.faultwright.compile.SensitivityAnalysis.Leaf;
import org.faultwright.compile.SensitivityAnalysis.Parameter;
import org.faultwright.inference.Evaluation;
import org.faultwright.pack.Cause;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.History;
import org.faultwright.pack.Observation;
import org.faultwright.pack.OneOf;
import org.faultwright.pack.OutcomeId;
import org.faultwright.pack.Pack;
import org.faultwright.pack.StepId;
import org.faultwright.pack.SymptomId;

/** The numbers of a pack that a belief rests on, with the leaves of the circuit behind them. */
final class NumbersBehind {

  private final CompiledPack compiled;
  private final Pack pack;
  private final Network network;
  private final Bound.Facts facts;
  private final Map<FactId, Told> told = new LinkedHashMap<>();
  private final List<Parameter> found = new ArrayList<>();

  NumbersBehind(CompiledPack compiled, Network network, Bound.Facts facts, List<Told> told) {
    this.compiled = compiled;
    this.pack = compiled.pack();
    this.network = network;
    this.facts = facts;
    told.forEach(t -> this.told.put(t.id(), t));
  }

  /**
   * All numbers.
   *
   * @param blank an evaluation of the circuit without evidence
   */
  List<Parameter> all(Evaluation blank) {
    network.priorParameters.forEach(this::prior);
    network.groupParameters.forEach(
        (id, parameters) -> {
          OneOf group = pack.groups().get(id);
          group.members().forEach(m -> member(group, m, parameters));
        });
    for (Bound b : facts.bound()) {
      if (b instanceof Bound.Report r && r.reported()) {
        Seen seen = network.seen.get(Slots.report(r.complaint()));
        double mistake = pack.complaints().get(r.complaint()).reportedByMistake().p();
        rate(new Sensitivity.Number.CriesWolf(told(b)), mistake, seen, false, x -> x, b, blank);
      } else if (b instanceof Bound.Witness w) {
        witness(w, blank);
      } else if (b instanceof Bound.OutcomeAt o) {
        outcome(o, blank);
      } else if (b instanceof Bound.SymptomAt s) {
        symptom(s, blank);
      }
    }
    return found;
  }

  private Told told(Bound b) {
    return told.get(b.fact());
  }

  private void prior(CauseId id, int[] parameters) {
    Cause cause = pack.causes().get(id);
    add(
        new Sensitivity.Number.PriorOf(id),
        compiled.priors().get(id),
        parameters,
        p -> Priors.rows(pack, cause, p));
  }

  private void member(OneOf group, CauseId id, int[] parameters) {
    double value = compiled.priors().get(id);
    double others = 0;
    for (CauseId m : group.members()) {
      others += m.equals(id) ? 0 : compiled.priors().get(m);
    }
    double most = group.certain() ? 1 : 1 - others;
    add(
        new Sensitivity.Number.PriorOf(id),
        value,
        parameters,
        p -> {
          Map<CauseId, Double> moved = new LinkedHashMap<>(compiled.priors());
          moved.put(id, Math.min(p, most));
          return Priors.rows(pack, group, moved);
        });
  }

  private void add(
      Sensitivity.Number number,
      double value,
      int[] parameters,
      java.util.function.DoubleFunction<double[]> rows) {
    List<Leaf> leaves = new ArrayList<>();
    double[] scale = new double[parameters.length];
    for (int i = 0; i < parameters.length; i++) {
      leaves.add(new Leaf.OfModel(parameters[i]));
      scale[i] = 1;
    }
    found.add(new Parameter(number, value, leaves, rows, scale));
  }

  private void witness(Bound.Witness w, Evaluation blank) {
    History history = pack.histories().get(w.history());
    Optional<History.Witness> witness = w.said() ? history.said() : history.seen();
    if (witness.isEmpty() || !(network.histories.get(w.history()) instanceof Ref.At at)) {
      return;
    }
    DoubleUnaryOperator weight = p -> w.yes() ? p : 1 - p;
    List<Leaf> yes = List.of(new Leaf.OfState(at.variable(), at.state()));
    List<Leaf> no = List.of(new Leaf.OfState(at.variable(), 1 - at.state()));
    add(
        new Sensitivity.Number.Catches(told(w)),
        witness.get().catches().p(),
        yes,
        weight,
        w,
        blank);
    add(
        new Sensitivity.Number.CriesWolf(told(w)),
        witness.get().criesWolf().p(),
        no,
        weight,
        w,
        blank);
  }

  private void outcome(Bound.OutcomeAt o, Evaluation blank) {
    Observation shows = pack.steps().get((StepId) o.slot().what()).shows().orElseThrow();
    Seen seen = network.seen.get(o.slot());
    boolean positive = seen.outcomes().get(0).equals(o.outcome());
    if (shows instanceof Observation.OfNode node) {
      ofNode(node, seen, p -> positive ? p : 1 - p, o, blank);
    } else if (shows instanceof Observation.OfStates states) {
      for (int s = 0; seen.variable() >= 0 && s < states.rows().size(); s++) {
        row(o, states, seen, s, o.outcome(), blank);
      }
    }
  }

  /** Rows stand in the order of the states, normal first. */
  private void row(
      Bound.OutcomeAt o,
      Observation.OfStates states,
      Seen seen,
      int s,
      OutcomeId outcome,
      Evaluation blank) {
    add(
        new Sensitivity.Number.Shows(
            told(o),
            s == 0 ? org.faultwright.pack.StateId.NORMAL : states.states().get(s - 1).id()),
        seen.likelihood(outcome)[s],
        List.of(new Leaf.OfState(seen.variable(), s)),
        p -> p,
        o,
        blank);
  }

  private void symptom(Bound.SymptomAt s, Evaluation blank) {
    boolean alone =
        facts.bound().stream()
            .filter(b -> b instanceof Bound.SymptomAt x && x.slot().equals(s.slot()))
            .map(Bound.class::cast)
            .allMatch(s::equals);
    Optional<Observation> shows = pack.symptoms().get((SymptomId) s.slot().what()).shows();
    if (!alone || !(shows.orElse(null) instanceof Observation.OfNode node)) {
      return;
    }
    double overlooked = pack.symptoms().get((SymptomId) s.slot().what()).overlooked().p();
    DoubleUnaryOperator weight =
        switch (s.value()) {
          case PRESENT, SOMETIMES -> p -> p;
          case ABSENT -> p -> 1 - p;
          case NOT_SEEN -> p -> overlooked * p + 1 - p;
          case NOT_KNOWN -> p -> 1;
        };
    ofNode(node, network.seen.get(s.slot()), weight, s, blank);
  }

  private void ofNode(
      Observation.OfNode node, Seen seen, DoubleUnaryOperator weight, Bound b, Evaluation blank) {
    rate(new Sensitivity.Number.Catches(told(b)), node.catches().p(), seen, true, weight, b, blank);
    rate(
        new Sensitivity.Number.CriesWolf(told(b)),
        node.criesWolf().p(),
        seen,
        false,
        weight,
        b,
        blank);
  }

  /** A rate of an observation of one node, on the states in which the node holds or does not. */
  private void rate(
      Sensitivity.Number number,
      double value,
      Seen seen,
      boolean holds,
      DoubleUnaryOperator weight,
      Bound b,
      Evaluation blank) {
    if (seen.variable() < 0) {
      return;
    }
    List<Leaf> leaves = new ArrayList<>();
    for (int s = 0; s < seen.rows().length; s++) {
      if ((s == seen.holds()) == holds) {
        leaves.add(new Leaf.OfState(seen.variable(), s));
      }
    }
    add(number, value, leaves, weight, b, blank);
  }

  /** A number behind weights of states; what other facts weigh there multiplies. */
  private void add(
      Sensitivity.Number number,
      double value,
      List<Leaf> leaves,
      DoubleUnaryOperator weight,
      Bound b,
      Evaluation blank) {
    List<Bound> others = new ArrayList<>(facts.bound());
    others.removeIf(x -> x.equals(b) || x instanceof Bound.ReadingAt);
    blank.clear();
    compiled.enter(network, others, blank);
    double[] scale = new double[leaves.size()];
    for (int i = 0; i < scale.length; i++) {
      Leaf.OfState leaf = (Leaf.OfState) leaves.get(i);
      scale[i] = blank.weight(leaf.variable(), leaf.state());
    }
    found.add(
        new Parameter(
            number,
            value,
            leaves,
            p -> {
              double[] values = new double[leaves.size()];
              java.util.Arrays.fill(values, weight.applyAsDouble(p));
              return values;
            },
            scale));
  }
}
