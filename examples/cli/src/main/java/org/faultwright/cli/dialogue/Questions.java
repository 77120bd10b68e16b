package org.faultwright.cli.dialogue;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.faultwright.casefile.Fact;
import org.faultwright.casefile.FactId;
import org.faultwright.casefile.Told;
import org.faultwright.cli.dialogue.Question.Choice;
import org.faultwright.cli.text.Due;
import org.faultwright.cli.text.Figures;
import org.faultwright.cli.text.Naming;
import org.faultwright.diagnosis.Answer;
import org.faultwright.diagnosis.Considered;
import org.faultwright.diagnosis.Outlook;
import org.faultwright.explanation.FactWords;
import org.faultwright.measurement.ReadingModel;
import org.faultwright.pack.BenchState;
import org.faultwright.pack.ConsentId;
import org.faultwright.pack.OutcomeId;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Point;
import org.faultwright.pack.PointId;
import org.faultwright.pack.Step;
import org.faultwright.pack.StepId;
import org.faultwright.pack.SymptomValue;
import org.faultwright.rules.Advice;
import org.faultwright.rules.Standing;

/** Turns what is due into the one thing to ask. */
final class Questions {

  private final Pack pack;
  private final Answer answer;

  Questions(Pack pack, Answer answer) {
    this.pack = pack;
    this.answer = answer;
  }

  /**
   * What to ask.
   *
   * @param due what is done next
   * @param chosen whether somebody chose it, so that the kind of the advice does not matter
   * @param taken points of the step that have been read or passed over just now
   */
  Question of(Due due, boolean chosen, Set<PointId> taken) {
    if (!chosen) {
      Advice advice = answer.advice().primary();
      if (advice.kind() == Advice.Kind.ASK) {
        return consent(due);
      } else if (advice.kind().isEnd()) {
        return end();
      } else if (due.step().isEmpty() && advice.kind() == Advice.Kind.READ_AGAIN) {
        return again(due.about());
      }
    }
    return due.step()
        .map(id -> step(pack.steps().get(id), due.turns(), taken))
        .orElseGet(() -> turned(due.turns()));
  }

  private Question step(Step step, List<BenchState> turns, Set<PointId> taken) {
    Optional<Point> next = points(step).stream().filter(p -> !taken.contains(p.id())).findFirst();
    if (next.isPresent()) {
      String words =
          "Reading: "
              + Naming.point(next.get())
              + "? Normal is "
              + Naming.normal(next.get())
              + withoutNumber(next.get());
      return new Question(words, List.of(), next, Optional.of(step.id()), turns);
    }
    List<Fact> done =
        step.isAttempt() ? List.of(new Fact.StepDone(step.id(), Optional.empty())) : List.of();
    if (step.shows().isEmpty()) {
      return new Question("Done?", done(step), Optional.empty(), Optional.of(step.id()), turns);
    }
    List<Choice> choices = new ArrayList<>();
    Map<OutcomeId, Double> likely = likely(step.id());
    for (OutcomeId outcome : step.shows().get().outcomes()) {
      List<Fact> facts = new ArrayList<>(done);
      facts.add(new Fact.OutcomeSeen(step.id(), outcome));
      String p =
          likely.containsKey(outcome) ? " (" + Figures.percent(likely.get(outcome)) + ")" : "";
      choices.add(
          new Choice(FactWords.of(outcome) + beside(step, outcome) + p, new Act.Tell(facts)));
    }
    return new Question("What came out?", choices, Optional.empty(), Optional.of(step.id()), turns);
  }

  /** States that no number tells of: whoever sees one must know that it can be said. */
  private static String withoutNumber(Point point) {
    List<String> names =
        point.states().stream()
            .filter(
                s ->
                    s.lies().isEmpty()
                        && !ReadingModel.knowsRange(s.id().value(), point.reference()))
            .map(s -> s.id().value())
            .toList();
    return names.isEmpty() ? "" : "; or type " + String.join(", ", names);
  }

  /** What an outcome means beside what the same step showed before the last attempt. */
  private String beside(Step step, OutcomeId outcome) {
    return before(step)
        .map(
            was ->
                was.equals(outcome)
                    ? ": same"
                    : outcome.equals(step.shows().orElseThrow().inOrder())
                        ? ": gone"
                        : ": different")
        .orElse("");
  }

  /** What a step showed last, where something was tried on the device after it. */
  private Optional<OutcomeId> before(Step step) {
    Optional<OutcomeId> last = Optional.empty();
    boolean tried = false;
    for (Told told : answer.caseFile().facts()) {
      if (told.fact() instanceof Fact.OutcomeSeen seen && seen.step().equals(step.id())) {
        last = Optional.of(seen.outcome());
        tried = false;
      } else if (told.fact() instanceof Fact.StepDone done) {
        tried |= pack.steps().get(done.step()).isAttempt();
      }
    }
    return tried ? last : Optional.empty();
  }

