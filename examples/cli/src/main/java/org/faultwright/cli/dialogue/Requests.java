package org.faultwright.cli.dialogue;

import java.io.IOException;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.faultwright.casefile.CaseFile;
import org.faultwright.casefile.Fact;
import org.faultwright.casefile.FactId;
import org.faultwright.casefile.Told;
import org.faultwright.cli.text.Asides;
import org.faultwright.cli.text.Asked;
import org.faultwright.cli.text.BranchesText;
import org.faultwright.cli.text.BranchesText.Branch;
import org.faultwright.cli.text.Due;
import org.faultwright.cli.text.Naming;
import org.faultwright.cli.text.Page;
import org.faultwright.cli.text.WorkScreen;
import org.faultwright.diagnosis.Posterior;
import org.faultwright.explanation.FactWords;
import org.faultwright.explanation.WhyCause;
import org.faultwright.pack.BenchState;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.OutcomeId;
import org.faultwright.pack.Pack;
import org.faultwright.pack.StepId;
import org.faultwright.pack.Switch;
import org.faultwright.rules.Blocked;

/** What can be asked for besides answering; each returns what there is to say afterwards. */
final class Requests {

  private static final int MOST_REMARK = 500;

  private final Talk talk;
  private final Job job;
  private final Pack pack;

  Requests(Talk talk, Job job) {
    this.talk = talk;
    this.job = job;
    this.pack = job.pack();
  }

  /**
   * A step that was picked.
   *
   * @param step empty: none was
   */
  record Picked(Optional<StepId> step, String notice) {}

  /** Shows a page that was asked for. */
  String show(Heard.Command command, Due due, Question question) {
    Asides asides = asides();
    return switch (command.verb()) {
      case WHY -> why(command.rest(), due);
      case IF -> whatIf(command.rest(), question);
      case FACTS -> read(asides.facts());
      case SHUT -> read(asides.shut());
      case PAGE -> read(asides.whole(leader()));
      case READ_OUT ->
          read(WorkScreen.cautionsInFull(talk.console().screen(), pack, job.answer(), due));
      case SAVE -> save(command.rest());
      default -> read(help());
    };
  }

  private Asides asides() {
    return new Asides(talk.console().screen(), pack, job.answer());
  }

  private String read(Page page) {
    if (page.lines().isEmpty()) {
      return "There is nothing to show.";
    }
    talk.read(page);
    return "";
  }

  private Page help() {
    Page page = new Page(talk.console().screen());
    page.heading("WHAT CAN BE TYPED");
    page.item(
        "The number of an answer, or as many of its letters as it takes. A reading as the display shows it. Or:");
    for (Verb verb : Verb.values()) {
      String sign = verb.sign().isEmpty() ? " " : verb.sign();
      page.hanging(
          "  " + sign + "  " + verb.word() + " ".repeat(Math.max(1, 11 - verb.word().length())),
          org.faultwright.cli.text.Ink.STRONG,
          verb.help(),
          org.faultwright.cli.text.Ink.PLAIN);
    }
    return page;
  }

  private Optional<WhyCause> leader() {
    return job.answer().posterior().map(p -> job.why(p.leader().cause()));
  }

  private String why(String rest, Due due) {
    String about = rest.replaceFirst("^not( |$)", "").strip();
    if (about.isEmpty()) {
      return read(asides().why(due, leader()));
    }
    Optional<Posterior> posterior = job.answer().posterior();
    if (about.matches("[0-9]{1,2}") && posterior.isPresent()) {
      int rank = Integer.parseInt(about);
      if (rank < 1 || rank > posterior.get().ranking().size()) {
        return "There is no place " + rank + " in the ranking.";
      }
      return read(asides().cause(job.why(posterior.get().ranking().get(rank - 1).cause())));
    }
    Named<CauseId> cause = Named.among(causes(), about);
    if (cause instanceof Named.Found<CauseId> found && posterior.isPresent()) {
      return read(asides().cause(job.why(found.id())));
    }
    Named<StepId> step = Named.among(steps(), about);
    if (step instanceof Named.Found<StepId> found) {
      return read(asides().whyNot(found.id()));
    }
    if (cause instanceof Named.NotFound<CauseId> none) {
      boolean steps = step instanceof Named.NotFound<StepId> s && s.several() && !none.several();
      return steps ? ((Named.NotFound<StepId>) step).words() : none.words();
    }
    return "Nothing ranks now, so no cause can be explained.";
  }

