package org.faultwright.cli.dialogue;

import java.io.IOException;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.faultwright.casefile.CaseFile;
import org.faultwright.casefile.Fact;
import org.faultwright.casefile.FactId;
import org.faultwright.casefile.Told;
import org.faultwright.cli.dialogue.Question.Choice;
import org.faultwright.cli.text.Asides;
import org.faultwright.cli.text.Asked;
import org.faultwright.cli.text.Due;
import org.faultwright.cli.text.SpokenPage;
import org.faultwright.cli.text.WorkScreen;
import org.faultwright.diagnosis.Answer;
import org.faultwright.diagnosis.Diagnosis;
import org.faultwright.diagnosis.Engine;
import org.faultwright.explanation.FactWords;
import org.faultwright.pack.CautionId;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Point;
import org.faultwright.pack.PointId;
import org.faultwright.pack.Step;
import org.faultwright.pack.StepId;
import org.faultwright.rules.Advice;
import org.faultwright.rules.Standing;

/**
 * Works through a case at a terminal: shows where it stands, asks one thing, keeps the answer on
 * disk, and asks the next. Confined to one thread.
 */
public final class Dialogue {

  /** How a dialogue came to its end. */
  public enum End {
    /** The work is done or was ended. */
    ENDED,
    /** Whoever sat there has left; all is kept. */
    LEFT
  }

  private final Talk talk;
  private final Engine engine;
  private final Pack pack;
  private final CaseStore store;
  private final Set<CautionId> read = new LinkedHashSet<>();
  private final Set<PointId> taken = new LinkedHashSet<>();
  private Optional<StepId> atHand = Optional.empty();
  private String notice = "";

  private Dialogue(Console console, Engine engine, Pack pack, CaseStore store) {
    this.talk = new Talk(console);
    this.engine = engine;
    this.pack = pack;
    this.store = store;
  }

  /**
   * A new case.
   *
   * @param file where it is kept; nothing is there yet
   */
  public static End begin(Console console, Engine engine, Pack pack, CaseFile empty, Path file) {
    Dialogue dialogue = new Dialogue(console, engine, pack, CaseStore.atNew(file, pack));
    return dialogue.takeIn(empty);
  }

  /**
   * A case that was begun before.
   *
   * @param text the text that it was read from
   */
  public static End resume(
      Console console, Engine engine, Pack pack, CaseFile caseFile, Path file, String text) {
    Dialogue dialogue =
        new Dialogue(console, engine, pack, CaseStore.at(file, pack, caseFile, text));
    boolean begun =
        caseFile.facts().stream().map(Told::fact).anyMatch(Fact.Complained.class::isInstance);
    return begun ? dialogue.work(caseFile) : dialogue.takeIn(caseFile);
  }

  private End takeIn(CaseFile known) {
    TakingIn.Outcome outcome =
        takingIn(store.joined())
            .run(known, new IntakeList(pack).all(), "TAKING IN " + known.name());
    return outcome.through() ? work(outcome.known()) : End.LEFT;
  }

  /**
   * Goes through questions.
   *
   * @param joined facts so far that one answer told with the one above them
   */
  private TakingIn takingIn(Set<FactId> joined) {
    return new TakingIn(
        talk,
        pack,
        caseFile -> kept(() -> store.save(caseFile, joined), store::moveTo),
        this::dangers);
  }

  /** Only what was seen can be dangerous so far: without facts nothing is worked out. */
  private List<String> dangers(CaseFile caseFile) {
    boolean seen =
        caseFile.facts().stream().anyMatch(told -> !(told.fact() instanceof Fact.Complained));
    if (!seen) {
      return List.of();
    }
    try (Diagnosis soFar = engine.resume(pack, caseFile)) {
      Answer answer = soFar.answer();
      return talk.console().isPlain()
          ? SpokenPage.dangers(pack, answer)
          : new Asides(talk.console().screen(), pack, answer).dangers().lines();
    }
  }

  private interface Saving {
    void run() throws IOException;
  }

  private interface Elsewhere {
    void to(Path other);
  }