  /** The points of a step that the board at hand has. */
  private List<Point> points(Step step) {
    return pack.readIn(step).stream()
        .filter(
            p ->
                p.boards().isEmpty()
                    || answer.caseFile().intake().board().map(p.boards()::contains).orElse(true))
        .toList();
  }

  private static List<Choice> done(Step step) {
    List<Choice> choices = new ArrayList<>();
    if (step.swap().isPresent()) {
      for (String grade : List.of("new", "pulled", "refurbished")) {
        Fact.PartUsed part = new Fact.PartUsed(Optional.of(grade), Optional.empty());
        choices.add(
            new Choice(
                "done, " + grade + " part",
                new Act.Tell(List.of(new Fact.StepDone(step.id(), Optional.of(part))))));
      }
    } else {
      choices.add(
          new Choice(
              "done", new Act.Tell(List.of(new Fact.StepDone(step.id(), Optional.empty())))));
    }
    return choices;
  }

  private Map<OutcomeId, Double> likely(StepId step) {
    return answer.steps().stream()
        .filter(c -> c.step().equals(step))
        .findFirst()
        .map(Considered::outcomes)
        .orElse(Map.of());
  }

  private static Question turned(List<BenchState> turns) {
    // the turns themselves are what the answer tells
    return new Question(
        "Done?",
        List.of(new Choice("done", new Act.Tell(List.of()))),
        Optional.empty(),
        Optional.empty(),
        turns);
  }

  private Question consent(Due due) {
    List<Choice> choices = new ArrayList<>();
    List<ConsentId> asked = List.copyOf(due.consents());
    if (asked.isEmpty()) {
      return end();
    }
    ConsentId first = asked.get(0);
    choices.add(new Choice("agrees", new Act.Tell(List.of(new Fact.ConsentAnswered(first, true)))));
    choices.add(
        new Choice("refuses", new Act.Tell(List.of(new Fact.ConsentAnswered(first, false)))));
    return new Question(
        "Ask the customer: " + Naming.consent(pack, first) + ". Agreed?",
        choices,
        Optional.empty(),
        Optional.empty(),
        List.of());
  }

  private Question end() {
    List<Choice> choices = new ArrayList<>();
    if (answer.outlook() instanceof Outlook.ImpossibleEvidence impossible) {
      for (FactId id : impossible.clash()) {
        choices.add(new Choice("take out fact " + id.number(), new Act.TakeOut(id)));
      }
      return new Question(
          "Which one is wrong?", choices, Optional.empty(), Optional.empty(), List.of());
    }
    choices.add(new Choice("end the work here", new Act.End()));
    choices.add(new Choice("not yet: what else is there?", new Act.SomethingElse()));
    return new Question("End here?", choices, Optional.empty(), Optional.empty(), List.of());
  }

  /** Something said or seen, once more. */
  private Question again(Set<FactId> about) {
    FactId id = about.iterator().next();
    Told told = answer.findings().standing(id).map(Standing::told).orElseThrow();
    List<Choice> choices = new ArrayList<>();
    if (told.fact() instanceof Fact.SymptomNoted f) {
      for (SymptomValue value : SymptomValue.values()) {
        String words = value.name().toLowerCase(Locale.ROOT).replace('_', ' ');
        choices.add(tell(words, new Fact.SymptomNoted(f.symptom(), value)));
      }
    } else if (told.fact() instanceof Fact.HistorySaid f) {
      choices.add(tell("customer says yes", new Fact.HistorySaid(f.history(), true)));
      choices.add(tell("customer says no", new Fact.HistorySaid(f.history(), false)));
    } else if (told.fact() instanceof Fact.HistorySeen f) {
      choices.add(tell("traces seen", new Fact.HistorySeen(f.history(), true)));
      choices.add(tell("no traces", new Fact.HistorySeen(f.history(), false)));
    } else if (told.fact() instanceof Fact.Complained f) {
      choices.add(tell("customer says so", new Fact.Complained(f.complaint(), true)));
      choices.add(tell("customer says no", new Fact.Complained(f.complaint(), false)));
    }
    choices.add(new Choice("take fact " + id.number() + " out", new Act.TakeOut(id)));
    return new Question(
        "Look or ask again: " + FactWords.of(pack, told.fact()) + "?",
        choices,
        Optional.empty(),
        Optional.empty(),
        List.of());
  }

  private static Choice tell(String words, Fact fact) {
    return new Choice(words, new Act.Tell(List.of(fact)));
  }
}
