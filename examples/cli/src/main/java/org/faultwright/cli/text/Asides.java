package org.faultwright.cli.text;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import org.faultwright.casefile.Told;
import org.faultwright.diagnosis.Answer;
import org.faultwright.diagnosis.Considered;
import org.faultwright.explanation.WhyCause;
import org.faultwright.pack.BenchState;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Step;
import org.faultwright.pack.StepId;
import org.faultwright.pack.Switch;
import org.faultwright.rules.Advice;
import org.faultwright.rules.Blocked;

/** Pages that somebody at the bench asks for besides: lists of steps, reasons, facts. */
public final class Asides {

  private final Screen screen;
  private final Pack pack;
  private final Answer answer;

  /** Writes about an answer. */
  public Asides(Screen screen, Pack pack, Answer answer) {
    this.screen = screen;
    this.pack = pack;
    this.answer = answer;
  }

  /** Alarms and holds; an empty page where there are none. */
  public Page dangers() {
    Page page = new Page(screen);
    Dangers.write(page, pack, answer);
    return page;
  }

  /** Everything there is to say. */
  public Page whole(Optional<WhyCause> leader) {
    Page page = new Page(screen);
    new AnswerText(pack, true)
        .write(page, answer, List.of(), leader.map(List::of).orElse(List.of()));
    return page;
  }

  /** Why this is next, and why the leader leads. */
  public Page why(Due due, Optional<WhyCause> leader) {
    Page page = new Page(screen);
    page.heading("WHY " + due.headline());
    due.reasons().forEach(reason -> page.item(Dangers.sentence(reason) + "."));
    if (due.reasons().isEmpty()) {
      page.item("A hold or an alarm asks for it: see the top of the screen.");
    }
    due.job().ifPresent(job -> page.item("The job: " + job + "."));
    leader.ifPresent(why -> WhyText.writeShort(page, pack, why));
    return page;
  }

  /** Everything about one cause. */
  public Page cause(WhyCause why) {
    Page page = new Page(screen);
    WhyText.writeFull(page, pack, why);
    return page;
  }

  /** Why a step is not what is done next. */
  public Page whyNot(StepId id) {
    Page page = new Page(screen);
    page.heading("WHY NOT " + Naming.step(pack, id));
    List<Blocked> blocked = answer.findings().step(id).blocked();
    for (Blocked b : blocked) {
      page.bullet(
          "Not open: "
              + Wording.plain(b.words())
              + (b.wayOut().isEmpty() ? "" : " (" + b.wayOut() + ")"));
    }
    if (blocked.isEmpty()) {
      page.item(open(id));
    }
    return page;
  }

  private String open(StepId id) {
    if (answer.advice().primary().step().equals(Optional.of(id))) {
      return "It is what is done next.";
    }
    String worth = Wording.worth(answer, Optional.of(id));
    Advice first = answer.advice().primary();
    return "It is open"
        + (worth.isEmpty() ? "" : worth)
        + ". Next is "
        + Wording.headline(pack, first)
        + Wording.worth(answer, first.step())
        + ". You may still choose it: other.";
  }

  /** Steps that are not open, each with the reason. */
  public Page shut() {
    Page page = new Page(screen);
    Alternatives.writeBlocked(page, pack, answer);
    return page;
  }

  /** All that was told. */
  public Page facts() {
    Page page = new Page(screen);
    page.heading("FACTS");
    for (Told told : answer.caseFile().facts()) {
      boolean counts = answer.findings().standing(told.id()).map(s -> s.counts()).orElse(true);
      page.item(
          Wording.fact(pack, told)
              + ReadingsAside.words(answer, told)
              + (counts ? "" : " (does not count)"));
    }
    FactsAside.writeConflicts(page, pack, answer);
    FactsAside.writeNotCounted(page, pack, answer, true);
    return page;
  }

  /** Steps that can be done now: those advised, then those open besides, the most worth first. */
  public List<StepId> openSteps() {
    Set<StepId> steps = new LinkedHashSet<>();
    answer.advice().primary().step().filter(this::isOpen).ifPresent(steps::add);
    answer.steps().stream()
        .filter(c -> c.worth().isPresent() && c.status().isOpen())
        .map(Considered::step)
        .forEach(steps::add);
    answer.advice().others().forEach(a -> a.step().filter(this::isOpen).ifPresent(steps::add));
    answer.steps().stream()
        .filter(c -> c.status().isOpen())
        .map(Considered::step)
        .forEach(steps::add);
    return List.copyOf(steps);
  }

  private boolean isOpen(StepId step) {
    return answer.findings().isOpen(step);
  }

  /** A step with its minutes and its worth, for a list. */
  public String withWorth(StepId id) {
    Step step = pack.steps().get(id);
    List<String> parts = new ArrayList<>();
    parts.add(Figures.time(step.effort().hands().plus(step.effort().waiting())));
    OptionalDouble worth =
        answer.steps().stream()
            .filter(c -> c.step().equals(id))
            .findFirst()
            .map(Considered::worth)
            .orElse(OptionalDouble.empty());
    if (worth.isPresent()) {
      parts.add("worth " + Figures.money(worth.getAsDouble()));
    }
    String rest = " (" + String.join(", ", parts) + ")";
    return new Page(screen).cut(Naming.step(pack, id), "     " + rest) + rest;
  }

  /** A switch with where it is and where it can be put. */
  public String position(Switch s) {
    boolean on = answer.findings().bench().contains(new BenchState(s.id(), true));
    return s.title()
        + ": now "
        + org.faultwright.explanation.FactWords.of(pack, new BenchState(s.id(), on));
  }
}
