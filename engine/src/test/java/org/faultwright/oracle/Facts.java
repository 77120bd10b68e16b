package org.faultwright.oracle;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.faultwright.casefile.Fact;
import org.faultwright.casefile.FactId;
import org.faultwright.casefile.Told;
import org.faultwright.measurement.ReadingValue;
import org.faultwright.pack.ComplaintId;
import org.faultwright.pack.HistoryId;
import org.faultwright.pack.OutcomeId;
import org.faultwright.pack.PointId;
import org.faultwright.pack.StepId;
import org.faultwright.pack.SymptomId;
import org.faultwright.pack.SymptomValue;

/** Short ways to state facts, for tests. */
public final class Facts {

  private Facts() {}

  /** Facts as told, numbered from 1. */
  public static List<Told> told(Fact... facts) {
    return told(List.of(facts));
  }

  /** Facts as told, numbered from 1. */
  public static List<Told> told(List<Fact> facts) {
    List<Told> told = new ArrayList<>();
    for (Fact fact : facts) {
      told.add(new Told(new FactId(told.size() + 1), Optional.empty(), fact));
    }
    return List.copyOf(told);
  }

  /** The customer reports a complaint. */
  public static Fact reported(String complaint) {
    return new Fact.Complained(new ComplaintId(complaint), true);
  }

  /** The customer was asked, and the function is there. */
  public static Fact notReported(String complaint) {
    return new Fact.Complained(new ComplaintId(complaint), false);
  }

  /** An outcome of a step. */
  public static Fact outcome(String step, String outcome) {
    return new Fact.OutcomeSeen(new StepId(step), new OutcomeId(outcome));
  }

  /** A step was carried out. */
  public static Fact done(String step) {
    return new Fact.StepDone(new StepId(step), Optional.empty());
  }

  /** A symptom was noted. */
  public static Fact symptom(String symptom, SymptomValue value) {
    return new Fact.SymptomNoted(new SymptomId(symptom), value);
  }

  /** The customer's word about a history. */
  public static Fact said(String history, boolean happened) {
    return new Fact.HistorySaid(new HistoryId(history), happened);
  }

  /** Our look at the traces of a history. */
  public static Fact traces(String history, boolean traces) {
    return new Fact.HistorySeen(new HistoryId(history), traces);
  }

  /** A reading. */
  public static Fact reading(String point, ReadingValue value) {
    return new Fact.ReadingTaken(
        new PointId(point), value, OptionalDouble.empty(), Fact.Setup.AS_STATED);
  }
}