  private Map<CauseId, String> causes() {
    Map<CauseId, String> titles = new LinkedHashMap<>();
    pack.causes().forEach((id, cause) -> titles.put(id, cause.title()));
    return titles;
  }

  private Map<StepId, String> steps() {
    Map<StepId, String> titles = new LinkedHashMap<>();
    pack.steps().forEach((id, step) -> titles.put(id, step.title()));
    return titles;
  }

  private String whatIf(String rest, Question question) {
    List<OutcomeId> outcomes;
    StepId step;
    if (rest.isBlank() || rest.matches("[0-9]{1,2}")) {
      if (question.step().isEmpty()) {
        return "No step is at hand; name one: if bend-check.";
      }
      step = question.step().get();
    } else {
      Named<StepId> named = Named.among(steps(), rest);
      if (named instanceof Named.NotFound<StepId> none) {
        return none.words();
      }
      step = ((Named.Found<StepId>) named).id();
    }
    outcomes = pack.steps().get(step).shows().map(s -> s.outcomes()).orElse(List.of());
    if (rest.matches("[0-9]{1,2}")) {
      int number = Integer.parseInt(rest);
      if (number < 1 || number > outcomes.size()) {
        return "There is no outcome " + number + " of this step.";
      }
      outcomes = List.of(outcomes.get(number - 1));
    }
    if (outcomes.isEmpty()) {
      return "That step has no outcomes to suppose; it takes readings or is just done.";
    }
    List<Branch> branches = new ArrayList<>();
    for (OutcomeId outcome : outcomes) {
      List<Fact> facts = List.of(new Fact.OutcomeSeen(step, outcome));
      branches.add(new Branch(facts, job.suppose(inPlace(step, facts))));
    }
    if (talk.console().isPlain()) {
      talk.console().show(BranchesText.spoken(pack, branches));
      return "";
    }
    Page page = new Page(talk.console().screen());
    new BranchesText(page, pack).write(job.answer(), branches);
    return read(page);
  }

  /** With the bench in place for the step. */
  private List<Fact> inPlace(StepId step, List<Fact> facts) {
    List<Fact> all = new ArrayList<>();
    job.answer().findings().step(step).turns().forEach(t -> all.add(new Fact.BenchSet(t)));
    all.addAll(facts);
    return all;
  }

  private String save(String rest) {
    if (rest.isBlank()) {
      return "All is kept in " + job.file() + " after every answer.";
    }
    try {
      job.copyTo(Path.of(rest.strip()));
      return "A copy is in " + rest.strip() + "; the work goes on in " + job.file() + ".";
    } catch (IOException | InvalidPathException e) {
      return "No copy was made: " + e.getMessage();
    }
  }

  /** Lets a step be picked, from the list or by its place in it or by name. */
  Picked pick(String which) {
    Asides asides = asides();
    List<StepId> open = asides.openSteps();
    String typed = which.strip();
    if (typed.isEmpty()) {
      Asked asked =
          new Asked(
              "Which one?",
              open.stream().map(asides::withWorth).toList(),
              List.of("enter: none of them", "shut: those not open"),
              "");
      typed = talk.askList("OPEN NOW, the most worth first", asked).orElse("").strip();
    }
    if (typed.isEmpty()) {
      return new Picked(Optional.empty(), "");
    } else if (typed.equals(Verb.SHUT.word())) {
      return new Picked(Optional.empty(), read(asides.shut()));
    } else if (typed.matches("[0-9]{1,3}")) {
      int number = Integer.parseInt(typed);
      return number >= 1 && number <= open.size()
          ? new Picked(Optional.of(open.get(number - 1)), "")
          : new Picked(Optional.empty(), "There is no " + typed + " on that list.");
    }
    Named<StepId> named = Named.among(steps(), typed);
    if (named instanceof Named.NotFound<StepId> none) {
      return new Picked(Optional.empty(), none.words());
    }
    return picked(((Named.Found<StepId>) named).id());
  }

