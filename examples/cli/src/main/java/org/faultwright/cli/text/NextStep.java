package org.faultwright.cli.text;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import org.faultwright.casefile.FactId;
import org.faultwright.diagnosis.Answer;
import org.faultwright.diagnosis.Considered;
import org.faultwright.explanation.FactWords;
import org.faultwright.measurement.Quantity;
import org.faultwright.measurement.Reference;
import org.faultwright.pack.CautionId;
import org.faultwright.pack.ConsentId;
import org.faultwright.pack.Effort;
import org.faultwright.pack.OutcomeId;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Point;
import org.faultwright.pack.Step;
import org.faultwright.pack.StepId;

/** What to do next, with all that must be at hand when it is done. */
final class NextStep {

  private static final int SIGNIFICANT_DIGITS = 3;

  /** What an entry is about; what is dropped first where room is short is for the screen to say. */
  enum About {
    WHY,
    FACT,
    CONSENT,
    TIME,
    JOB,
    TURNS,
    TOOLS,
    PART,
    CAUTION,
    LIMIT,
    HOW,
    READ,
    EXPECT,
    THEN
  }

  /** A label with its text. */
  record Entry(About about, String label, Ink ink, String text) {}

  private final Pack pack;
  private final Answer answer;
  private final Due due;
  private final List<Entry> entries = new ArrayList<>();

  private NextStep(Pack pack, Answer answer, Due due) {
    this.pack = pack;
    this.answer = answer;
    this.due = due;
  }

  static void write(Page page, Pack pack, Answer answer) {
    Due due = Due.of(pack, answer, answer.advice().primary());
    Ink ink = due.danger() ? Ink.DANGER : Ink.STRONG;
    page.gap().hanging("NEXT  ", ink, due.headline(), ink);
    entries(pack, answer, due).forEach(e -> page.labelled(e.label(), e.ink(), e.text()));
  }

  /** All that there is to say of it, in the order in which it is needed. */
  static List<Entry> entries(Pack pack, Answer answer, Due due) {
    NextStep next = new NextStep(pack, answer, due);
    next.collect();
    return next.entries;
  }

  private void add(About about, String label, Ink ink, String text) {
    entries.add(new Entry(about, label, ink, text));
  }

  private void collect() {
    String why = String.join("; ", due.reasons());
    add(About.WHY, "why", Ink.PLAIN, why.isEmpty() ? "see above" : why);
    for (FactId fact : due.about()) {
      add(About.FACT, "about", Ink.PLAIN, Wording.fact(pack, answer, fact));
    }
    for (ConsentId consent : due.consents()) {
      add(About.CONSENT, "ask", Ink.STRONG, Wording.consent(pack, consent));
    }
    Optional<Step> step = due.step(pack);
    addTime(step);
    due.job().ifPresent(job -> add(About.JOB, "job", Ink.PLAIN, job));
    if (step.isPresent() && !due.turns().isEmpty()) {
      add(About.TURNS, "first", Ink.STRONG, Wording.turns(pack, due.turns()));
    }
    step.ifPresent(this::addTools);
    for (CautionId caution : due.cautions()) {
      add(About.CAUTION, "CAUTION", Ink.CAUTION, pack.cautions().get(caution).text());
    }
    step.ifPresent(this::addLimits);
    step.ifPresent(this::addHow);
    step.ifPresent(this::addOutcomes);
    step.flatMap(Step::thenRepeat).ifPresent(this::addThen);
  }

  private void addTime(Optional<Step> step) {
    Effort turns = Wording.effort(pack, due.turns());
    boolean turning = !turns.equals(Effort.NONE);
    if (step.isPresent()) {
      add(
          About.TIME,
          "time",
          Ink.PLAIN,
          Figures.time(step.get().effort())
              + (turning ? "; getting ready " + Figures.time(turns) : ""));
    } else if (turning) {
      add(About.TIME, "time", Ink.PLAIN, Figures.time(turns));
    }
  }

  private void addTools(Step step) {
    for (StepWords.Line line : StepWords.tools(pack, answer.shop(), step)) {
      add(line.label().equals("tools") ? About.TOOLS : About.PART, line);
    }
  }

  private void addLimits(Step step) {
    StepWords.limits(pack, step).forEach(l -> add(About.LIMIT, "AT MOST", Ink.CAUTION, l));
  }

  private void addHow(Step step) {
    StepWords.how(pack, step).forEach(line -> add(About.HOW, line));
    StepWords.read(pack, step).forEach(line -> add(About.READ, line));
  }

  private void add(About about, StepWords.Line line) {
    add(about, line.label(), Ink.PLAIN, line.text());
  }

  /** A point with its pin, where it is one. */
  static String point(Point point) {
    return point.title() + point.pin().map(pin -> " (pin " + pin + ")").orElse("");
  }

  /** Where a reading lies when all is well. */
  static String normal(Reference reference) {
    if (reference instanceof Reference.Around r) {
      return quantity(r.nominal() - r.tolerance(), r)
          + " to "
          + quantity(r.nominal() + r.tolerance(), r);
    } else if (reference instanceof Reference.Within r) {
      if (r.low().isEmpty()) {
        return "at most " + quantity(r.high().getAsDouble(), r);
      }
      String low = quantity(r.low().getAsDouble(), r);
      return r.high().isEmpty()
          ? "at least " + low
          : low + " to " + quantity(r.high().getAsDouble(), r);
    }
    return "OL (over-range)";
  }

  private static String quantity(double si, Reference reference) {
    return new Quantity(si, reference.dimension()).format(SIGNIFICANT_DIGITS);
  }

  private void addOutcomes(Step step) {
    Map<OutcomeId, Double> outcomes =
        answer.steps().stream()
            .filter(c -> c.step().equals(step.id()))
            .findFirst()
            .map(Considered::outcomes)
            .orElse(Map.of());
    if (!outcomes.isEmpty()) {
      add(
          About.EXPECT,
          "expect",
          Ink.PLAIN,
          outcomes.entrySet().stream()
              .sorted(Map.Entry.comparingByValue(Comparator.reverseOrder()))
              .map(o -> FactWords.of(o.getKey()) + " " + Figures.percent(o.getValue()))
              .collect(Collectors.joining(", ")));
    }
  }

  private void addThen(StepId then) {
    add(About.THEN, "then", Ink.PLAIN, pack.steps().get(then).title());
  }
}
