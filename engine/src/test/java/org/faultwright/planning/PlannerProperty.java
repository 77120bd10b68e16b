package org.faultwright.planning;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.SplittableRandom;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Assume;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import org.faultwright.casefile.Fact;
import org.faultwright.compile.Belief;
import org.faultwright.compile.BeliefResult;
import org.faultwright.compile.CompiledPack;
import org.faultwright.compile.LikelyWorlds;
import org.faultwright.oracle.Facts;
import org.faultwright.oracle.PackFeature;
import org.faultwright.pack.OutcomeId;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Step;
import org.faultwright.pack.StepId;

/** The planner, fed by the circuit, agrees with brute force over sequences, written as facts. */
class PlannerProperty {

  /** Money is some tens; probabilities agree to 1e-9 where worlds are listed to 1e-12. */
  private static final double CLOSE = 1e-6;

  /** What facts, repairs and the semantics say alike; readings are no facts of the oracle's. */
  private static final Set<PackFeature> ALL =
      EnumSet.complementOf(
          EnumSet.of(PackFeature.READINGS, PackFeature.REPEATABLE, PackFeature.COMPLAINTS));

  record Case(Pack pack, Shop shop, List<Fact> facts) {}

  @Provide
  Arbitrary<Case> asTakenIn() {
    return cases(ALL, false);
  }

  @Provide
  Arbitrary<Case> afterAnAttempt() {
    return cases(ALL, true);
  }

  private static Arbitrary<Case> cases(Set<PackFeature> features, boolean attempts) {
    return Arbitraries.randomValue(
        random -> {
          SplittableRandom own = new SplittableRandom(random.nextLong());
          Pack pack = PricedPacks.draw(own, features);
          return new Case(pack, PricedPacks.shop(own), PricedPacks.facts(own, pack, attempts));
        });
  }

  @Property(tries = 25)
  void costs_areThoseOfBruteForce_asTakenIn(@ForAll("asTakenIn") Case c) {
    isAsBruteForceSays(c);
  }

  @Property(tries = 25)
  void costs_areThoseOfBruteForce_afterAnAttempt(@ForAll("afterAnAttempt") Case c) {
    isAsBruteForceSays(c);
  }

  private static void isAsBruteForceSays(Case c) {
    LikelyWorlds worlds = worlds(c);
    PlanOracle oracle = new PlanOracle(c.pack, c.shop, PricedPacks.COMPLAINT, c.facts);
    DeviceModel device = DeviceModel.of(c.pack);
    Weighing weighing =
        Planner.of(device, c.shop)
            .look(
                worlds,
                PricedPacks.situation(c.pack, c.facts),
                Bench.INTAKE,
                Bench.everything(c.pack));

    assertThat(weighing.repairs()).hasSameSizeAs(oracle.repairs());
    double ecr0 = c.shop.sendOnFee();
    for (RepairWay way : weighing.repairs()) {
      Spend expected = oracle.from(c.pack.steps().get(way.repair()), c.facts);
      assertThat(way.expectedCost()).isEqualTo(expected.cost(c.shop), within(CLOSE));
      isSame(way.toTheEnd(), expected);
      ecr0 = Math.min(ecr0, expected.cost(c.shop));
    }
    assertThat(weighing.costWithoutTests()).isEqualTo(ecr0, within(CLOSE));
    for (Worth worth : weighing.tests()) {
      Step test = c.pack.steps().get(worth.step());
      Spend with = oracle.with(test, c.facts);
      double expected = ecr0 - with.cost(c.shop);
      if (worth.atMost()) {
        assertThat(expected).isLessThanOrEqualTo(worth.worth() + CLOSE);
        assertThat(worth.toTheEnd()).isEmpty();
      } else {
        assertThat(worth.worth()).isEqualTo(expected, within(CLOSE));
        isSame(worth.toTheEnd().orElseThrow(), with);
      }
    }
    assertThat(weighing.toTheEnd().cost(c.shop)).isEqualTo(weighing.expectedCost(), within(CLOSE));
    assertThat(weighing.ending().cost(c.shop)).isEqualTo(weighing.exit().cost(), within(CLOSE));
  }

  /** Minutes, money and risk apart, each by itself. */
  private static void isSame(Spend found, Spend expected) {
    assertThat(found.hands()).isEqualTo(expected.hands(), within(CLOSE));
    assertThat(found.waiting()).isEqualTo(expected.waiting(), within(CLOSE));
    assertThat(found.money()).isEqualTo(expected.money(), within(CLOSE));
    assertThat(found.risk()).isEqualTo(expected.risk(), within(CLOSE));
  }

  @Property(tries = 100)
  void findings_areAsLikelyAsTheirOutcomes(@ForAll("asTakenIn") Case c) {
    LikelyWorlds worlds = worlds(c);
    PlanOracle oracle = new PlanOracle(c.pack, c.shop, PricedPacks.COMPLAINT, c.facts);
    DeviceModel device = DeviceModel.of(c.pack);
    Set<StepId> told = PricedPacks.situation(c.pack, c.facts).outcomes().keySet();
    for (Step step : c.pack.steps().values()) {
      if (step.shows().isEmpty() || told.contains(step.id())) {
        continue;
      }
      Map<OutcomeId, Double> expected = oracle.outcomes(step, c.facts);
      for (OutcomeId outcome : step.shows().get().outcomes()) {
        double p = 0;
        for (int w = 0; w < worlds.size(); w++) {
          p += worlds.p()[w] * device.pFindings(worlds, w, step.id()).get(new Seen.Shown(outcome));
        }
        assertThat(p).isEqualTo(expected.getOrDefault(outcome, 0.0), within(CLOSE));
      }
    }
  }

  private static LikelyWorlds worlds(Case c) {
    CompiledPack compiled = (CompiledPack) CompiledPack.compile(c.pack);
    BeliefResult result = compiled.belief(Facts.told(c.facts));
    Assume.that(result instanceof Belief);
    LikelyWorlds worlds = ((Belief) result).worlds(1e-13, 1_000_000);
    assertThat(worlds.pLeftOut()).isLessThan(1e-9);
    return worlds;
  }
}
