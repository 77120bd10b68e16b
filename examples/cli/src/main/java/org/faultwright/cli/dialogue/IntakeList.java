package org.faultwright.cli.dialogue;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import java.util.function.Predicate;
import org.faultwright.casefile.CaseFile;
import org.faultwright.casefile.Fact;
import org.faultwright.casefile.Intake;
import org.faultwright.casefile.Told;
import org.faultwright.cli.dialogue.Settling.Result.Settled;
import org.faultwright.pack.BoardId;
import org.faultwright.pack.Complaint;
import org.faultwright.pack.ConsentId;
import org.faultwright.pack.Goal;
import org.faultwright.pack.History;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Step;
import org.faultwright.pack.Step.Skill;
import org.faultwright.pack.Symptom;
import org.faultwright.pack.SymptomValue;
import org.faultwright.pack.ToolId;

/** What is asked when a device is taken in, in order, as far as the pack has it. */
final class IntakeList {

  /** So many fit on a small screen with the question below. */
  private static final int MOST_AT_ONCE = 16;

  private static final String NONE = "enter: none";

  private final Pack pack;

  IntakeList(Pack pack) {
    this.pack = pack;
  }

  /** All of it. */
  List<Settling> all() {
    List<Settling> all = new ArrayList<>();
    all.addAll(board());
    all.addAll(complaints());
    all.addAll(said());
    all.addAll(traces());
    all.addAll(symptoms());
    all.addAll(functions());
    all.addAll(job());
    all.addAll(consents());
    return all;
  }

  /** What the customer says: complaints and history. */
  List<Settling> words() {
    List<Settling> all = new ArrayList<>(complaints());
    all.addAll(said());
    return all;
  }

  /** What is seen: symptoms and traces of the history. */
  List<Settling> looks() {
    List<Settling> all = new ArrayList<>(symptoms());
    all.addAll(traces());
    return all;
  }

  /** Goal, data, ceiling and value; tools and skill of the bench. */
  List<Settling> job() {
    List<Settling> all = new ArrayList<>();
    List<Goal> goals = List.of(Goal.values());
    all.add(
        new OneOfList(
            "What does the customer want?",
            goals.stream().map(IntakeList::words).toList(),
            i -> words(i.goal()),
            (i, n) -> i.withGoal(goals.get(n))));
    all.add(
        new OneOfList(
            "Is there data on it that must not be lost?",
            List.of("yes", "no"),
            i -> i.irreplaceableData() ? "yes" : "no",
            (i, n) -> i.withIrreplaceableData(n == 0)));
    all.add(
        new Amount("The most that the customer will pay?", Intake::ceiling, Intake::withCeiling));
    all.add(
        new Amount(
            "What is the device worth when it works?",
            Intake::deviceValue,
            Intake::withDeviceValue));
    all.addAll(bench());
    return all;
  }

  /** What the bench has and can do. */
  private List<Settling> bench() {
    List<Settling> all =
        new ArrayList<>(
            lists(
                "Is one of these tools missing at this bench?",
                List.of("1: 1 is missing", "-1: it is there", NONE),
                List.copyOf(pack.tools().keySet()),
                pack.tools()::get,
                (tool, known) -> known.intake().lacking().contains(tool) ? "missing" : "",
                IntakeList::tool));
    List<Skill> skills = List.of(Skill.values());
    all.add(
        new OneOfList(
            "What is the hardest work that is done at this bench?",
            skills.stream().map(IntakeList::words).toList(),
            i -> words(i.skill()),
            (i, n) -> i.withSkill(skills.get(n))));
    return all;
  }

  private static Optional<Settled> tool(ToolId tool, Marks.Sign sign, Intake intake) {
    if (sign == Marks.Sign.TILDE) {
      return Optional.empty();
    }
    Set<ToolId> lacking = new LinkedHashSet<>(intake.lacking());
    if (sign == Marks.Sign.PLAIN) {
      lacking.add(tool);
    } else {
      lacking.remove(tool);
    }
    return Optional.of(new Settled(List.of(), intake.withLacking(lacking)));
  }

  private static String words(Skill skill) {
    return switch (skill) {
      case COUNTER -> "at the counter: nothing is opened";
      case BENCH -> "at the bench: devices are opened, parts are swapped";
      case BOARD -> "on the board: soldering under the microscope";
      case LICENSED -> "also work that takes a licence";
    };
  }

  /** What the customer agrees to. */
  List<Settling> consents() {
    return lists(
        "What does the customer agree to?",
        List.of("1: agrees to 1", "-1: refuses 1", "enter: not asked yet"),
        List.copyOf(pack.consents().keySet()),
        pack.consents()::get,
        (c, known) ->
            latest(known, Fact.ConsentAnswered.class, f -> f.consent().equals(c))
                .map(f -> f.given() ? "agreed" : "refused")
                .orElse(
                    known.intake().consented().contains(c)
                        ? "agreed"
                        : known.intake().refused().contains(c) ? "refused" : ""),
        (c, sign, intake) -> consent(c, sign, intake));
  }

  private static Optional<Settled> consent(ConsentId c, Marks.Sign sign, Intake intake) {
    return switch (sign) {
      case PLAIN -> facts(intake, new Fact.ConsentAnswered(c, true));
      case MINUS -> facts(intake, new Fact.ConsentAnswered(c, false));
      case TILDE -> Optional.empty();
    };
  }

  private List<Settling> board() {
    if (pack.boards().isEmpty()) {
      return List.of();
    }
    List<BoardId> boards = List.copyOf(pack.boards());
    return List.of(
        new OneOfList(
            "Which board is it?",
            boards.stream().map(BoardId::value).toList(),
            i -> i.board().map(BoardId::value).orElse(""),
            (i, n) -> i.withBoard(boards.get(n))));
  }

