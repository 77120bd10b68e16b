package org.faultwright.planning;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import org.faultwright.oracle.StepSketch;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.Condition;
import org.faultwright.pack.Pack;
import org.faultwright.pack.PackDraft;
import org.faultwright.pack.Step;
import org.faultwright.pack.StepId;

/** Branch and bound against every sequence, and what must hold whatever the numbers are. */
class RepairSearchProperty {

  /** Sums of some thousand products of numbers below 1000. */
  private static final double CLOSE = 1e-9;

  @Provide
  Arbitrary<SmallWorld> small() {
    return Arbitraries.randomValue(
        random -> SmallWorld.draw(new SplittableRandom(random.nextLong()), 4));
  }

  @Provide
  Arbitrary<SmallWorld> larger() {
    return Arbitraries.randomValue(
        random -> SmallWorld.draw(new SplittableRandom(random.nextLong()), 6));
  }

  @Property(tries = 1000)
  void costs_areThoseOfEverySequenceTried(@ForAll("small") SmallWorld world) {
    isAsBruteForceSays(world);
  }

  @Property(tries = 100)
  void costs_areThoseOfEverySequenceTried_withSixRepairs(@ForAll("larger") SmallWorld world) {
    isAsBruteForceSays(world);
  }

  private static void isAsBruteForceSays(SmallWorld world) {
    BruteForce oracle = new BruteForce(world);
    Weighing weighing = world.look();

    assertThat(weighing.costWithoutTests()).isEqualTo(oracle.ecr0(), within(CLOSE));
    for (RepairWay way : weighing.repairs()) {
      Step repair = world.pack().steps().get(way.repair());
      assertThat(way.expectedCost()).isEqualTo(oracle.from(repair), within(CLOSE));
    }
    for (Worth worth : weighing.tests()) {
      double expected = oracle.worth(world.pack().steps().get(worth.step()));
      if (worth.atMost()) {
        assertThat(worth.worth()).isLessThanOrEqualTo(0);
        assertThat(expected).isLessThanOrEqualTo(worth.worth() + CLOSE);
      } else if (!worth.branches().isEmpty()) {
        assertThat(worth.worth()).isEqualTo(expected, within(CLOSE));
      } else {
        assertThat(worth.worth()).isEqualTo(-worth.cost());
      }
    }
  }

  @Property
  void freeInformation_neverHurts(@ForAll("small") SmallWorld world) {
    SmallWorld free = world.with(withSteps(world.pack(), RepairSearchProperty::free));
    for (Worth worth : free.look().tests()) {
      // a function test that passes is more than information: it ends the job
      boolean proves = free.pack().steps().get(worth.step()).proves().isPresent();
      if (worth.cost() == 0 && !proves) {
        assertThat(worth.worth()).isGreaterThanOrEqualTo(-CLOSE);
      }
    }
  }

  private static Step free(Step step) {
    return step.changes().isEmpty() && step.proves().isEmpty()
        ? Bench.costing(step, 0, step.thenRepeat(), Step.Needs.NOTHING)
        : step;
  }

  @Property
  void ecr0_isConcaveInBelief(@ForAll("small") SmallWorld world, @ForAll("mixing") double share) {
    List<Double> others = new ArrayList<>(world.masses());
    java.util.Collections.rotate(others, 1);
    List<Double> p = normalised(world.masses());
    List<Double> q = normalised(others);
    List<Double> mixed = new ArrayList<>();
    for (int w = 0; w < p.size(); w++) {
      mixed.add(share * p.get(w) + (1 - share) * q.get(w));
    }
    double ofP = world.with(p).look().costWithoutTests();
    double ofQ = world.with(q).look().costWithoutTests();

    assertThat(world.with(mixed).look().costWithoutTests())
        .isGreaterThanOrEqualTo(share * ofP + (1 - share) * ofQ - CLOSE);
  }

  @Provide
  Arbitrary<Double> mixing() {
    return Arbitraries.doubles().between(0, 1);
  }

  private static List<Double> normalised(List<Double> masses) {
    double sum = masses.stream().mapToDouble(Double::doubleValue).sum();
    return masses.stream().map(m -> m / sum).toList();
  }

