package org.faultwright.casefile;

import java.util.Optional;
import java.util.OptionalDouble;
import org.faultwright.measurement.ReadingValue;
import org.faultwright.pack.BenchState;
import org.faultwright.pack.BoardId;
import org.faultwright.pack.ComplaintId;
import org.faultwright.pack.ConsentId;
import org.faultwright.pack.HistoryId;
import org.faultwright.pack.Id;
import org.faultwright.pack.InstrumentId;
import org.faultwright.pack.OutcomeId;
import org.faultwright.pack.PointId;
import org.faultwright.pack.StepId;
import org.faultwright.pack.SymptomId;
import org.faultwright.pack.SymptomValue;

/** Something said, seen, measured or done in a case. */
public sealed interface Fact {

  /**
   * The customer reports a complaint, or says that it is not so.
   *
   * @param reported false: asked, and the customer says that the function is there
   */
  record Complained(ComplaintId complaint, boolean reported) implements Fact {}

  /** What is known of a symptom. */
  record SymptomNoted(SymptomId symptom, SymptomValue value) implements Fact {}

  /** What the customer says of the device's history. */
  record HistorySaid(HistoryId history, boolean happened) implements Fact {}

  /** What we see of its traces. */
  record HistorySeen(HistoryId history, boolean traces) implements Fact {}

  /** How a step came out. */
  record OutcomeSeen(StepId step, OutcomeId outcome) implements Fact {}

  /** A step could not be carried out. It is no evidence about causes. */
  record CouldNotDo(StepId step, String why) implements Fact {}

  /**
   * A reading.
   *
   * @param uncertainty standard uncertainty in SI units, where stated with the reading
   * @param setup under what setup it was taken, where stated
   */
  record ReadingTaken(PointId point, ReadingValue value, OptionalDouble uncertainty, Setup setup)
      implements Fact {}

  /** A step has been carried out; for an attempt, this begins a new epoch. */
  record StepDone(StepId step, Optional<PartUsed> part) implements Fact {}

  /** A switch of the bench has been turned, or found, in a position. */
  record BenchSet(BenchState state) implements Fact {}

  /** The customer has agreed to something, or refused. */
  record ConsentAnswered(ConsentId consent, boolean given) implements Fact {}

  /**
   * A line of the check list that is gone through at intake and at the end. It is no evidence about
   * causes, which have steps of their own; it shows what was broken before, and what was broken
   * here.
   *
   * @param function what was checked, by a short name, such as {@code camera}
   * @param atEnd whether it was checked at the end; else at intake
   */
  record Checked(String function, boolean atEnd, Result result) implements Fact {

    /** Checks that the name is spelt as an {@link org.faultwright.pack.Id}. */
    public Checked {
      if (!Id.isWellSpelt(function)) {
        throw new IllegalArgumentException("function must be spelt as an id: " + function);
      }
    }

    /** What came of a check. */
    public enum Result {
      /** It works. */
      WORKS,
      /** It does not work as it should. */
      FAULTY,
      /** Nobody has looked. */
      NOT_TESTED,
      /** It cannot be tested as the device is. */
      CANNOT_TEST
    }
  }

  /** A remark. */
  record Noted(String text) implements Fact {}

  /**
   * Under what setup a reading was taken; what is empty is as the pack says.
   *
   * @param leads how the leads were put
   * @param instrument what was measured with
   * @param knownGood whether it was taken on a known-good board, to compare with: it tells of the
   *     instrument then, not of the device
   * @param celsius the temperature of what was measured
   * @param board the board variant of the known-good board; empty: that of the device
   */
  record Setup(
      Optional<String> leads,
      Optional<InstrumentId> instrument,
      boolean knownGood,
      OptionalDouble celsius,
      Optional<BoardId> board) {

    /** As the pack says. */
    public static final Setup AS_STATED = new Setup(Optional.empty(), Optional.empty());

    /** On the device, at a temperature that is not known. */
    public Setup(Optional<String> leads, Optional<InstrumentId> instrument) {
      this(leads, instrument, false, OptionalDouble.empty());
    }

    /** On the device, or on a known-good board of its kind. */
    public Setup(
        Optional<String> leads,
        Optional<InstrumentId> instrument,
        boolean knownGood,
        OptionalDouble celsius) {
      this(leads, instrument, knownGood, celsius, Optional.empty());
    }
  }

  /**
   * The part that was put in: its grade (new, pulled, refurbished) and batch, as the shop calls
   * them.
   */
  record PartUsed(Optional<String> grade, Optional<String> batch) {}
}
