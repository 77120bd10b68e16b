package org.faultwright.oracle;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.SplittableRandom;
import java.util.function.Function;
import java.util.function.Predicate;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Assume;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import org.faultwright.casefile.Fact;
import org.faultwright.measurement.Dimension;
import org.faultwright.measurement.Quantity;
import org.faultwright.measurement.ReadingValue;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.Comparison;
import org.faultwright.pack.Complaint;
import org.faultwright.pack.History;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Point;
import org.faultwright.pack.Step;
import org.faultwright.pack.Symptom;
import org.faultwright.pack.SymptomValue;

/** Simulator and enumerator, each written from the semantics by itself, agree. */
class BenchSimulatorProperty {

  private static final int DEVICES = 5_000;

  /** The transcripts that are compared, for each pack. */
  private static final int MOST_TRANSCRIPTS = 10;

  private static final long MOST_WORLDS = 4_000;

  /** Among the some 1,500 comparisons of a run one is off by that much in one run of a hundred. */
  private static final double STANDARD_ERRORS = 4.5;

  private static final Fact SET_ASIDE = new Fact.Noted("noticed at a first look");

  /** A question to a device; the answer is a fact. */
  private interface Question extends Function<Device, Fact> {}

  record Script(Pack pack, List<Question> questions, long seed) {}

  /** A meter that shows the number of a state, in four of five cases the right one. */
  private static final Meter CODED =
      new Meter() {
        @Override
        public double trueValue(Point point, int state, SplittableRandom random) {
          return random.nextDouble() < 0.8 ? state : (state + random.nextInt(1, 3)) % 3;
        }

        @Override
        public double[] trueValues(
            Point first, Point second, boolean differ, SplittableRandom random) {
          double value = trueValue(first, 0, random);
          return new double[] {value, differ ? (value + 1) % 3 : value};
        }

        @Override
        public ReadingValue read(Point point, double trueValue, SplittableRandom random) {
          return new ReadingValue.Measured(new Quantity(trueValue, Dimension.VOLTAGE));
        }
      };

  /** As the coded meter does it: alike is the same number, and one more where they differ. */
  private static final ReadingLikelihood OF_CODED =
      new ReadingLikelihood() {
        @Override
        public double[] of(Point point, List<Fact.ReadingTaken> readings) {
          return pCoded(point, readings);
        }

        @Override
        public Optional<double[]> ofPair(
            Comparison comparison, Optional<Read> first, Optional<Read> second, OptionalDouble z) {
          if (first.isPresent() && second.isPresent()) {
            int one = code(first.get());
            int other = code(second.get());
            double independent = pNormal(one) * pNormal(other);
            return Optional.of(
                new double[] {
                  1,
                  one == other ? pNormal(one) / independent : 0,
                  other == (one + 1) % 3 ? pNormal(one) / independent : 0
                });
          }
          return second.map(
              read -> {
                int code = code(read);
                return new double[] {1, 1, pNormal((code + 2) % 3) / pNormal(code)};
              });
        }
      };

  private static int code(ReadingLikelihood.Read read) {
    ReadingValue value = read.readings().get(0).value();
    return (int) ((ReadingValue.Measured) value).quantity().si();
  }

  private static double pNormal(int code) {
    return code == 0 ? 0.8 : 0.1;
  }

  private static double[] pCoded(Point point, List<Fact.ReadingTaken> readings) {
    double[] p = new double[point.states().size() + 1];
    for (int s = 0; s < p.length; s++) {
      ReadingValue right = CODED.read(point, s, new SplittableRandom(0));
      boolean allEqual = readings.stream().map(Fact.ReadingTaken::value).distinct().count() == 1;
      p[s] = !allEqual ? 0 : readings.get(0).value().equals(right) ? 0.8 : 0.1;
    }
    return p;
  }

  @Provide
  Arbitrary<Script> scripts() {
    return Arbitraries.randomValue(
        random -> {
          SplittableRandom own = new SplittableRandom(random.nextLong());
          Pack pack = RandomPacks.draw(own, PackFeature.all());
          return new Script(
              pack, questions(pack, new Dice(own, PackFeature.all())), own.nextLong());
        });
  }

