package org.faultwright.planning;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.faultwright.casefile.Fact;
import org.faultwright.casefile.Told;
import org.faultwright.oracle.Facts;
import org.faultwright.oracle.ModelledReadings;
import org.faultwright.oracle.WorldEnumerator;
import org.faultwright.pack.Cause;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.Chance;
import org.faultwright.pack.ComplaintId;
import org.faultwright.pack.Lineage;
import org.faultwright.pack.Observation;
import org.faultwright.pack.OutcomeId;
import org.faultwright.pack.Pack;
import org.faultwright.pack.StateId;
import org.faultwright.pack.Step;
import org.faultwright.pack.StepId;

/**
 * ECR0, and what a job takes with a test, by brute force, straight from the semantics: every
 * sequence of repairs is written down as facts, and the enumerator of worlds says how likely each
 * turn of events is. One complaint, no switches, everything allowed.
 */
final class PlanOracle {

  /** A step of the pack that changes nothing that matters: what was hidden acts again after it. */
  static final String NOTHING = "nothing";

  private final Pack pack;
  private final Shop shop;
  private final ComplaintId complaint;
  private final List<Step> repairs = new ArrayList<>();

  PlanOracle(Pack pack, Shop shop, ComplaintId complaint, List<Fact> facts) {
    this.pack = pack;
    this.shop = shop;
    this.complaint = complaint;
    Lineage lineage = Lineage.of(pack);
    WorldEnumerator now = enumerator(facts);
    for (Step step : pack.steps().values()) {
      boolean helps = !step.changes().isEmpty() || step.swap().isPresent();
      boolean isDone = facts.contains(new Fact.StepDone(step.id(), Optional.empty()));
      if (helps && !isDone) {
        for (CauseId cause : lineage.touches(step)) {
          if (lineage.ancestors(pack.complaints().get(complaint).event()).contains(cause)
              && now.p(cause) > 1e-6) {
            repairs.add(step);
            break;
          }
        }
      }
    }
  }

  List<Step> repairs() {
    return repairs;
  }

  private WorldEnumerator enumerator(List<Fact> facts) {
    Map<CauseId, Double> pOwn = new LinkedHashMap<>();
    for (Cause cause : pack.causes().values()) {
      if (cause.likelihood() instanceof Cause.Likelihood.Prior prior) {
        pOwn.put(cause.id(), prior.chance().p());
      }
    }
    List<Told> told = Facts.told(facts);
    return new WorldEnumerator(pack, pOwn, told, new ModelledReadings(pack))
        .withMostWorlds(2_000_000);
  }

  /** The least expected cost of any sequence of repairs after these facts. */
  double ecr0(List<Fact> facts) {
    return cheapest(facts).cost(shop);
  }

  /** What that sequence is expected to take. */
  Spend cheapest(List<Fact> facts) {
    return cheapest(facts, repairs);
  }

  private Spend cheapest(List<Fact> facts, List<Step> left) {
    Spend best = new Spend(0, 0, shop.sendOnFee(), 0);
    for (Step repair : left) {
      List<Step> others = new ArrayList<>(left);
      others.remove(repair);
      Spend way = from(repair, facts, others);
      best = way.cost(shop) < best.cost(shop) ? way : best;
    }
    return best;
  }

  /** What the cheapest sequence that begins with a repair is expected to take. */
  Spend from(Step repair, List<Fact> facts) {
    List<Step> others = new ArrayList<>(repairs);
    others.remove(repair);
    return from(repair, facts, others);
  }

  private Spend from(Step repair, List<Fact> facts, List<Step> others) {
    List<Fact> after = with(facts, new Fact.StepDone(repair.id(), Optional.empty()));
    Step test =
        pack.steps()
            .get(
                repair
                    .thenRepeat()
                    .orElseGet(
                        () ->
                            pack.steps().values().stream()
                                .filter(s -> s.proves().filter(complaint::equals).isPresent())
                                .findFirst()
                                .orElseThrow()
                                .id()));
    Spend sum = spend(repair).plus(spend(test));
    OutcomeId pass = pass(test.shows().orElseThrow());
    Map<OutcomeId, Double> outcomes = new LinkedHashMap<>(enumerator(after).outcomes(test.id()));
    double pPass = outcomes.getOrDefault(pass, 0.0);
    outcomes.remove(pass);
    if (pPass > 0) {
      List<Fact> passed = with(after, new Fact.OutcomeSeen(test.id(), pass));
      sum = sum.plus(handedOver(passed).times(pPass));
    }
    if (outcomes.size() > 1) {
      throw new IllegalArgumentException("a function test must pass or fail: " + test.id());
    }
    for (Map.Entry<OutcomeId, Double> failed : outcomes.entrySet()) {
      List<Fact> seen = with(after, new Fact.OutcomeSeen(test.id(), failed.getKey()));
      sum = sum.plus(cheapest(seen, others).times(failed.getValue()));
    }
    return sum;
  }

  private Spend handedOver(List<Fact> facts) {
    return new Spend(0, 0, 0, pLostInUse(facts) * shop.comeback());
  }

  /** What was hidden acts again, and what comes and goes comes. */
  private double pLostInUse(List<Fact> facts) {
    Fact nothing = new Fact.StepDone(new StepId(NOTHING), Optional.empty());
    return enumerator(with(facts, nothing)).pLostInUse(complaint);
  }

  static OutcomeId pass(Observation shows) {
    if (shows instanceof Observation.OfNode o) {
      return o.negative();
    } else if (shows instanceof Observation.OfNodes o) {
      return o.negative();
    } else if (shows instanceof Observation.OfStates o) {
      Map<OutcomeId, Chance> normal = o.rows().get(StateId.NORMAL);
      return likeliest(o.outcomes(), o.outcomes().stream().map(normal::get).toList());
    }
    Observation.OfTable o = (Observation.OfTable) shows;
    return likeliest(o.outcomes(), o.rows().get(o.given().stream().map(g -> false).toList()));
  }

  private static OutcomeId likeliest(List<OutcomeId> outcomes, List<Chance> row) {
    int best = 0;
    for (int i = 1; i < row.size(); i++) {
      best = row.get(i).p() > row.get(best).p() ? i : best;
    }
    return outcomes.get(best);
  }

  /** What the job is expected to take with a test, and none after it. */
  Spend with(Step test, List<Fact> facts) {
    Spend sum = spend(test);
    boolean proves = test.proves().filter(complaint::equals).isPresent();
    for (Map.Entry<OutcomeId, Double> y : enumerator(facts).outcomes(test.id()).entrySet()) {
      List<Fact> after = with(facts, new Fact.OutcomeSeen(test.id(), y.getKey()));
      if (test.isAttempt()) {
        after = with(after, new Fact.StepDone(test.id(), Optional.empty()));
      }
      boolean passes = proves && y.getKey().equals(pass(test.shows().orElseThrow()));
      boolean isBack = passes && pLostInUse(after) < 0.5;
      sum = sum.plus((isBack ? handedOver(after) : cheapest(after)).times(y.getValue()));
    }
    return sum;
  }

  Map<OutcomeId, Double> outcomes(Step test, List<Fact> facts) {
    return enumerator(facts).outcomes(test.id());
  }

  private Spend spend(Step step) {
    return new Spend(
        step.effort().handsMinutes(), 0, step.swap().isPresent() ? shop.partPrice() : 0, 0);
  }

  static List<Fact> with(List<Fact> facts, Fact fact) {
    List<Fact> more = new ArrayList<>(facts);
    more.add(fact);
    return more;
  }
}
