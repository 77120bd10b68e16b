package org.faultwright.planning;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.faultwright.casefile.ReadingUncertainty;
import org.faultwright.measurement.ReadingModel;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Point;
import org.faultwright.pack.PointId;
import org.faultwright.pack.Step;
import org.faultwright.planning.FaultLogic.Inputs;

/**
 * Readings of several points, told apart by the first that is classified as off normal and its
 * state, or that all are normal.
 *
 * <p>That is a function of the full readings, so that what it is worth is a lower bound of what the
 * readings are worth: a table is at least as good as planning says.
 */
final class ReadingsFacet extends Facet {

  private final Inputs[][] triggers;

  /** For each point: P(classified as column | true state is row), normal first. */
  private final double[][][] classified;

  /**
   * Whether the strength bits of the points must be settled, because another look will meet them
   * again; else they are summed over on the spot.
   */
  private final boolean settlesBits;

  ReadingsFacet(
      FaultLogic logic,
      List<Point> points,
      Map<PointId, double[][]> classified,
      boolean settlesBits) {
    super(outcomes(points), outcomes(points).size() - 1);
    this.settlesBits = settlesBits;
    this.classified = points.stream().map(p -> classified.get(p.id())).toArray(double[][][]::new);
    triggers = new Inputs[points.size()][];
    for (int i = 0; i < points.size(); i++) {
      Point point = points.get(i);
      triggers[i] =
          point.states().stream().map(s -> logic.triggersOf(point, s)).toArray(Inputs[]::new);
    }
  }

  /** P(classified as column | true state is row) for a reading of a point, normal first. */
  static double[][] classified(Pack pack, Step step, Point point) {
    List<ReadingModel.StateRange> ranges =
        point.states().stream()
            .map(s -> new ReadingModel.StateRange(s.id().value(), s.lies()))
            .toList();
    double u = ReadingUncertainty.expected(pack, step, point).combined();
    ReadingModel model = ReadingModel.of(point.reference(), ranges);
    OptionalDouble largest = ReadingUncertainty.largest(pack, step, point, Optional.empty());
    if (largest.isPresent()) {
      double most = largest.getAsDouble();
      double there = ReadingUncertainty.at(pack, step, point, Optional.empty(), most).combined();
      return model.showingUpTo(most, there).confusion(u);
    }
    return model.confusion(u);
  }

  private static List<Seen> outcomes(List<Point> points) {
    List<Seen> outcomes = new ArrayList<>();
    for (Point point : points) {
      for (Point.ReadingState state : point.states()) {
        outcomes.add(new Seen.OffNormal(point.id(), state.id()));
      }
    }
    outcomes.add(new Seen.AllNormal());
    return outcomes;
  }

  @Override
  int settle(Look look, double[] row) {
    double pNormalSoFar = 1;
    int outcome = 0;
    for (int i = 0; i < triggers.length; i++) {
      int states = triggers[i].length;
      double[] pState = new double[states + 1];
      int pivot = trueState(look, triggers[i], pState);
      if (pivot != SETTLED) {
        return pivot;
      }
      double pNormal = 0;
      for (int k = 0; k <= states; k++) {
        pNormal += pState[k] * classified[i][k][0];
      }
      for (int s = 1; s <= states; s++) {
        double p = 0;
        for (int k = 0; k <= states; k++) {
          p += pState[k] * classified[i][k][s];
        }
        row[outcome++] = pNormalSoFar * p;
      }
      pNormalSoFar *= pNormal;
    }
    row[outcome] = pNormalSoFar;
    return SETTLED;
  }

  /** Writes P(true state), normal first. */
  private int trueState(Look look, Inputs[] states, double[] pState) {
    double pNoneYet = 1;
    for (int s = 0; s < states.length; s++) {
      Inputs t = states[s];
      double pInactive = 1;
      for (int j = 0; j < t.nodes().length && pInactive > 0; j++) {
        byte bit = look.bit(t.bits()[j]);
        byte value = bit == 0 ? 0 : look.value(t.nodes()[j]);
        if (value == FaultLogic.UNKNOWN) {
          return look.pivot(t.nodes()[j]);
        }
        if (value == 1 && bit == FaultLogic.UNKNOWN && settlesBits) {
          return t.bits()[j];
        }
        pInactive *= value == 0 ? 1 : bit == 1 ? 0 : 1 - look.pOf(t.bits()[j]);
      }
      pState[s + 1] = pNoneYet * (1 - pInactive);
      pNoneYet *= pInactive;
    }
    pState[0] = pNoneYet;
    return SETTLED;
  }
}