  /** Saves until it is saved; false: whoever sat there has gone. */
  private boolean kept(Saving saving, Elsewhere elsewhere) {
    while (true) {
      try {
        saving.run();
        return true;
      } catch (IOException e) {
        Asked asked =
            new Asked(
                "NOT ON DISK: " + (e.getMessage() == null ? e.toString() : e.getMessage()),
                List.of(),
                List.of("enter tries again", "or type the name of another file"),
                "");
        Optional<String> line = talk.askList("The last answer could not be kept.", asked);
        if (line.isEmpty()) {
          return false;
        }
        try {
          if (!line.get().isBlank()) {
            elsewhere.to(Path.of(line.get().strip()));
          }
        } catch (InvalidPathException wrong) {
          continue; // the same trouble is told once more
        }
      }
    }
  }

  private End work(CaseFile caseFile) {
    try (Job job = new Job(engine, pack, caseFile, store)) {
      if (!kept(job::keep, job::moveTo)) {
        return End.LEFT;
      }
      return new Work(job).run();
    }
  }

  /** The work on one case. */
  private final class Work {

    private final Job job;
    private final Requests requests;

    /** In which step each reading was asked for: of two that are compared, not in their own. */
    private final Map<FactId, StepId> askedIn = new HashMap<>();

    /** What was asked last: said again without all the rest where nothing has changed. */
    private Optional<Question> last = Optional.empty();

    Work(Job job) {
      this.job = job;
      this.requests = new Requests(talk, job);
    }

    End run() {
      while (true) {
        Answer answer = job.answer();
        if (answer.advice().primary().kind() == Advice.Kind.MAKE_SAFE) {
          putDown();
        }
        if (atHand.map(pack.steps()::get).filter(s -> isCompared(answer, s)).isPresent()) {
          putDown();
        }
        Due due =
            atHand
                .map(step -> Due.chosen(pack, answer, step))
                .orElseGet(() -> Due.of(pack, answer, answer.advice().primary()));
        if (atHand.isEmpty()) {
          taken.clear();
          taken.addAll(read(answer, due));
        }
        Question question = new Questions(pack, answer).of(due, atHand.isPresent(), taken);
        if (!show(answer, due, question)) {
          return End.LEFT;
        }
        if (talk.console().leavesTime()) {
          job.foresee(question);
        }
        Optional<String> line = talk.console().ask(words(question));
        if (line.isEmpty()) {
          return End.LEFT;
        }
        Optional<End> end = hear(Heard.of(line.get(), question), question, due);
        if (end.isPresent()) {
          return end.get();
        }
      }
    }

    /** Whether both points that a step compares have been read: then their numbers say it. */
    private boolean isCompared(Answer answer, Step step) {
      Set<PointId> read = current(answer, Set.of());
      return step.compares()
          .filter(c -> read.contains(c.point()) && read.contains(c.with()))
          .isPresent();
    }

    private boolean show(Answer answer, Due due, Question question) {
      Asked asked = asked(question);
      notice = "";
      Console console = talk.console();
      if (console.isPlain()) {
        boolean same = Optional.of(question).equals(last);
        last = Optional.of(question);
        console.show(
            same
                ? SpokenPage.question(asked)
                : SpokenPage.of(console.screen(), pack, answer, due, asked, read));
        read.addAll(due.cautions());
        return true;
      }
      String title =
          job.caseFile().name() + ": " + pack.title() + (pack.invented() ? " (invented)" : "");
      WorkScreen screen =
          WorkScreen.of(console.screen(), console.rows(), title, pack, answer, due, asked);
      if (!screen.cautionsInFull() && !read.containsAll(due.cautions())) {
        if (!talk.read(WorkScreen.cautionsInFull(console.screen(), pack, answer, due))) {
          return false;
        }
      }
      read.addAll(due.cautions());
      console.show(screen.lines());
      return true;
    }

    private Asked asked(Question question) {
      List<String> keys = new ArrayList<>();
      if (question.point().isPresent()) {
        keys.add("as the display shows it: " + BenchReading.examples(question.point().get()));
        keys.add("enter: not this one");
        keys.add("- can't do");
      } else if (question.step().isPresent()) {
        if (asksForOutcome(question)) {
          keys.add("0 can't tell");
        }
        keys.add("- can't do");
      }
      keys.addAll(List.of("+ other", "* why", "/ undo", ". read", "? help"));
      return new Asked(
          question.words(), question.choices().stream().map(Choice::words).toList(), keys, notice);
    }