  private List<Settling> complaints() {
    return lists(
        "What does the customer complain of?",
        List.of("1: complains of 1", "-1: says that 1 is in order", NONE),
        List.copyOf(pack.complaints().values()),
        Complaint::title,
        (c, known) ->
            latest(known, Fact.Complained.class, f -> f.complaint().equals(c.id()))
                .map(f -> f.reported() ? "complained of" : "in order, customer says")
                .orElse(""),
        (c, sign, intake) -> yesOrNo(sign, intake, yes -> new Fact.Complained(c.id(), yes)));
  }

  private List<Settling> said() {
    List<History> asked = histories(h -> h.said().isPresent());
    return lists(
        "What does the customer say happened to it?",
        List.of("1: says so of 1", "-1: says no", "enter: not asked, or does not know"),
        asked,
        History::title,
        (h, known) ->
            latest(known, Fact.HistorySaid.class, f -> f.history().equals(h.id()))
                .map(f -> f.happened() ? "customer says yes" : "customer says no")
                .orElse(""),
        (h, sign, intake) -> yesOrNo(sign, intake, yes -> new Fact.HistorySaid(h.id(), yes)));
  }

  private List<Settling> traces() {
    List<History> seen = histories(h -> h.seen().isPresent());
    return lists(
        "Of what do you see traces yourself?",
        List.of("1: traces of 1", "-1: looked, and none", "enter: not looked"),
        seen,
        History::title,
        (h, known) ->
            latest(known, Fact.HistorySeen.class, f -> f.history().equals(h.id()))
                .map(f -> f.traces() ? "traces seen" : "no traces")
                .orElse(""),
        (h, sign, intake) -> yesOrNo(sign, intake, yes -> new Fact.HistorySeen(h.id(), yes)));
  }

  private List<History> histories(Predicate<History> which) {
    return pack.histories().values().stream().filter(which).toList();
  }

  private List<Settling> symptoms() {
    return lists(
        "What do you see or hear?",
        List.of("1: there", "-1: looked closely, not there", "~1: sometimes", "enter: not looked"),
        List.copyOf(pack.symptoms().values()),
        Symptom::title,
        (s, known) ->
            latest(known, Fact.SymptomNoted.class, f -> f.symptom().equals(s.id()))
                .map(f -> f.value().name().toLowerCase(Locale.ROOT).replace('_', ' '))
                .orElse(""),
        (s, sign, intake) ->
            facts(
                intake,
                new Fact.SymptomNoted(
                    s.id(),
                    switch (sign) {
                      case PLAIN -> SymptomValue.PRESENT;
                      case MINUS -> SymptomValue.ABSENT;
                      case TILDE -> SymptomValue.SOMETIMES;
                    })));
  }

  /** The check list of functions, as far as they can be tried in a closed device. */
  private List<Settling> functions() {
    List<Step> tests =
        pack.steps().values().stream()
            .filter(s -> s.proves().isPresent() && AtTheCounter.canBeTried(pack, s))
            .toList();
    return lists(
        "Check list: which functions did you try now, at the counter?",
        List.of("1: works", "-1: faulty", "~1: cannot be tested", "enter: not tested"),
        tests,
        Step::title,
        (t, known) ->
            latest(known, Fact.OutcomeSeen.class, f -> f.step().equals(t.id()))
                .map(f -> f.outcome().equals(AtTheCounter.works(t)) ? "works" : "faulty")
                .orElse(
                    latest(known, Fact.CouldNotDo.class, f -> f.step().equals(t.id())).isPresent()
                        ? "cannot be tested"
                        : ""),
        (t, sign, intake) ->
            Optional.of(
                new Settled(
                    switch (sign) {
                      case PLAIN -> AtTheCounter.tried(pack, t, AtTheCounter.works(t));
                      case MINUS -> AtTheCounter.tried(pack, t, AtTheCounter.faulty(t));
                      case TILDE -> List.of(new Fact.CouldNotDo(t.id(), "at intake"));
                    },
                    intake)));
  }

  private static <T> List<Settling> lists(
      String words,
      List<String> keys,
      List<T> items,
      Function<T, String> title,
      MarkedList.KnownOf<T> known,
      MarkedList.Meaning<T> meaning) {
    List<Settling> lists = new ArrayList<>();
    for (int from = 0; from < items.size(); from += MOST_AT_ONCE) {
      List<T> part = items.subList(from, Math.min(items.size(), from + MOST_AT_ONCE));
      String more = items.size() > MOST_AT_ONCE ? " (" + (from / MOST_AT_ONCE + 1) + ")" : "";
      lists.add(new MarkedList<>(words + more, keys, part, title, known, meaning));
    }
    return lists;
  }

  private static Optional<Settled> yesOrNo(
      Marks.Sign sign, Intake intake, Function<Boolean, Fact> fact) {
    return sign == Marks.Sign.TILDE
        ? Optional.empty()
        : facts(intake, fact.apply(sign == Marks.Sign.PLAIN));
  }

  private static Optional<Settled> facts(Intake intake, Fact fact) {
    return Optional.of(new Settled(List.of(fact), intake));
  }

  private static <F extends Fact> Optional<F> latest(
      CaseFile known, Class<F> kind, Predicate<F> which) {
    Set<F> found = new LinkedHashSet<>();
    for (Told told : known.facts()) {
      if (kind.isInstance(told.fact()) && which.test(kind.cast(told.fact()))) {
        found.clear();
        found.add(kind.cast(told.fact()));
      }
    }
    return found.stream().findFirst();
  }

  private static String words(Goal goal) {
    return switch (goal) {
      case WORKING -> "a working device";
      case DATA_ONLY -> "the data only";
      case ESTIMATE -> "a price first";
    };
  }
}
