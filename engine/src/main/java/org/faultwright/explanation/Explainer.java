package org.faultwright.explanation;

import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.faultwright.casefile.Fact;
import org.faultwright.casefile.Told;
import org.faultwright.compile.Belief;
import org.faultwright.compile.BeliefResult;
import org.faultwright.compile.CompiledPack;
import org.faultwright.compile.Coordinate;
import org.faultwright.compile.LikelyWorlds;
import org.faultwright.pack.Basis;
import org.faultwright.pack.Cause;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.ComplaintId;
import org.faultwright.pack.Observation;
import org.faultwright.pack.OutcomeId;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Step;
import org.faultwright.pack.StepId;
import org.faultwright.planning.DeviceModel;
import org.faultwright.planning.Seen;

/**
 * Explains what the facts of a case make one believe. Each weight costs one evaluation of the
 * circuit. Stateless but for the pack; safe for any number of threads.
 */
public final class Explainer {

  private final CompiledPack compiled;
  private final DeviceModel device;

  /** Explains in terms of a pack. */
  public Explainer(CompiledPack compiled, DeviceModel device) {
    this.compiled = compiled;
    this.device = device;
  }

  /**
   * Why a cause ranks where it does.
   *
   * @param facts the facts that stand, in order; possible together
   * @param worlds the likely worlds given the facts
   * @param ahead the steps whose outcomes are to be looked at ahead; what they would make of the
   *     cause holds to within what the worlds leave out
   * @throws IllegalArgumentException when the facts cannot all be true or the case is too wide for
   *     exact answers
   */
  public WhyCause why(
      CauseId cause, List<Told> facts, LikelyWorlds worlds, Collection<StepId> ahead) {
    Set<ComplaintId> reported = reported(facts);
    double pNow = belief(compiled.belief(facts, reported)).p(cause);
    List<Told> complaints =
        facts.stream().filter(t -> t.fact() instanceof Fact.Complained).toList();
    List<WhyCause.FactWeight> weights = new ArrayList<>();
    for (Told t : facts) {
      if (isEvidence(t.fact())) {
        List<Told> others = facts.stream().filter(x -> !x.equals(t)).toList();
        double without = belief(compiled.beliefOfSome(others, facts, reported)).p(cause);
        weights.add(new WhyCause.FactWeight(t, Weight.between(without, pNow)));
      }
    }
    weights.sort(Comparator.comparing(WhyCause.FactWeight::weight).reversed());
    return new WhyCause(
        cause,
        belief(compiled.beliefOfSome(complaints, facts, reported)).p(cause),
        pNow,
        weights,
        restsOn(cause, facts),
        wouldChange(cause, pNow, worlds, ahead),
        touched(cause, facts));
  }

  /** What was done that may have brought the cause, or what it follows, about; the last first. */
  private List<WhyCause.Touched> touched(CauseId cause, List<Told> facts) {
    Set<CauseId> roots = compiled.lineage().ancestors(cause);
    List<WhyCause.Touched> found = new ArrayList<>();
    for (Told t : facts) {
      if (t.fact() instanceof Fact.StepDone done) {
        double pNot = 1;
        for (Map.Entry<CauseId, Double> harm :
            compiled.lineage().harms(compiled.pack().steps().get(done.step())).entrySet()) {
          boolean itself = harm.getKey().equals(cause);
          boolean root = roots.contains(harm.getKey()) && !isOfItsGroup(harm.getKey(), cause);
          pNot *= itself || root ? 1 - harm.getValue() : 1;
        }
        if (pNot < 1) {
          found.add(0, new WhyCause.Touched(t, 1 - pNot));
        }
      }
    }
    return found;
  }

  private boolean isOfItsGroup(CauseId other, CauseId cause) {
    return compiled
        .pack()
        .causes()
        .get(cause)
        .oneOf()
        .filter(g -> compiled.pack().groups().get(g).members().contains(other))
        .isPresent();
  }

  /** As an answer asks for them, so that its network serves here too. */
  private static Set<ComplaintId> reported(List<Told> facts) {
    Set<ComplaintId> reported = new LinkedHashSet<>();
    for (Told t : facts) {
      if (t.fact() instanceof Fact.Complained c && c.reported()) {
        reported.add(c.complaint());
      }
    }
    return reported;
  }

  private static boolean isEvidence(Fact fact) {
    return fact instanceof Fact.SymptomNoted
        || fact instanceof Fact.HistorySaid
        || fact instanceof Fact.HistorySeen
        || fact instanceof Fact.OutcomeSeen
        || fact instanceof Fact.ReadingTaken;
  }

  private static Belief belief(BeliefResult result) {
    if (result instanceof Belief belief) {
      return belief;
    }
    throw new IllegalArgumentException(
        "facts must be possible together, and the case not too wide");
  }

  private List<WhyCause.WouldChange> wouldChange(
      CauseId cause, double pNow, LikelyWorlds worlds, Collection<StepId> ahead) {
    List<WhyCause.WouldChange> changes = new ArrayList<>();
    int at = worlds.coordinates().indexOf(new Coordinate.Present(cause));
    for (StepId step : ahead) {
      Map<OutcomeId, Double> pOutcome = new LinkedHashMap<>();
      Map<OutcomeId, Double> pBoth = new LinkedHashMap<>();
      for (int w = 0; w < worlds.size(); w++) {
        boolean present = at >= 0 && worlds.bits()[w][at] == 1;
        double pWorld = worlds.p()[w] / (1 - worlds.pLeftOut());
        for (Map.Entry<Seen, Double> f : device.pFindings(worlds, w, step).entrySet()) {
          if (f.getKey() instanceof Seen.Shown shown) {
            pOutcome.merge(shown.outcome(), pWorld * f.getValue(), Double::sum);
            pBoth.merge(shown.outcome(), present ? pWorld * f.getValue() : 0, Double::sum);
          }
        }
      }
      pOutcome.forEach(
          (o, p) -> {
            if (p > 0) {
              changes.add(
                  new WhyCause.WouldChange(step, o, Math.min(1, p), Math.min(1, pBoth.get(o) / p)));
            }
          });
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