    private boolean asksForOutcome(Question question) {
      return question.point().isPresent()
          || question.step().flatMap(id -> pack.steps().get(id).shows()).isPresent();
    }

    private List<String> words(Question question) {
      List<String> words = new ArrayList<>(Verb.words());
      question.choices().forEach(c -> words.add(c.words().replaceAll(" \\(.*", "")));
      pack.causes().keySet().forEach(c -> words.add(c.value()));
      pack.steps().keySet().forEach(s -> words.add(s.value()));
      return words;
    }

    private Optional<End> hear(Heard heard, Question question, Due due) {
      if (heard instanceof Heard.Chosen chosen) {
        return act(chosen.choice().act(), question);
      } else if (heard instanceof Heard.Value value) {
        PointId point = question.point().orElseThrow().id();
        taken.add(point);
        atHand = question.step();
        return tell(
            question,
            List.of(
                new Fact.ReadingTaken(
                    point, value.value(), java.util.OptionalDouble.empty(), Fact.Setup.AS_STATED)));
      } else if (heard instanceof Heard.Nothing) {
        passOver(question);
        return Optional.empty();
      } else if (heard instanceof Heard.Unclear unclear) {
        notice = unclear.words();
        return Optional.empty();
      }
      return obey((Heard.Command) heard, question, due);
    }

    private Optional<End> act(Act act, Question question) {
      if (act instanceof Act.Tell tell) {
        putDown();
        return tell(question, tell.facts());
      } else if (act instanceof Act.TakeOut out) {
        notice = requests.takeOut(out.fact());
        return keep();
      } else if (act instanceof Act.End) {
        return Optional.of(End.ENDED);
      }
      return pick("");
    }

    private Optional<End> tell(Question question, List<Fact> facts) {
      int before = job.caseFile().facts().size();
      job.tell(question.turns(), facts);
      List<Told> all = job.caseFile().facts();
      notice =
          "Kept: "
              + String.join(
                  "; ",
                  all.subList(before, all.size()).stream()
                      .map(t -> FactWords.of(pack, t.fact()) + job.judged(t.id()))
                      .toList());
      if (question.point().isPresent() && all.size() > before) {
        askedIn.put(all.get(all.size() - 1).id(), question.step().orElseThrow());
      }
      if (question.point().isPresent() && isThrough(question)) {
        putDown();
      }
      return keep();
    }

    /** Whether the last point of the step that is at hand has been asked for. */
    private boolean isThrough(Question question) {
      Step step = pack.steps().get(question.step().orElseThrow());
      return step.shows().isEmpty()
          && !step.isAttempt()
          && pack.readIn(step).stream().allMatch(p -> taken.contains(p.id()));
    }

    private Optional<End> keep() {
      return kept(job::keep, job::moveTo) ? Optional.empty() : Optional.of(End.LEFT);
    }

    private void passOver(Question question) {
      if (question.point().isEmpty()) {
        return;
      }
      atHand = question.step();
      taken.add(question.point().get().id());
      notice = "Not read: " + question.point().get().title();
      if (isThrough(question)) {
        putDown();
        notice = notice + ". That was the last one of this step; - says that it cannot be done.";
      }
    }

    private void putDown() {
      atHand = Optional.empty();
      taken.clear();
    }

    /** Points that need not be asked for once more. */
    private Set<PointId> read(Answer answer, Due due) {
      boolean again = answer.advice().primary().kind() == Advice.Kind.READ_AGAIN;
      Set<PointId> known = current(answer, again ? due.about() : Set.of());
      Set<PointId> all = new LinkedHashSet<>();
      due.step()
          .map(id -> pack.readIn(pack.steps().get(id)))
          .ifPresent(points -> points.forEach(p -> all.add(p.id())));
      return known.containsAll(all) ? Set.of() : known;
    }

