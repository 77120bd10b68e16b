package org.faultwright.diagnosis;

import java.util.List;
import java.util.SplittableRandom;
import org.faultwright.casefile.Fact;
import org.faultwright.measurement.Dimension;
import org.faultwright.measurement.Quantity;
import org.faultwright.measurement.ReadingValue;
import org.faultwright.pack.ConsentId;
import org.faultwright.pack.OutcomeId;
import org.faultwright.pack.PointId;
import org.faultwright.pack.Step;
import org.faultwright.pack.StepId;
import org.faultwright.pack.SymptomValue;

/** A bench at which nothing comes out as it should: answers have nothing to do with a device. */
final class Adversary implements Play.Bench {

  private final SplittableRandom random;
  private final double pCannot;
  private final double pPasses;

  Adversary(long seed) {
    random = new SplittableRandom(seed);
    pCannot = random.nextInt(3) * 0.2;
    pPasses = random.nextInt(3) * 0.5;
  }

  @Override
  public boolean cannotDo(StepId step) {
    return random.nextDouble() < pCannot;
  }

  @Override
  public void done(StepId step) {
    // the answers do not depend on it
  }

  @Override
  public OutcomeId outcome(Step step) {
    List<OutcomeId> outcomes = step.shows().orElseThrow().outcomes();
    if (step.proves().isPresent()) {
      return new OutcomeId(random.nextDouble() < pPasses ? "passed" : "failed");
    }
    return outcomes.get(random.nextInt(outcomes.size()));
  }

  @Override
  public ReadingValue read(PointId point) {
    return random.nextInt(6) == 0
        ? new ReadingValue.OverRange(Dimension.VOLTAGE)
        : new ReadingValue.Measured(new Quantity(random.nextInt(1, 60) * 0.05, Dimension.VOLTAGE));
  }

  @Override
  public boolean agrees(ConsentId consent) {
    return random.nextInt(3) > 0;
  }

  @Override
  public Fact again(Fact before) {
    boolean yes = random.nextBoolean();
    if (before instanceof Fact.Complained f) {
      return new Fact.Complained(f.complaint(), yes);
    } else if (before instanceof Fact.HistorySaid f) {
      return new Fact.HistorySaid(f.history(), yes);
    } else if (before instanceof Fact.HistorySeen f) {
      return new Fact.HistorySeen(f.history(), yes);
    } else if (before instanceof Fact.SymptomNoted f) {
      SymptomValue[] values = SymptomValue.values();
      return new Fact.SymptomNoted(f.symptom(), values[random.nextInt(values.length)]);
    }
    return before;
  }
}
