package org.faultwright.diagnosis;

import java.util.ArrayList;
import java.util.List;
import org.faultwright.casefile.Fact;
import org.faultwright.casefile.FactId;
import org.faultwright.casefile.Intake;
import org.faultwright.casefile.JudgedReading;
import org.faultwright.casefile.Told;
import org.faultwright.compile.Belief;
import org.faultwright.compile.CompiledPack;
import org.faultwright.measurement.Dimension;
import org.faultwright.measurement.Quantity;
import org.faultwright.measurement.ReadingValue;
import org.faultwright.pack.Effort;
import org.faultwright.pack.Step;
import org.faultwright.planning.Planner;
import org.faultwright.planning.Shop;
import org.faultwright.planning.Weighing;
import org.faultwright.rules.Findings;
import org.faultwright.rules.Standing;
import org.faultwright.rules.facts.Reread;

/**
 * What it is worth to take a reading again that lies on a limit, with the same instrument: what the
 * rest of the job is expected to cost now, less what it is expected to cost then, less the time of
 * the step.
 *
 * <p>What instrument and setup are off by is the same in every reading, so that only chance
 * shrinks. With m the mean of n readings so far and r the random part, the next reading differs
 * from m by {@code N(0, r^2 (1 + 1/n))} times the ratio of P(all facts) with it and without it,
 * exactly. The means of its quarters stand for that.
 */
final class Rereading {

  /**
   * Means of the quarters of a standard normal: {@code 4 (phi(0) - phi(0.6745))} and {@code 4
   * phi(0.6745)}. Each is as likely, and what bends at the middle is summed without error.
   */
  private static final double[] QUARTERS = {-1.271106, -0.324663, 0.324663, 1.271106};

  private final CompiledPack compiled;
  private final Shop shop;
  private final Planner planner;
  private final Intake intake;
  private final Findings findings;
  private final List<Told> standing;
  private final Belief belief;

  Rereading(
      CompiledPack compiled,
      Shop shop,
      Planner planner,
      Intake intake,
      Findings findings,
      List<Told> standing,
      Belief belief) {
    this.compiled = compiled;
    this.shop = shop;
    this.planner = planner;
    this.intake = intake;
    this.findings = findings;
    this.standing = standing;
    this.belief = belief;
  }

  /** The worth of each reading on a limit that still speaks of the device as it is. */
  List<Reread> worths(Weighing now) {
    List<Reread> worths = new ArrayList<>();
    for (Standing s : findings.standings()) {
      if (s.countsNow()
          && s.marks().contains(Standing.Mark.ON_LIMIT)
          && s.told().fact() instanceof Fact.ReadingTaken reading) {
        worths.add(worth(s.told(), reading, now));
      }
    }
    return worths;
  }

  private Reread worth(Told told, Fact.ReadingTaken reading, Weighing now) {
    Step step = step(reading);
    Effort effort = step.effort();
    double cost = shop.rate() * effort.handsMinutes() + shop.waitRate() * effort.waitMinutes();
    JudgedReading judged = JudgedReading.of(compiled.pack(), told, shop.guardBand()).orElseThrow();
    double saves = judged.readingAgainHelps() ? saves(reading, judged, now) : 0;
    return new Reread(told.id(), step.id(), saves - cost);
  }

  /** What one more reading is expected to save. */
  private double saves(Fact.ReadingTaken reading, JudgedReading judged, Weighing now) {
    double[] before = before(reading);
    double mean = java.util.Arrays.stream(before).average().orElseThrow();
    double spread = judged.uncertainty().random() * Math.sqrt(1 + 1.0 / before.length);
    Dimension kind = reading.value().kind();
    double sum = 0;
    double weights = 0;
    for (double z : QUARTERS) {
      double shown = Math.max(kind.least(), Math.min(kind.most(), mean + z * spread));
      Fact next =
          new Fact.ReadingTaken(
              reading.point(),
              new ReadingValue.Measured(new Quantity(shown, kind)),
              reading.uncertainty(),
              reading.setup());
      List<Told> then = new ArrayList<>(standing);
      then.add(new Told(nextId(), java.util.Optional.empty(), next));
      if (compiled.belief(then) instanceof Belief known) {
        double weight = Math.exp(known.logPEvidence() - belief.logPEvidence());
        double weighed =
            planner.costWithoutTests(
                known.worldsAhead(Answering.P_LEFT_OUT, Answering.MOST_WORLDS),
                findings.situation(),
                intake,
                Permitted.by(findings));
        sum += weight * (now.costWithoutTests() - weighed);
        weights += weight;
      }
    }
    return weights > 0 ? sum / weights : 0;
  }

  /** What was shown so far at the point, with this setup. */
  private double[] before(Fact.ReadingTaken reading) {
    return findings.standings().stream()
        .filter(Standing::countsNow)
        .map(s -> s.told().fact())
        .filter(
            f ->
                f instanceof Fact.ReadingTaken r
                    && r.point().equals(reading.point())
                    && r.setup().equals(reading.setup())
                    && r.value() instanceof ReadingValue.Measured)
        .mapToDouble(f -> ((ReadingValue.Measured) ((Fact.ReadingTaken) f).value()).quantity().si())
        .toArray();
  }

  private FactId nextId() {
    return new FactId(1 + standing.stream().mapToInt(t -> t.id().number()).max().orElse(0));
  }

  private Step step(Fact.ReadingTaken reading) {
    return compiled.pack().steps().values().stream()
        .filter(
            s ->
                s.pinTable().stream()
                    .flatMap(t -> t.points().stream())
                    .anyMatch(p -> p.id().equals(reading.point())))
        .findFirst()
        .orElseThrow();
  }
}
