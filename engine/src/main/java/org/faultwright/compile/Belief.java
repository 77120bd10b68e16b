package org.faultwright.compile;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.faultwright.casefile.Told;
import org.faultwright.inference.Marginals;
import org.faultwright.inference.Mixture;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.ComplaintId;
import org.faultwright.pack.EventId;
import org.faultwright.pack.HistoryId;
import org.faultwright.pack.Lineage;
import org.faultwright.pack.OutcomeId;
import org.faultwright.pack.Point;
import org.faultwright.pack.PointId;
import org.faultwright.pack.StateId;
import org.faultwright.pack.Step;
import org.faultwright.pack.StepId;

/**
 * What the facts of a case make one believe: exact probabilities given all of them. Several causes
 * may be present at once, so that their probabilities need not sum to 1. Confined to one thread.
 */
public final class Belief implements BeliefResult {

  private final CompiledPack compiled;
  private final List<Told> told;
  private final Network network;
  private final Bound.Facts facts;
  private final Mixture evaluation;
  private final List<SharedOffsets> offsets;
  private final double logPEvidence;
  private final Marginals.Route route;
  private Optional<Together> together = Optional.empty();

  Belief(
      CompiledPack compiled,
      List<Told> told,
      Network network,
      Bound.Facts facts,
      Evidence.Entered entered,
      double logPEvidence,
      Marginals.Route route) {
    this.compiled = compiled;
    this.told = told;
    this.network = network;
    this.facts = facts;
    this.evaluation = entered.mixture();
    this.offsets = entered.offsets();
    this.logPEvidence = logPEvidence;
    this.route = route;
  }

  /** ln P(all facts); readings enter by their probability density. */
  public double logPEvidence() {
    return logPEvidence;
  }

  /**
   * How the probabilities were found: by the network of all that can be seen, or, where that is too
   * wide, by what the facts leave of it.
   */
  public Marginals.Route route() {
    return route;
  }

  /** P(the cause is present now). */
  public double p(CauseId cause) {
    return p(network.causes.get(cause));
  }

  /** P(the event holds now), at rest. May compile a network of its own. */
  public double p(EventId event) {
    int now = facts.timeline().now();
    return holding(new Slot(event, now, 0)).pNow(event);
  }

  private double pNow(EventId event) {
    return p(network.events.get(event));
  }

  /** This belief on a network that holds the slot. */
  private Belief holding(Slot slot) {
    boolean held =
        slot.what() instanceof EventId e
            ? network.events.containsKey(e)
            : slot.what() instanceof ComplaintId c && slot.repeat() == Slots.LATER
                ? network.comesBack.containsKey(c)
                : slot.what() instanceof PointId p
                    ? network.points.containsKey(p)
                        && network.points.get(p).containsKey(slot.epoch())
                    : network.seen.containsKey(slot);
    if (held) {
      return this;
    }
    BeliefResult wider = compiled.believe(told, java.util.Set.of(slot), (n, e) -> {});
    if (wider instanceof Belief belief) {
      return belief;
    }
    throw new IllegalStateException(
        "what is asked must fit the budget: " + slot.what() + ", " + wider);
  }

  /**
   * What the readings say of the systematic error of each instrument that several of them share, in
   * the order of instruments.
   */
  public List<SharedOffset> sharedOffsets() {
    return offsets.stream().map(o -> o.given(evaluation)).toList();
  }

  /** P(it happened). */
  public double p(HistoryId history) {
    return p(network.histories.get(history));
  }

  /** P(the function is lost now), at rest. */
  public double pLost(ComplaintId complaint) {
    return p(compiled.pack().complaints().get(complaint).event());
  }

  /**
   * P(the function is lost in use once nothing is hidden any longer): what comes and goes shows
   * itself in the end, and what an attempt has only hidden acts again. May compile a network of its
   * own.
   */
  public double pComesBack(ComplaintId complaint) {
    Slot slot = Slots.comesBack(complaint, facts.timeline().now());
    Belief held = holding(slot);
    return held.p(held.network.comesBack.get(complaint));
  }

  /** P(present now) for every cause, in pack order. */
  public Map<CauseId, Double> causes() {
    Map<CauseId, Double> all = new LinkedHashMap<>();
    network.causes.keySet().forEach(c -> all.put(c, p(c)));
    return all;
  }

  /** P(both causes are present now). */
  public double pBoth(CauseId a, CauseId b) {
    return together().pBoth(a, b);
  }

  /**
   * The most probable sets of causes.
   *
   * @param count how many, at least 1
   */
  public Explanations explanations(int count) {
    return together().best(count);
  }

  private Together together() {
    if (together.isEmpty()) {
      together = Optional.of(new Together(network, evaluation));
    }
    return together.get();
  }

  /**
   * How well the facts agree with one another, and what each was to be expected to be given the
   * others. Costs two evaluations of the circuit for each fact.
   */
  public Conflict conflict() {
    return new Agreement(compiled, told).conflict(logPEvidence);
  }

  /**
   * How much a cause's probability changes with each number that it rests on, and how far each may
   * move before another cause is the likelier one. Costs one evaluation of the circuit for each
   * cause.
   */
  public Sensitivity sensitivity(CauseId cause) {
    return new SensitivityAnalysis(compiled, network, facts, evaluation, told).of(cause);
  }

  private double p(Ref ref) {
    return ref instanceof Ref.At at
        ? Math.min(1, evaluation.marginal(at.variable(), at.state()))
        : ((Ref.Known) ref).value() ? 1 : 0;
  }

