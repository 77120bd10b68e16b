package org.faultwright.cli.text;

import java.util.List;
import org.faultwright.pack.Condition;
import org.faultwright.pack.Hold;
import org.faultwright.pack.OutcomeId;
import org.faultwright.pack.Pack;
import org.faultwright.pack.PointId;
import org.faultwright.pack.StateId;
import org.faultwright.pack.StepId;
import org.faultwright.planning.Seen;

/** The holds that a result helps to raise: whoever sees it must read them before going on. */
public final class RaisedHolds {

  private RaisedHolds() {}

  /** In the order of the pack; also those that need more than this result to be in force. */
  public static List<Hold> by(Pack pack, StepId step, Seen seen) {
    return pack.holds().values().stream().filter(h -> names(h.when(), step, seen)).toList();
  }

  private static boolean names(Condition when, StepId step, Seen seen) {
    if (when instanceof Condition.Any any) {
      return any.parts().stream().anyMatch(part -> names(part, step, seen));
    } else if (when instanceof Condition.All all) {
      return all.parts().stream().anyMatch(part -> names(part, step, seen));
    } else if (when instanceof Condition.OutcomeIs is) {
      return is.step().equals(step) && shows(seen, is.outcome());
    }
    return when instanceof Condition.ReadingIs is && reads(seen, is.point(), is.state());
  }

  private static boolean shows(Seen seen, OutcomeId outcome) {
    return seen instanceof Seen.Shown shown && shown.outcome().equals(outcome)
        || seen instanceof Seen.Both both && shows(both.shown(), outcome);
  }

  private static boolean reads(Seen seen, PointId point, StateId state) {
    return seen instanceof Seen.OffNormal off
            && off.point().equals(point)
            && off.state().equals(state)
        || seen instanceof Seen.Both both && reads(both.read(), point, state);
  }
}
