package org.faultwright.cli.dialogue;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.faultwright.casefile.CaseFile;
import org.faultwright.casefile.Fact;
import org.faultwright.casefile.FactId;
import org.faultwright.casefile.Intake;
import org.faultwright.casefile.Told;
import org.faultwright.diagnosis.Answer;
import org.faultwright.diagnosis.Diagnosis;
import org.faultwright.diagnosis.Engine;
import org.faultwright.explanation.ReadingWords;
import org.faultwright.explanation.WhyCause;
import org.faultwright.pack.BenchState;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.Pack;
import org.faultwright.pack.SwitchId;

/** The case at hand: told fact by fact, undone answer by answer, kept on disk. */
final class Job implements AutoCloseable {

  private static final int MOST_KEPT = 20;

  private final Engine engine;
  private final Pack pack;
  private final CaseStore store;
  private final Deque<List<FactId>> answers = new ArrayDeque<>();

  /** What was worked out before, for those who take back what they said. */
  private final Map<CaseFile, Answer> before =
      new LinkedHashMap<>() {
        private static final long serialVersionUID = 1L;

        @Override
        protected boolean removeEldestEntry(Map.Entry<CaseFile, Answer> eldest) {
          return size() > MOST_KEPT;
        }
      };

  private final Foresight foresight;
  private Diagnosis diagnosis;

  Job(Engine engine, Pack pack, CaseFile caseFile, CaseStore store) {
    this.engine = engine;
    this.pack = pack;
    this.store = store;
    this.foresight = new Foresight(engine, pack);
    this.diagnosis = engine.resume(pack, caseFile);
    Set<FactId> joined = store.joined();
    for (Told told : caseFile.facts()) {
      List<FactId> answer = new ArrayList<>();
      if (joined.contains(told.id()) && !answers.isEmpty()) {
        answer.addAll(answers.pop());
      }
      answer.add(told.id());
      answers.push(answer);
    }
  }

  Pack pack() {
    return pack;
  }

  CaseFile caseFile() {
    return diagnosis.caseFile();
  }

  Path file() {
    return store.file();
  }

  Answer answer() {
    Answer known = before.get(caseFile());
    if (known == null) {
      known = foresight.of(caseFile()).orElseGet(diagnosis::answer);
      before.put(caseFile(), known);
    }
    return known;
  }

  /** Works out beside what each of these answers would lead to. */
  void foresee(Question question) {
    List<CaseFile> cases = new ArrayList<>();
    for (Question.Choice choice : question.choices()) {
      if (choice.act() instanceof Act.Tell tell) {
        CaseFile then = caseFile();
        for (Fact fact : told(question.turns(), tell.facts())) {
          then = then.with(fact);
        }
        if (!before.containsKey(then)) {
          cases.add(then);
        }
      }
    }
    foresight.begin(cases);
  }

  private List<Fact> told(List<BenchState> turns, List<Fact> facts) {
    List<Fact> told = new ArrayList<>();
    turned(turns).forEach(position -> told.add(new Fact.BenchSet(position)));
    told.addAll(facts);
    return told;
  }

  /** How a reading keeps to its reference, to be put behind it; nothing for any other fact. */
  String judged(FactId id) {
    return diagnosis
        .reading(id)
        .map(
            r ->
                " ("
                    + ReadingWords.of(r.conformance())
                    + ")"
                    + (r.conformance().nearLimit() ? ". " + ReadingWords.again(r) : ""))
        .orElse("");
  }

  WhyCause why(CauseId cause) {
    return diagnosis.why(cause);
  }

  Answer suppose(List<Fact> facts) {
    return diagnosis.suppose(facts);
  }

  /**
   * Tells what one answer tells.
   *
   * @param turns positions of the bench that it says have been brought about
   */
  void tell(List<BenchState> turns, List<Fact> facts) {
    List<FactId> told = new ArrayList<>();
    for (Fact fact : told(turns, facts)) {
      told.add(diagnosis.tell(fact));
    }
    if (!told.isEmpty()) {
      answers.push(told);
    }
  }

  /** Where the turns end up, as far as that is not where the bench is already. */
  private List<BenchState> turned(List<BenchState> turns) {
    if (turns.isEmpty()) {
      return List.of();
    }
    Map<SwitchId, BenchState> last = new LinkedHashMap<>();
    for (BenchState turn : turns) {
      last.remove(turn.of());
      last.put(turn.of(), turn);
    }
    last.values().removeIf(answer().findings().bench()::contains);
    return List.copyOf(last.values());
  }

  /** Takes the last answer out; the facts that it told, none where there is no answer left. */
  List<Told> undo() {
    if (answers.isEmpty()) {
      return List.of();
    }
    List<Told> out = new ArrayList<>();
    List<FactId> last = answers.pop();
    for (Told told : caseFile().facts()) {
      if (last.contains(told.id())) {
        out.add(told);
      }
    }
    out.forEach(told -> diagnosis.withdraw(told.id()));
    return out;
  }

  /** All facts of an answer but its first. */
  Set<FactId> joined() {
    Set<FactId> joined = new LinkedHashSet<>();
    answers.forEach(told -> joined.addAll(told.subList(1, told.size())));
    return joined;
  }

  /** Takes one fact out. */
  void takeOut(FactId id) {
    diagnosis.withdraw(id);
    List<List<FactId>> left = new ArrayList<>();
    for (List<FactId> told : answers) {
      List<FactId> others = told.stream().filter(t -> !t.equals(id)).toList();
      if (!others.isEmpty()) {
        left.add(others);
      }
    }
    answers.clear();
    answers.addAll(left);
  }

  /** Settles something else at intake. */
  void settle(Intake intake) {
    if (!intake.equals(caseFile().intake())) {
      CaseFile changed = caseFile().withIntake(intake);
      diagnosis.close();
      diagnosis = engine.resume(pack, changed);
    }
  }

  /**
   * Brings the case onto the disk as it stands.
   *
   * @throws IOException when it cannot be kept there; the message says why
   */
  void keep() throws IOException {
    store.save(caseFile(), joined());
  }

  /** Goes on in another file. */
  void moveTo(Path other) {
    store.moveTo(other);
  }

  /** Writes a copy. */
  void copyTo(Path other) throws IOException {
    store.copyTo(other, caseFile(), joined());
  }

  @Override
  public void close() {
    foresight.close();
    diagnosis.close();
  }
}
