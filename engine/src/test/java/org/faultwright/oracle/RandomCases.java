package org.faultwright.oracle;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.SplittableRandom;
import java.util.stream.Stream;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import org.faultwright.casefile.Fact;
import org.faultwright.casefile.Told;
import org.faultwright.measurement.Dimension;
import org.faultwright.measurement.Quantity;
import org.faultwright.measurement.ReadingValue;
import org.faultwright.pack.ComplaintId;
import org.faultwright.pack.HistoryId;
import org.faultwright.pack.OutcomeId;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Point;
import org.faultwright.pack.Step;
import org.faultwright.pack.StepId;
import org.faultwright.pack.SymptomId;
import org.faultwright.pack.SymptomValue;

/**
 * Draws what is told of a device, at random and without looking at the device: mostly a report
 * first, then anything that the pack allows. Facts may contradict each other.
 */
public final class RandomCases {

  /** How often a step is made to repeat its outcome of before. */
  private static final double REPEATS_ITSELF = 0.8;

  private static final int MOST_ATTEMPTS = 2;
  private static final int MOST_FACTS = 7;

  private final Dice dice;
  private final Pack pack;
  private final List<Fact> facts = new ArrayList<>();
  private final Map<StepId, OutcomeId> before = new LinkedHashMap<>();
  private int attempts;

  /**
   * A pack and what is told of a device.
   *
   * @param seed what it was drawn with
   * @param features what it was drawn with
   */
  public record Situation(Pack pack, List<Told> facts, long seed, Set<PackFeature> features) {

    /** By enumeration of at most so many worlds. */
    public WorldEnumerator enumerator(long mostWorlds) {
      return WorldEnumerator.of(pack, facts).withMostWorlds(mostWorlds);
    }

    /** The same pack, with other facts. */
    public Situation with(List<Fact> others) {
      return new Situation(pack, Facts.told(others), seed, features);
    }

    /** The facts without their numbers. */
    public List<Fact> plainFacts() {
      return facts.stream().map(Told::fact).toList();
    }

    @Override
    public String toString() {
      return "RandomCases.situation(" + seed + "L, " + features + "): " + plainFacts();
    }
  }

  private RandomCases(Dice dice, Pack pack) {
    this.dice = dice;
    this.pack = pack;
  }

  /** Random situations with up to seven facts. */
  public static Arbitrary<Situation> situations(Set<PackFeature> features) {
    return Arbitraries.randomValue(random -> situation(random.nextLong(), features));
  }

  /** Random situations of packs that have some of the features, so that they stay small. */
  public static Arbitrary<Situation> smallSituations(Set<PackFeature> features, int most) {
    return Arbitraries.randomValue(
        random -> {
          long seed = random.nextLong();
          Dice dice = new Dice(new SplittableRandom(seed), Set.of());
          List<PackFeature> ordered =
              Stream.of(PackFeature.values()).filter(features::contains).toList();
          return situation(seed, Set.copyOf(dice.someOf(ordered, most)));
        });
  }

  /** The situation that is drawn with this seed. */
  public static Situation situation(long seed, Set<PackFeature> features) {
    SplittableRandom random = new SplittableRandom(seed);
    Pack pack = RandomPacks.draw(random, features);
    return new Situation(pack, draw(random, pack, MOST_FACTS), seed, features);
  }

  /** Up to so many facts in order. */
  public static List<Told> draw(SplittableRandom random, Pack pack, int mostFacts) {
    RandomCases cases = new RandomCases(new Dice(random, Set.of()), pack);
    if (cases.dice.with(0.8)) {
      cases.facts.add(Facts.reported(RandomPacks.COMPLAINT));
    }
    int howMany = cases.dice.from(0, mostFacts);
    while (cases.facts.size() < howMany) {
      cases.another();
    }
    return Facts.told(cases.facts);
  }

  private void another() {
    switch (dice.from(0, 9)) {
      case 0 -> report();
      case 1 -> history();
      case 2 -> symptom();
      case 3 -> reading();
      case 4, 5 -> attempt();
      case 6 -> facts.add(new Fact.Noted("nothing that counts"));
      default -> outcome();
    }
  }

  private void report() {
    ComplaintId complaint = dice.oneOf(List.copyOf(pack.complaints().keySet()));
    boolean reported = facts.contains(new Fact.Complained(complaint, true)) || dice.with(0.5);
    facts.add(new Fact.Complained(complaint, reported));
  }

  private void history() {
    if (!pack.histories().isEmpty()) {
      HistoryId history = dice.oneOf(List.copyOf(pack.histories().keySet()));
      facts.add(
          dice.with(0.5)
              ? new Fact.HistorySaid(history, dice.with(0.5))
              : new Fact.HistorySeen(history, dice.with(0.5)));
    }
  }

  private void symptom() {
    if (!pack.symptoms().isEmpty()) {
      SymptomId symptom = dice.oneOf(List.copyOf(pack.symptoms().keySet()));
      facts.add(new Fact.SymptomNoted(symptom, dice.oneOf(List.of(SymptomValue.values()))));
    }
  }

  private void reading() {
    List<Point> points = new ArrayList<>();
    for (Step step : pack.steps().values()) {
      step.pinTable().ifPresent(table -> points.addAll(table.points()));
    }
    if (!points.isEmpty()) {
      Point point = dice.oneOf(points);
      double volts = dice.between(0.5, 3.5);
      ReadingValue value =
          dice.with(0.1)
              ? new ReadingValue.OverRange(Dimension.VOLTAGE)
              : dice.with(0.1)
                  ? point.named(dice.oneOf(point.stateNames())).orElseThrow()
                  : new ReadingValue.Measured(new Quantity(volts, Dimension.VOLTAGE));
      facts.add(
          new Fact.ReadingTaken(point.id(), value, OptionalDouble.of(0.1), Fact.Setup.AS_STATED));
    }
  }

  private void attempt() {
    List<StepId> all =
        pack.steps().values().stream().filter(Step::isAttempt).map(Step::id).toList();
    if (!all.isEmpty() && attempts < MOST_ATTEMPTS) {
      facts.add(new Fact.StepDone(dice.oneOf(all), java.util.Optional.empty()));
      attempts++;
      before.clear();
    }
  }

  private void outcome() {
    List<Step> all = pack.steps().values().stream().filter(s -> s.shows().isPresent()).toList();
    Step step = dice.oneOf(all);
    if (dice.with(0.05)) {
      facts.add(new Fact.CouldNotDo(step.id(), "no time"));
      return;
    }
    OutcomeId outcome = dice.oneOf(step.shows().orElseThrow().outcomes());
    if (before.containsKey(step.id()) && dice.with(REPEATS_ITSELF)) {
      outcome = before.get(step.id());
    }
    before.put(step.id(), outcome);
    facts.add(new Fact.OutcomeSeen(step.id(), outcome));
  }
}