  @Property
  void uselessSteps_changeNothing(@ForAll("small") SmallWorld world) {
    PackDraft draft = PackDraft.of(world.pack());
    draft.step(new StepSketch("coin").looksAt(new CauseId("cause-1"), 0.5, 0.5).build());
    draft.step(Bench.costing(new StepSketch("polish").changes("elsewhere", 1, 0).build(), 1));
    draft.cause(cause(world.pack(), "elsewhere"));
    Weighing without = world.look();
    Weighing with = world.with(draft.build()).look();

    assertThat(with.costWithoutTests()).isEqualTo(without.costWithoutTests(), within(CLOSE));
    assertThat(with.expectedCost()).isEqualTo(without.expectedCost(), within(CLOSE));
    assertThat(step(with)).isEqualTo(step(without));
    assertThat(Bench.worthOf(with, "coin").worth()).isEqualTo(0);
  }

  private static org.faultwright.pack.Cause cause(Pack pack, String id) {
    org.faultwright.pack.Cause like = pack.causes().values().iterator().next();
    return new org.faultwright.pack.Cause(
        new CauseId(id),
        id,
        like.kind(),
        like.likelihood(),
        like.oneOf(),
        like.after(),
        like.follows(),
        like.shows(),
        like.sendOn());
  }

  @Property
  void allPricesTimesTwo_keepTheChoice(@ForAll("small") SmallWorld world) {
    Shop s = world.shop();
    Shop dear =
        new Shop(
            2 * s.rate(),
            2 * s.waitRate(),
            2 * s.sendOnFee(),
            2 * s.salvage(),
            2 * s.comeback(),
            2 * s.partPrice(),
            Map.of(),
            s.proof());
    Weighing once = world.look();
    Weighing twice = world.with(dear).look();

    assertThat(twice.expectedCost()).isEqualTo(2 * once.expectedCost(), within(CLOSE));
    assertThat(step(twice)).isEqualTo(step(once));
  }

  @Property
  void endingTheJob_boundsTheCost_andRepairsAndTestsNeverCostMore(
      @ForAll("small") SmallWorld world) {
    Weighing weighing = world.look();

    assertThat(weighing.costWithoutTests())
        .isLessThanOrEqualTo(weighing.exit().cost() + CLOSE)
        .isGreaterThanOrEqualTo(0);
    assertThat(weighing.expectedCost()).isLessThanOrEqualTo(weighing.costWithoutTests() + CLOSE);
  }

  @Property
  void aStepThatIsNotAllowed_isNeitherAdvisedNorPlanned(
      @ForAll("small") SmallWorld world, @ForAll("places") int place) {
    List<StepId> steps = List.copyOf(world.pack().steps().keySet());
    String closed = steps.get(place % steps.size()).value();
    Permissions all = Bench.everything(world.pack());
    Condition never = new Condition.Not(new Condition.Always());
    for (Permissions p : List.of(Bench.without(all, closed), Bench.with(all, closed, never))) {
      Weighing weighing =
          Planner.of(DeviceModel.of(world.pack()), world.shop())
              .look(world.worlds(), world.now(), Bench.INTAKE, p);
      assertThat(mentioned(weighing)).doesNotContain(closed);
    }
  }

  @Provide
  Arbitrary<Integer> places() {
    return Arbitraries.integers().between(0, 20);
  }

  private static List<String> mentioned(Weighing weighing) {
    List<String> all = new ArrayList<>();
    all.add(step(weighing));
    for (RepairWay way : weighing.repairs()) {
      all.add(way.repair().value());
      way.sequence().forEach(s -> all.add(s.value()));
      way.proofs().forEach(s -> all.add(s.value()));
    }
    for (Worth worth : weighing.tests()) {
      all.add(worth.step().value());
      worth.branches().forEach(b -> b.thenRepair().ifPresent(s -> all.add(s.value())));
    }
    return all;
  }

  @Property
  void theOrderOfWorlds_andWhatWasAskedBefore_doNotMatter(@ForAll("small") SmallWorld world) {
    Planner planner = Planner.of(DeviceModel.of(world.pack()), world.shop());
    List<Double> others = new ArrayList<>(world.masses());
    java.util.Collections.reverse(others);
    Permissions all = Bench.everything(world.pack());
    planner.look(world.with(others).worlds(), world.now(), Bench.INTAKE, all);

    assertThat(planner.look(world.worlds(), world.now(), Bench.INTAKE, all))
        .isEqualTo(world.look());
  }

  static String step(Weighing weighing) {
    if (weighing.next() instanceof NextStep.DoTest next) {
      return next.test().step().value();
    } else if (weighing.next() instanceof NextStep.DoRepair next) {
      return next.repair().repair().value();
    }
    return "end";
  }

  private static Pack withSteps(Pack pack, java.util.function.UnaryOperator<Step> change) {
    return PricedPacks.withSteps(pack, change);
  }
}