  private static List<Question> questions(Pack pack, Dice dice) {
    List<Question> looks = new ArrayList<>();
    List<Question> attempts = new ArrayList<>();
    boolean byEye = dice.with(0.3); // what is seen beside numbers does not count
    for (Step step : pack.steps().values()) {
      if (step.shows().isPresent() && (byEye || step.compares().isEmpty())) {
        Question outcome = d -> new Fact.OutcomeSeen(step.id(), d.outcome(step.id()));
        looks.add(outcome);
        looks.add(outcome);
      }
      for (Point point : step.pinTable().map(Step.PinTable::points).orElse(List.of())) {
        boolean isCompared =
            pack.steps().values().stream()
                .anyMatch(x -> x.compares().filter(c -> c.with().equals(point.id())).isPresent());
        if (!byEye || !isCompared) {
          looks.add(d -> reading(d, point));
        }
      }
      if (step.isAttempt()) {
        attempts.add(d -> done(d, step));
      }
    }
    for (Symptom symptom : pack.symptoms().values()) {
      looks.add(d -> new Fact.SymptomNoted(symptom.id(), d.looksClosely(symptom.id())));
      looks.add(d -> atFirst(d, symptom));
    }
    List<Question> script = new ArrayList<>(dice.someOf(asks(pack), 2));
    script.addAll(dice.someOf(looks, dice.from(1, 2)));
    for (int attempt = 0; attempt < 2 && !attempts.isEmpty(); attempt++) {
      script.add(dice.oneOf(attempts));
      script.addAll(dice.someOf(looks, dice.from(0, 2)));
    }
    return script;
  }

  private static List<Question> asks(Pack pack) {
    List<Question> asks = new ArrayList<>();
    for (Complaint complaint : pack.complaints().values()) {
      asks.add(d -> new Fact.Complained(complaint.id(), d.reports(complaint.id())));
    }
    for (History history : pack.histories().values()) {
      if (history.said().isPresent()) {
        asks.add(d -> new Fact.HistorySaid(history.id(), d.says(history.id())));
        asks.add(d -> new Fact.HistorySeen(history.id(), d.showsTraces(history.id())));
      }
    }
    return asks;
  }

  private static Fact reading(Device device, Point point) {
    return new Fact.ReadingTaken(
        point.id(), device.read(point.id()), OptionalDouble.empty(), Fact.Setup.AS_STATED);
  }

  /**
   * How likely a symptom is noticed at a first look is not part of the definition, only how likely
   * it is not; so what was noticed there is set aside.
   */
  private static Fact atFirst(Device device, Symptom symptom) {
    SymptomValue value = device.looksAtFirst(symptom.id());
    return value == SymptomValue.NOT_SEEN ? new Fact.SymptomNoted(symptom.id(), value) : SET_ASIDE;
  }

  private static Fact done(Device device, Step step) {
    device.doStep(step.id());
    return new Fact.StepDone(step.id(), Optional.empty());
  }

  /** How often a transcript came up, and with which causes at the end. */
  private static final class Tally {
    int count;
    final Map<CauseId, Integer> present = new LinkedHashMap<>();
  }

  @Property(tries = 40)
  void frequenciesEqualProbabilities_whenAScriptIsPlayed(@ForAll("scripts") Script script) {
    BenchSimulator simulator =
        new BenchSimulator(
            script.pack(),
            Priors.stated(script.pack()),
            CODED,
            new SplittableRandom(script.seed()));
    Map<List<Fact>, Tally> transcripts = new LinkedHashMap<>();
    for (int i = 0; i < DEVICES; i++) {
      Device device = simulator.draw();
      List<Fact> transcript = script.questions().stream().map(q -> q.apply(device)).toList();
      Tally tally = transcripts.computeIfAbsent(transcript, t -> new Tally());
      tally.count++;
      device.present().forEach(c -> tally.present.merge(c, 1, Integer::sum));
    }
    try {
      transcripts.entrySet().stream()
          .filter(e -> !e.getKey().contains(SET_ASIDE))
          .sorted(Comparator.comparingInt((Map.Entry<?, Tally> e) -> -e.getValue().count))
          .limit(MOST_TRANSCRIPTS)
          .forEach(e -> compare(script.pack(), e.getKey(), e.getValue()));
    } catch (TooManyWorldsException e) {
      Assume.that(false);
    }
  }

  private static void compare(Pack pack, List<Fact> transcript, Tally tally) {
    Map<Set<CauseId>, Double> sets =
        new WorldEnumerator(pack, Priors.stated(pack), Facts.told(transcript), OF_CODED)
            .withMostWorlds(MOST_WORLDS)
            .joint(World::present);
    near(tally.count, sum(sets, set -> true), transcript);
    for (CauseId cause : pack.causes().keySet()) {
      near(
          tally.present.getOrDefault(cause, 0),
          sum(sets, set -> set.contains(cause)),
          List.of(transcript, cause));
    }
  }

  private static double sum(Map<Set<CauseId>, Double> sets, Predicate<Set<CauseId>> which) {
    return sets.entrySet().stream()
        .filter(e -> which.test(e.getKey()))
        .mapToDouble(Map.Entry::getValue)
        .sum();
  }

  private static void near(int count, double p, Object what) {
    double standardError = Math.sqrt(p * (1 - p) / DEVICES);
    assertThat((double) count / DEVICES)
        .as("%s", what)
        .isEqualTo(p, within(STANDARD_ERRORS * standardError + 1.0 / DEVICES));
  }
}
