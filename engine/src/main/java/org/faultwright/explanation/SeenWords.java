package org.faultwright.explanation;

import java.util.List;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Point;
import org.faultwright.pack.Step;
import org.faultwright.pack.StepId;
import org.faultwright.planning.Seen;

/** What may come out of a step, in words. */
public final class SeenWords {

  private SeenWords() {}

  /**
   * A few words, without a full stop.
   *
   * @param step the step that shows it
   */
  public static String of(Pack pack, StepId step, Seen seen) {
    if (seen instanceof Seen.Shown shown) {
      return FactWords.of(shown.outcome());
    } else if (seen instanceof Seen.OffNormal off) {
      return points(pack, step).stream()
              .filter(p -> p.id().equals(off.point()))
              .findFirst()
              .map(Point::title)
              .orElse(off.point().value())
          + ": "
          + off.state().value().replace('-', ' ');
    } else if (seen instanceof Seen.Both both) {
      return of(pack, step, both.shown()) + "; " + of(pack, step, both.read());
    }
    return points(pack, step).size() == 1 ? "normal" : "all normal";
  }

  private static List<Point> points(Pack pack, StepId step) {
    return pack.steps().get(step).pinTable().map(Step.PinTable::points).orElse(List.of());
  }
}
