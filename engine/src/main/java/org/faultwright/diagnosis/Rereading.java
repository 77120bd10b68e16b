package org.faultwright.diagnosis;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.faultwright.casefile.Fact;
import org.faultwright.casefile.Intake;
import org.faultwright.casefile.Told;
import org.faultwright.compile.Belief;
import org.faultwright.compile.CompiledPack;
import org.faultwright.pack.Point;
import org.faultwright.pack.StateId;
import org.faultwright.pack.Step;
import org.faultwright.planning.Planner;
import org.faultwright.planning.Weighing;
import org.faultwright.rules.Findings;
import org.faultwright.rules.Standing;
import org.faultwright.rules.facts.Reread;

/**
 * What it is worth to take a reading again that lies on a limit: what knowing the state at the
 * point for certain would save, the minutes of the step taken off. An upper bound, since a second
 * reading makes nothing certain.
 */
final class Rereading {

  private final CompiledPack compiled;
  private final Planner planner;
  private final Intake intake;
  private final Findings findings;
  private final List<Told> standing;

  Rereading(
      CompiledPack compiled,
      Planner planner,
      Intake intake,
      Findings findings,
      List<Told> standing) {
    this.compiled = compiled;
    this.planner = planner;
    this.intake = intake;
    this.findings = findings;
    this.standing = standing;
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
    Step step = stepOf(reading);
    double worth = now.costWithoutTests() - step.effort().handsMinutes();
    Belief belief = (Belief) compiled.belief(standing);
    for (Map.Entry<StateId, Double> state : belief.states(reading.point()).entrySet()) {
      if (state.getValue() > 0
          && compiled.beliefIf(standing, reading.point(), state.getKey()) instanceof Belief then) {
        Weighing weighed =
            planner.look(
                then.worlds(Answering.P_LEFT_OUT, Answering.MOST_WORLDS),
                findings.situation(),
                intake,
                Permitted.by(findings));
        worth -= state.getValue() * weighed.costWithoutTests();
      }
    }
    return new Reread(told.id(), step.id(), worth);
  }

  private Step stepOf(Fact.ReadingTaken reading) {
    for (Step step : compiled.pack().steps().values()) {
      for (Point p : step.pinTable().map(Step.PinTable::points).orElse(List.of())) {
        if (p.id().equals(reading.point())) {
          return step;
        }
      }
    }
    throw new IllegalArgumentException("point must be one of the pack: " + reading.point());
  }
}