    /** The points with readings that tell of the device as it is, those of some facts left out. */
    private Set<PointId> current(Answer answer, Set<FactId> leftOut) {
      Set<PointId> known = new LinkedHashSet<>();
      for (Standing s : answer.findings().standings()) {
        if (s.countsNow()
            && s.told().fact() instanceof Fact.ReadingTaken r
            && !leftOut.contains(s.id())) {
          known.add(r.point());
        }
      }
      return known;
    }

    private Optional<End> obey(Heard.Command command, Question question, Due due) {
      switch (command.verb()) {
        case QUIT -> {
          return Optional.of(End.LEFT);
        }
        case CANNOT_TELL -> {
          if (question.step().isPresent() && !asksForOutcome(question)) {
            notice = "Type 1 when it is done, or - when it cannot be done.";
            return Optional.empty();
          }
          return couldNot(question, "could not tell");
        }
        case COULD_NOT_DO -> {
          return couldNot(question, requests.reason(command.rest()));
        }
        case SOMETIMES -> {
          return sometimes(question);
        }
        case OTHER -> {
          return pick(command.rest());
        }
        case UNDO -> {
          putDown();
          List<Told> out = job.undo();
          out.forEach(this::backTo);
          notice = requests.undone(out);
          return keep();
        }
        case NOTE -> {
          notice = requests.note(command.rest());
          return keep();
        }
        case OUT -> {
          notice = requests.takeOut(command.rest());
          return keep();
        }
        case BENCH -> {
          notice = requests.bench(command.rest());
          return keep();
        }
        case SEEN -> {
          return settle(new IntakeList(pack).looks());
        }
        case SAID -> {
          return settle(new IntakeList(pack).words());
        }
        case AGREED -> {
          return settle(new IntakeList(pack).consents());
        }
        case JOB -> {
          return settle(new IntakeList(pack).job());
        }
        default -> {
          notice = requests.show(command, due, question);
          return Optional.empty();
        }
      }
    }

    /** A reading that was taken out is asked for once more. */
    private void backTo(Told out) {
      if (out.fact() instanceof Fact.ReadingTaken reading) {
        Optional.ofNullable(askedIn.remove(out.id()))
            .map(pack.steps()::get)
            .or(() -> pack.stepOf(reading.point()))
            .ifPresent(
                step -> {
                  List<PointId> points = pack.readIn(step).stream().map(Point::id).toList();
                  atHand = Optional.of(step.id());
                  taken.addAll(points.subList(0, points.indexOf(reading.point())));
                });
      }
    }

    private Optional<End> couldNot(Question question, String why) {
      if (question.step().isEmpty()) {
        return pick("");
      }
      putDown();
      return tell(
          new Question("", List.of(), Optional.empty(), Optional.empty(), List.of()),
          List.of(new Fact.CouldNotDo(question.step().get(), why)));
    }

    private Optional<End> sometimes(Question question) {
      Optional<Step> step = question.step().map(id -> pack.steps().get(id));
      boolean two = step.flatMap(Step::shows).map(s -> s.outcomes().size() == 2).orElse(false);
      if (!two || question.point().isPresent()) {
        notice = "Type what it shows most of the time, and keep the rest with note.";
        return Optional.empty();
      } else if (step.get().copies() < 1) {
        putDown();
        List<Fact> both = new ArrayList<>();
        step.get()
            .shows()
            .get()
            .outcomes()
            .forEach(o -> both.add(new Fact.OutcomeSeen(step.get().id(), o)));
        return tell(question, both);
      }
      notice =
          "Once is enough: where it came and went, that is '"
              + FactWords.of(step.get().shows().get().outcomes().get(0))
              + "'.";
      return Optional.empty();
    }

    private Optional<End> pick(String which) {
      Requests.Picked picked = requests.pick(which);
      if (picked.step().isPresent()) {
        putDown();
        atHand = picked.step();
      }
      notice = picked.notice();
      return Optional.empty();
    }

    private Optional<End> settle(List<Settling> all) {
      TakingIn.Outcome outcome =
          takingIn(job.joined()).run(job.caseFile(), all, job.caseFile().name());
      notice = requests.adopt(outcome.known());
      return keep();
    }
  }
}
