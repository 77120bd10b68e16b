package org.faultwright.explanation;

import java.util.Locale;
import org.faultwright.casefile.Fact;
import org.faultwright.measurement.ReadingValue;
import org.faultwright.pack.BenchState;
import org.faultwright.pack.Conventions;
import org.faultwright.pack.OutcomeId;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Point;
import org.faultwright.pack.PointId;
import org.faultwright.pack.Step;
import org.faultwright.pack.Switch;

/** Facts in the words of the pack, as a technician reads them. */
public final class FactWords {

  private FactWords() {}

  /** One line, without a full stop. */
  public static String of(Pack pack, Fact fact) {
    if (fact instanceof Fact.Complained f) {
      return pack.complaints().get(f.complaint()).title()
          + (f.reported() ? "" : ": customer says no");
    } else if (fact instanceof Fact.SymptomNoted f) {
      return pack.symptoms().get(f.symptom()).title() + ": " + spaced(f.value().name());
    } else if (fact instanceof Fact.HistorySaid f) {
      return pack.histories().get(f.history()).title()
          + ": customer says "
          + (f.happened() ? "yes" : "no");
    } else if (fact instanceof Fact.HistorySeen f) {
      return pack.histories().get(f.history()).title()
          + ": traces "
          + (f.traces() ? "seen" : "not seen");
    } else if (fact instanceof Fact.OutcomeSeen f) {
      return pack.steps().get(f.step()).title() + ": " + of(f.outcome());
    } else if (fact instanceof Fact.CouldNotDo f) {
      return pack.steps().get(f.step()).title()
          + ": could not do"
          + (f.why().isEmpty() ? "" : ", " + f.why());
    } else if (fact instanceof Fact.ReadingTaken f) {
      return title(pack, f.point())
          + ": "
          + of(f.value())
          + (f.setup().knownGood() ? " on a known-good board" : "");
    } else if (fact instanceof Fact.StepDone f) {
      return "Done: " + pack.steps().get(f.step()).title();
    } else if (fact instanceof Fact.BenchSet f) {
      return "Bench: " + of(pack, f.state());
    } else if (fact instanceof Fact.ConsentAnswered f) {
      return "Customer "
          + (f.given() ? "agrees: " : "refuses: ")
          + pack.consents()
              .getOrDefault(
                  f.consent(),
                  Conventions.ASKED_ANYWHERE.getOrDefault(f.consent(), f.consent().value()));
    }
    if (fact instanceof Fact.Checked f) {
      return "Check at "
          + (f.atEnd() ? "the end" : "intake")
          + ": "
          + f.function().replace('-', ' ')
          + ": "
          + spaced(f.result().name());
    }
    return ((Fact.Noted) fact).text();
  }

  /** A reading as the display shows it. */
  public static String of(ReadingValue value) {
    return value instanceof ReadingValue.Named n ? n.state().replace('-', ' ') : value.toString();
  }

  /** An outcome's name with spaces. */
  public static String of(OutcomeId outcome) {
    return outcome.value().replace('-', ' ');
  }

  /** The name of a switch's position, with spaces. */
  public static String of(Pack pack, BenchState state) {
    Switch s = pack.switches().get(state.of());
    return (state.on() ? s.id() : s.offCalled()).value().replace('-', ' ');
  }

  private static String title(Pack pack, PointId id) {
    for (Step step : pack.steps().values()) {
      for (Point p : step.pinTable().map(Step.PinTable::points).orElse(java.util.List.of())) {
        if (p.id().equals(id)) {
          return p.title();
        }
      }
    }
    return id.value();
  }

  private static String spaced(String name) {
    return name.toLowerCase(Locale.ROOT).replace('_', ' ');
  }
}
