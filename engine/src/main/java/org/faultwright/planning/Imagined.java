package org.faultwright.planning;

import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.faultwright.casefile.Situation;
import org.faultwright.pack.ComplaintId;
import org.faultwright.pack.Observation;
import org.faultwright.pack.OutcomeId;
import org.faultwright.pack.Point;
import org.faultwright.pack.PointId;
import org.faultwright.pack.StateId;
import org.faultwright.pack.Step;
import org.faultwright.pack.StepId;

/** Situations that imagined steps lead to. The bench stays as it is. */
final class Imagined {

  private Imagined() {}

  /** After a test has come out in some way. */
  static Situation afterTest(DeviceModel device, Situation now, int step, Seen seen) {
    Map<StepId, OutcomeId> outcomes = new LinkedHashMap<>(now.outcomes());
    Map<PointId, StateId> readings = new LinkedHashMap<>(now.readings());
    Map<ComplaintId, Boolean> lost = new LinkedHashMap<>(now.lost());
    Set<StepId> done = new LinkedHashSet<>(now.done());
    Step s = device.steps.get(step);
    done.add(s.id());
    if (s.isAttempt()) {
      outcomes.keySet().removeAll(device.movesOutcomes(step));
      readings.keySet().removeAll(device.movesReadings(step));
    }
    note(device, s, seen, outcomes, readings, lost);
    return with(now, outcomes, readings, done, lost);
  }

  /** After a repair and function tests of which all have failed. */
  static Situation afterRepair(DeviceModel device, Situation now, int repair, List<Step> failed) {
    Map<StepId, OutcomeId> outcomes = new LinkedHashMap<>(now.outcomes());
    Map<PointId, StateId> readings = new LinkedHashMap<>(now.readings());
    Set<StepId> done = new LinkedHashSet<>(now.done());
    done.add(device.steps.get(repair).id());
    outcomes.keySet().removeAll(device.movesOutcomes(repair));
    readings.keySet().removeAll(device.movesReadings(repair));
    failed.forEach(test -> noteFailure(test, done, outcomes));
    return with(now, outcomes, readings, done, now.lost());
  }

  /** After a repair and function tests that all have passed. */
  static Situation afterPassing(
      DeviceModel device,
      Situation now,
      int repair,
      List<Step> passed,
      Map<ComplaintId, Boolean> lost) {
    Situation after = afterRepair(device, now, repair, List.of());
    Map<StepId, OutcomeId> outcomes = new LinkedHashMap<>(after.outcomes());
    Set<StepId> done = new LinkedHashSet<>(after.done());
    for (Step test : passed) {
      done.add(test.id());
      device.passes(test).ifPresent(seen -> outcomes.put(test.id(), ((Seen.Shown) seen).outcome()));
    }
    return with(now, outcomes, after.readings(), done, lost);
  }

  /** The situation with other steps done and other things seen. */
  static Situation with(
      Situation now,
      Map<StepId, OutcomeId> outcomes,
      Map<PointId, StateId> readings,
      Set<StepId> done,
      Map<ComplaintId, Boolean> lost) {
    return new Situation(
        now.symptoms(),
        outcomes,
        readings,
        now.histories(),
        now.on(),
        done,
        lost,
        now.consents(),
        now.goal(),
        now.board());
  }

  private static void noteFailure(Step test, Set<StepId> done, Map<StepId, OutcomeId> outcomes) {
    done.add(test.id());
    outcomes.remove(test.id());
    if (test.shows().orElse(null) instanceof Observation.OfNode o) {
      outcomes.put(test.id(), o.positive());
    } else if (test.shows().orElse(null) instanceof Observation.OfNodes o) {
      outcomes.put(test.id(), o.positive());
    }
  }

  private static void note(
      DeviceModel device,
      Step s,
      Seen seen,
      Map<StepId, OutcomeId> outcomes,
      Map<PointId, StateId> readings,
      Map<ComplaintId, Boolean> lost) {
    if (seen instanceof Seen.Both both) {
      note(device, s, both.shown(), outcomes, readings, lost);
      note(device, s, both.read(), outcomes, readings, lost);
    } else if (seen instanceof Seen.Shown shown) {
      outcomes.put(s.id(), shown.outcome());
      boolean passed = device.passes(s).filter(seen::equals).isPresent();
      s.proves().ifPresent(c -> lost.put(c, !passed));
    } else if (seen instanceof Seen.OffNormal off) {
      for (Point point : DeviceModel.points(s)) {
        if (point.id().equals(off.point())) {
          readings.put(point.id(), off.state());
          break;
        }
        readings.putIfAbsent(point.id(), StateId.NORMAL);
      }
    } else {
      DeviceModel.points(s).forEach(p -> readings.putIfAbsent(p.id(), StateId.NORMAL));
    }
  }
}