  /**
   * P(outcome) of the next carrying out of a step that has outcomes, in the author's order. May
   * compile a network of its own.
   *
   * @throws IllegalArgumentException when the step shows no outcomes
   */
  public Map<OutcomeId, Double> outcomes(StepId id) {
    Step step = compiled.pack().steps().get(id);
    if (step.shows().isEmpty()) {
      throw new IllegalArgumentException("step must show outcomes: " + id);
    }
    int settled =
        facts.timeline().settled(compiled.lineage().ancestors(step), facts.timeline().now());
    Slot slot = new Slot(id, settled, 0);
    OutcomeId first = facts.first().get(slot);
    double pCopies = first == null ? 0 : step.copies();
    Slot next =
        first == null || pCopies == 1 ? slot : new Slot(id, settled, facts.repeats().get(slot));
    Belief holding = holding(next);
    Map<OutcomeId, Double> all = new LinkedHashMap<>();
    for (OutcomeId o : step.shows().get().outcomes()) {
      double fresh = pCopies == 1 ? 0 : holding.fresh(next, o);
      all.put(o, pCopies * (o.equals(first) ? 1 : 0) + (1 - pCopies) * fresh);
    }
    return all;
  }

  private double fresh(Slot slot, OutcomeId outcome) {
    Seen seen = network.seen.get(slot);
    double[] rows = seen.likelihood(outcome);
    if (seen.variable() < 0) {
      return rows[0];
    }
    double p = 0;
    for (int s = 0; s < rows.length; s++) {
      p += rows[s] * evaluation.marginal(seen.variable(), s);
    }
    return p;
  }

  /**
   * P(true state) at a point now, {@link StateId#NORMAL} first. May compile a network of its own.
   */
  public Map<StateId, Double> states(PointId id) {
    for (Step step : compiled.pack().steps().values()) {
      for (Point p : step.pinTable().map(Step.PinTable::points).orElse(List.of())) {
        if (p.id().equals(id)) {
          java.util.Set<CauseId> ancestors = compiled.lineage().ancestors(p);
          int settled = facts.timeline().settled(ancestors, facts.timeline().now());
          return holding(new Slot(id, settled, 0)).statesIn(id, settled);
        }
      }
    }
    throw new IllegalArgumentException("point must be one of the pack: " + id);
  }

  private Map<StateId, Double> statesIn(PointId id, int epoch) {
    Observations.PointState state = network.points.get(id).get(epoch);
    Map<StateId, Double> all = new LinkedHashMap<>();
    for (int s = 0; s <= state.point().states().size(); s++) {
      StateId name = s == 0 ? StateId.NORMAL : state.point().states().get(s - 1).id();
      all.put(
          name,
          state.variable() < 0
              ? (-1 - state.variable() == s ? 1.0 : 0.0)
              : evaluation.marginal(state.variable(), s));
    }
    return all;
  }

  /**
   * The likely worlds of the current epoch.
   *
   * @param pLeftOut the probability that may be left out, above 0
   * @param most the most worlds that are listed, at least 1
   */
  public LikelyWorlds worlds(double pLeftOut, int most) {
    return worlds(pLeftOut, most, c -> true);
  }

  /**
   * As {@link #worlds}, as far as the next step can tell: a strength on which nothing hangs but
   * what has been seen, and is not looked at again to prove a repair, is summed over and stays
   * unresolved. A pin table tells a little of a hundred such strengths.
   */
  public LikelyWorlds worldsAhead(double pLeftOut, int most) {
    return worlds(pLeftOut, most, lookedAtAgain());
  }

  private LikelyWorlds worlds(
      double pLeftOut, int most, java.util.function.Predicate<Coordinate> ofInterest) {
    java.util.Set<Coordinate> told = new java.util.LinkedHashSet<>();
    for (Slot slot : Slots.observed(facts)) {
      told.addAll(Bits.of(compiled.pack(), slot));
    }
    told.removeIf(ofInterest.negate());
    boolean afterAttempt = facts.timeline().now() > 0;
    return new WorldSearch(
            compiled.pack(), compiled.lineage(), network, evaluation, told, afterAttempt)
        .find(pLeftOut, most);
  }

  /** Whether a step or a repair that comes next may look at something again. */
  private java.util.function.Predicate<Coordinate> lookedAtAgain() {
    java.util.Set<StepId> proofs = new java.util.LinkedHashSet<>();
    for (Step step : compiled.pack().steps().values()) {
      step.thenRepeat().ifPresent(proofs::add);
      step.proves().ifPresent(c -> proofs.add(step.id()));
    }
    java.util.Set<Slot> seen = Slots.observed(facts);
    java.util.Set<Object> done = new java.util.LinkedHashSet<>();
    for (Step step : compiled.pack().steps().values()) {
      if (proofs.contains(step.id())) {
        continue;
      }
      if (step.copies() == 1 && seen.contains(now(step.id(), compiled.lineage().ancestors(step)))) {
        done.add(step.id());
      }
      for (Point p : step.pinTable().map(Step.PinTable::points).orElse(List.of())) {
        if (seen.contains(now(p.id(), compiled.lineage().ancestors(Lineage.looksAt(p))))) {
          done.add(p.id());
        }
      }
    }
    return c ->
        !(c instanceof Coordinate.Strength s)
            || !(s.owner() instanceof Coordinate.Owner.OfSymptomState
                || s.owner() instanceof Coordinate.Owner.OfStepState o && done.contains(o.step())
                || s.owner() instanceof Coordinate.Owner.OfPointState p
                    && done.contains(p.point()));
  }

  private Slot now(org.faultwright.pack.Id what, java.util.Set<CauseId> ancestors) {
    return new Slot(what, facts.timeline().settled(ancestors, facts.timeline().now()), 0);
  }
}
