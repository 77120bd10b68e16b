package org.faultwright.diagnosis;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.faultwright.casefile.FactId;
import org.faultwright.casefile.JudgedReading;
import org.faultwright.compile.SharedOffset;
import org.faultwright.measurement.ReadingValue;
import org.faultwright.pack.NodeId;
import org.faultwright.pack.Point;
import org.faultwright.pack.StateId;
import org.faultwright.pack.StepId;

/**
 * The readings of one step as a table, each beside its reference, with what they say together.
 *
 * @param lines in the order of the step's points; a point that was read twice has two
 * @param missing the points of the step that were not read
 * @param alike what the readings say of the systematic error that they share, where they say that
 *     it is large; empty: nothing much
 * @param differences of readings that were taken to be compared, in the order of the lines; two
 *     points that should read alike are compared once, from the one that the comparison names first
 * @param posterior how likely the causes are with all facts; empty where nothing ranks
 */
public record PinReport(
    StepId step,
    List<Line> lines,
    List<Point> missing,
    Optional<Alike> alike,
    List<Difference> differences,
    Optional<Posterior> posterior) {

  /** Whether something stands out: a reading, a pair that differs, or all of them alike. */
  public boolean isOdd() {
    return lines.stream().anyMatch(Line::isOdd)
        || differences.stream().anyMatch(Difference::isOdd)
        || alike.isPresent();
  }

  /** Copies the lists. */
  public PinReport {
    lines = List.copyOf(lines);
    missing = List.copyOf(missing);
    differences = List.copyOf(differences);
  }

  /**
   * One reading.
   *
   * @param value as the display showed it
   * @param corrected what was corrected in it, in words
   * @param deviation from the reference as a part of it: from the nominal value, or from the limit
   *     that is broken; empty where there is none to compare with
   * @param inUncertainties the same in standard uncertainties of the reading
   * @param state the state that it speaks for, once the shared error is taken off
   * @param judged how the true value keeps to the reference, from this reading alone (JCGM
   *     106:2012)
   * @param counts whether it counts as evidence; with the reason in words where it does not
   * @param pointsTo what the state points to, the most likely first; empty where it is normal
   */
  public record Line(
      FactId fact,
      Point point,
      ReadingValue value,
      Optional<String> corrected,
      OptionalDouble deviation,
      OptionalDouble inUncertainties,
      StateId state,
      JudgedReading judged,
      Counts counts,
      List<Suspect> pointsTo) {

    /** Copies the list. */
    public Line {
      pointsTo = List.copyOf(pointsTo);
    }

    /** Probability that the true value keeps to the reference. */
    public double pConforms() {
      return judged.conformance().pConforms();
    }

    /** Whether it lies too close to a limit to say on which side. */
    public boolean nearLimit() {
      return judged.conformance().nearLimit();
    }

    /** Whether it stands out. */
    public boolean isOdd() {
      return !state.equals(StateId.NORMAL);
    }
  }

  /**
   * How far a reading lies from another one of the same setup, whose error it shares: of a point
   * that should read alike, or of the same point on a known-good board.
   *
   * @param line the fact that is the reading
   * @param with the fact that it is compared with
   * @param other the point of that
   * @param onKnownGood whether it was taken on a known-good board
   * @param difference what the reading lies above it, in SI units, beyond what the references do
   * @param uncertainty standard uncertainty of the difference, without what both share
   * @param verdict whether the two read alike; empty where that cannot be said: on a known-good
   *     board, or where one of the points is off by itself
   */
  public record Difference(
      FactId line,
      FactId with,
      Point other,
      boolean onKnownGood,
      double difference,
      double uncertainty,
      Optional<Verdict> verdict) {

    /** Whether it stands out. */
    public boolean isOdd() {
      return verdict.map(Verdict::apart).orElse(false);
    }
  }

  /**
   * Whether two points that should read alike do.
   *
   * @param apart whether the readings speak for their being apart
   * @param mayDiffer by how much good devices differ at most, in SI units: about 95 of 100
   * @param pointsTo what it points to where they are apart, the most likely first
   */
  public record Verdict(boolean apart, double mayDiffer, List<Suspect> pointsTo) {

    /** Copies the list. */
    public Verdict {
      pointsTo = List.copyOf(pointsTo);
    }
  }

  /**
   * Whether a reading counts.
   *
   * @param why where it does not, in words
   */
  public record Counts(boolean counts, Optional<String> why) {}

  /**
   * A cause or event that a state, or a difference, points to.
   *
   * @param p its probability now, given all facts; empty where nothing ranks
   */
  public record Suspect(NodeId node, String title, OptionalDouble p) {}

  /**
   * Readings that are off alike.
   *
   * @param offset what is known of the shared error
   * @param ofReading the error as a part of the readings, on average; below 0 where they are low
   */
  public record Alike(SharedOffset offset, double ofReading) {}
}
