package org.faultwright.compile;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.SplittableRandom;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Assume;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import org.assertj.core.data.Offset;
import org.faultwright.casefile.Fact;
import org.faultwright.measurement.Dimension;
import org.faultwright.measurement.Quantity;
import org.faultwright.measurement.ReadingValue;
import org.faultwright.oracle.PackFeature;
import org.faultwright.oracle.RandomCases;
import org.faultwright.oracle.RandomCases.Situation;
import org.faultwright.oracle.TooManyWorldsException;
import org.faultwright.oracle.WorldEnumerator;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.Comparison;
import org.faultwright.pack.Point;
import org.faultwright.pack.Step;

/**
 * Readings of several points share the systematic error of their instrument. Oracle: a plain sum
 * over all worlds and some two thousand values of that error.
 */
class SharedOffsetProperty {

  /** Sums over worlds and over a grid that leaves out 2e-15 of its weight. */
  private static final Offset<Double> EXACT = within(1e-10);

  private static final Offset<Double> EXACT_LOG = within(1e-9);
  private static final long MOST_WORLDS = 4_000;

  /** Packs with few features, each point read once or more, now and then between two repairs. */
  @Provide
  Arbitrary<Situation> manyReadings() {
    return Arbitraries.randomValue(
        r -> {
          long seed = r.nextLong();
          SplittableRandom random = new SplittableRandom(seed);
          Situation drawn =
              RandomCases.situation(
                  seed,
                  random.nextInt(3) == 0
                      ? Set.of(
                          PackFeature.READINGS,
                          PackFeature.REFERENCES,
                          PackFeature.REPAIRS,
                          PackFeature.COMPARED)
                      : Set.of(PackFeature.READINGS, PackFeature.REFERENCES, PackFeature.COMPARED));
          return drawn.with(facts(drawn, random));
        });
  }

  private static List<Fact> facts(Situation s, SplittableRandom random) {
    List<Fact> facts = new ArrayList<>();
    facts.add(new Fact.Complained(s.pack().complaints().keySet().iterator().next(), true));
    int readings = 2 + random.nextInt(4);
    List<Point> points =
        s.pack().steps().values().stream()
            .flatMap(x -> x.pinTable().stream())
            .flatMap(t -> t.points().stream())
            .toList();
    for (int i = 0; i < readings; i++) {
      Point point = points.get(random.nextInt(points.size()));
      double volts = 0.2 + 3.5 * random.nextDouble();
      facts.add(
          new Fact.ReadingTaken(
              point.id(),
              value(random, point, volts),
              OptionalDouble.of(0.05 + 0.2 * random.nextDouble()),
              new Fact.Setup(
                  random.nextInt(8) == 0 ? Optional.of("swapped") : Optional.empty(),
                  Optional.empty(),
                  random.nextInt(6) == 0,
                  OptionalDouble.empty())));
      if (random.nextInt(8) == 0) {
        s.pack().steps().values().stream()
            .filter(step -> step.compares().isPresent())
            .forEach(step -> facts.add(new Fact.OutcomeSeen(step.id(), Comparison.DIFFERS)));
      }
      if (random.nextInt(6) == 0) {
        s.pack().steps().values().stream()
            .filter(Step::isAttempt)
            .findFirst()
            .ifPresent(a -> facts.add(new Fact.StepDone(a.id(), Optional.empty())));
      }
    }
    return facts;
  }

  private static ReadingValue value(SplittableRandom random, Point point, double volts) {
    return switch (random.nextInt(12)) {
      case 0 -> new ReadingValue.OverRange(Dimension.VOLTAGE);
      case 1 ->
          new ReadingValue.Named(
              random.nextBoolean() ? "normal" : point.states().get(0).id().value(),
              Dimension.VOLTAGE);
      default -> new ReadingValue.Measured(new Quantity(volts, Dimension.VOLTAGE));
    };
  }

  @Property(tries = 150)
  void beliefEqualsThePlainSum(@ForAll("manyReadings") Situation s) {
    CompiledPack compiled = (CompiledPack) CompiledPack.compile(s.pack());
    Belief belief = (Belief) compiled.belief(s.facts());
    WorldEnumerator worlds = s.enumerator(MOST_WORLDS);
    try {
      assertThat(belief.logPEvidence()).isCloseTo(Math.log(worlds.pEvidence()), EXACT_LOG);
      for (CauseId cause : s.pack().causes().keySet()) {
        assertThat(belief.p(cause)).as("%s", cause).isCloseTo(worlds.p(cause), EXACT);
      }
      for (Step step : s.pack().steps().values()) {
        for (Point p : step.pinTable().map(Step.PinTable::points).orElse(List.of())) {
          var expected = worlds.states(p.id());
          belief
              .states(p.id())
              .forEach(
                  (state, found) ->
                      assertThat(found)
                          .as("%s at %s", state, p.id())
                          .isCloseTo(expected.getOrDefault(state, 0.0), EXACT));
        }
      }
    } catch (TooManyWorldsException e) {
      Assume.that(false);
    }
  }

  @Property(tries = 60)
  void likelyWorldsEqualThePlainSum(@ForAll("manyReadings") Situation s) {
    CompiledPack compiled = (CompiledPack) CompiledPack.compile(s.pack());
    LikelyWorlds likely = ((Belief) compiled.belief(s.facts())).worlds(1e-7, 2000);
    Map<Set<CauseId>, Double> listed = new java.util.LinkedHashMap<>();
    for (int w = 0; w < likely.size(); w++) {
      Set<CauseId> present = new LinkedHashSet<>();
      for (int c = 0; c < likely.coordinates().size(); c++) {
        if (likely.bits()[w][c] == 1
            && likely.coordinates().get(c) instanceof Coordinate.Present cause) {
          present.add(cause.cause());
        }
      }
      listed.merge(present, likely.p()[w], Double::sum);
    }
    try {
      s.enumerator(MOST_WORLDS)
          .sets()
          .forEach(
              (set, p) ->
                  assertThat(listed.getOrDefault(set, 0.0))
                      .as("%s", set)
                      .isCloseTo(p, within(likely.pLeftOut() + 1e-9)));
    } catch (TooManyWorldsException e) {
      Assume.that(false);
    }
  }
}