  private Picked picked(StepId step) {
    List<Blocked> blocked = job.answer().findings().step(step).blocked();
    if (blocked.isEmpty()) {
      return new Picked(Optional.of(step), "");
    }
    Blocked first = blocked.get(0);
    return new Picked(
        Optional.empty(),
        "Not open: "
            + Naming.plain(first.words())
            + (first.wayOut().isEmpty() ? "" : " (" + first.wayOut() + ")"));
  }

  /** What is said of facts that were taken out. */
  String undone(List<Told> out) {
    return out.isEmpty()
        ? "There is nothing left to take out."
        : "As if never said: "
            + String.join("; ", out.stream().map(t -> FactWords.of(pack, t.fact())).toList());
  }

  String note(String text) {
    if (text.isBlank()) {
      return "Type it behind the word: note screw 3 was missing.";
    } else if (text.length() > MOST_REMARK) {
      return "That is too long to keep as a remark: at most " + MOST_REMARK + " signs.";
    }
    job.tell(List.of(), List.of(new Fact.Noted(text.strip())));
    return "Kept: " + text.strip();
  }

  String takeOut(String typed) {
    if (!typed.strip().matches("[0-9]{1,6}")) {
      return "Type the number of a fact behind the word: out 5. Their numbers: facts.";
    }
    int number = Integer.parseInt(typed.strip());
    return number < 1 ? "Facts count from 1." : takeOut(new FactId(number));
  }

  String takeOut(FactId id) {
    Optional<Told> told =
        job.caseFile().facts().stream().filter(t -> t.id().equals(id)).findFirst();
    if (told.isEmpty()) {
      return "There is no fact " + id.number() + ".";
    }
    job.takeOut(id);
    return "As if never said: " + FactWords.of(pack, told.get().fact());
  }

  /** Tells a position of the bench that has changed. */
  String bench(String which) {
    List<Switch> switches = List.copyOf(pack.switches().values());
    Asides asides = asides();
    String typed = which.strip();
    if (typed.isEmpty()) {
      Asked asked =
          new Asked(
              "Which one is otherwise now?",
              switches.stream().map(asides::position).toList(),
              List.of("enter: none"),
              "");
      typed = talk.askList("BENCH", asked).orElse("").strip();
    }
    if (typed.isEmpty()) {
      return "";
    } else if (!typed.matches("[0-9]{1,3}")) {
      return "Type a number of the list of positions.";
    }
    int number = Integer.parseInt(typed);
    if (number < 1 || number > switches.size()) {
      return "There is no " + typed + " on that list.";
    }
    Switch turned = switches.get(number - 1);
    boolean on = job.answer().findings().bench().contains(new BenchState(turned.id(), true));
    Fact fact = new Fact.BenchSet(new BenchState(turned.id(), !on));
    job.tell(List.of(), List.of(fact));
    return "Kept: " + FactWords.of(pack, fact);
  }

  /** Why something could not be done, in a few words; may stay empty. */
  String reason(String typed) {
    String why = typed;
    if (why.isBlank()) {
      Asked asked =
          new Asked(
              "Why can it not be done?",
              List.of(),
              List.of("a few words", "enter: leave it out"),
              "");
      why = talk.askList("CAN'T BE DONE", asked).orElse("");
    }
    String kept = why.strip();
    return kept.length() > MOST_REMARK ? kept.substring(0, MOST_REMARK) : kept;
  }

  /** Goes on with what was settled besides. */
  String adopt(CaseFile settled) {
    List<FactId> known = job.caseFile().facts().stream().map(Told::id).toList();
    List<Fact> more =
        settled.facts().stream().filter(t -> !known.contains(t.id())).map(Told::fact).toList();
    boolean other = !settled.intake().equals(job.caseFile().intake());
    job.settle(settled.intake());
    job.tell(List.of(), more);
    return more.isEmpty() && !other ? "" : "Kept.";
  }
}
