package org.faultwright.explanation;

import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.faultwright.casefile.Fact;
import org.faultwright.casefile.FactId;
import org.faultwright.casefile.Told;
import org.faultwright.compile.Belief;
import org.faultwright.compile.CompiledPack;
import org.faultwright.pack.Basis;
import org.faultwright.pack.Cause;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.Observation;
import org.faultwright.pack.OutcomeId;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Step;
import org.faultwright.pack.StepId;

/**
 * Explains what the facts of a case make one believe. Each weight costs one evaluation of the
 * circuit. Stateless but for the pack; safe for any number of threads.
 */
public final class Explainer {

  private final CompiledPack compiled;

  /** Explains in terms of a pack. */
  public Explainer(CompiledPack compiled) {
    this.compiled = compiled;
  }

  /**
   * Why a cause ranks where it does.
   *
   * @param facts the facts that stand, in order; possible together
   * @param open the steps whose outcomes are to be looked at ahead
   * @throws IllegalArgumentException when the facts cannot all be true or the case is too wide for
   *     exact answers
   */
  public WhyCause why(CauseId cause, List<Told> facts, Collection<StepId> open) {
    double pNow = belief(facts).p(cause);
    List<Told> complaints =
        facts.stream().filter(t -> t.fact() instanceof Fact.Complained).toList();
    List<WhyCause.FactWeight> weights = new ArrayList<>();
    for (Told t : facts) {
      if (isEvidence(t.fact())) {
        double without = belief(facts.stream().filter(x -> !x.equals(t)).toList()).p(cause);
        weights.add(new WhyCause.FactWeight(t, Weight.between(without, pNow)));
      }
    }
    weights.sort(Comparator.comparing(WhyCause.FactWeight::weight).reversed());
    return new WhyCause(
        cause,
        belief(complaints).p(cause),
        pNow,
        weights,
        restsOn(cause, facts),
        wouldChange(cause, pNow, facts, open));
  }

  private static boolean isEvidence(Fact fact) {
    return fact instanceof Fact.SymptomNoted
        || fact instanceof Fact.HistorySaid
        || fact instanceof Fact.HistorySeen
        || fact instanceof Fact.OutcomeSeen
        || fact instanceof Fact.ReadingTaken;
  }

  private Belief belief(List<Told> facts) {
    if (compiled.belief(facts) instanceof Belief belief) {
      return belief;
    }
    throw new IllegalArgumentException(
        "facts must be possible together, and the case not too wide");
  }

  private List<WhyCause.WouldChange> wouldChange(
      CauseId cause, double pNow, List<Told> facts, Collection<StepId> open) {
    List<WhyCause.WouldChange> changes = new ArrayList<>();
    Belief now = belief(facts);
    int next = facts.stream().mapToInt(t -> t.id().number()).max().orElse(0) + 1;
    for (StepId step : open) {
      if (compiled.pack().steps().get(step).shows().isEmpty()) {
        continue;
      }
      for (Map.Entry<OutcomeId, Double> o : now.outcomes(step).entrySet()) {
        List<Told> more = new ArrayList<>(facts);
        more.add(
            new Told(
                new FactId(next),
                java.util.Optional.empty(),
                new Fact.OutcomeSeen(step, o.getKey())));
        if (o.getValue() > 0 && compiled.belief(more) instanceof Belief then) {
          changes.add(new WhyCause.WouldChange(step, o.getKey(), o.getValue(), then.p(cause)));
        }
      }
    }
    changes.sort(
        Comparator.comparingDouble((WhyCause.WouldChange c) -> -Math.abs(c.pThen() - pNow)));
    return changes;
  }

  private List<Basis> restsOn(CauseId id, List<Told> facts) {
    Set<Basis> found = new LinkedHashSet<>();
    Pack pack = compiled.pack();
    Cause cause = pack.causes().get(id);
    if (cause.likelihood() instanceof Cause.Likelihood.Prior p) {
      found.add(p.chance().basis());
    } else if (cause.likelihood() instanceof Cause.Likelihood.Share s) {
      found.add(s.share().basis());
    }
    for (Told t : facts) {
      if (t.fact() instanceof Fact.OutcomeSeen o) {
        pack.steps().get(o.step()).shows().ifPresent(s -> addBasis(found, s));
      } else if (t.fact() instanceof Fact.SymptomNoted s) {
        pack.symptoms().get(s.symptom()).shows().ifPresent(x -> addBasis(found, x));
      } else if (t.fact() instanceof Fact.ReadingTaken r) {
        pack.steps().values().stream()
            .flatMap(s -> s.pinTable().map(Step.PinTable::points).orElse(List.of()).stream())
            .filter(p -> p.id().equals(r.point()))
            .forEach(p -> found.add(p.basis()));
      }
    }
    found.removeIf(b -> b instanceof Basis.ByDefinition);
    return List.copyOf(found);
  }

  private static void addBasis(Set<Basis> found, Observation shows) {
    if (shows instanceof Observation.OfNode o) {
      found.add(o.catches().basis());
      found.add(o.criesWolf().basis());
    } else if (shows instanceof Observation.OfNodes o) {
      o.rates().values().forEach(c -> found.add(c.basis()));
    } else if (shows instanceof Observation.OfStates o) {
      o.rows().values().forEach(row -> row.values().forEach(c -> found.add(c.basis())));
    } else if (shows instanceof Observation.OfTable o) {
      o.rows().values().forEach(row -> row.forEach(c -> found.add(c.basis())));
    }
  }
}
