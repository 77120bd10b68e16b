package org.faultwright.diagnosis;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.faultwright.casefile.CaseFile;
import org.faultwright.casefile.Expectation;
import org.faultwright.casefile.Told;
import org.faultwright.explanation.FactWords;
import org.faultwright.explanation.WhyCause;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.Pack;
import org.faultwright.pack.StepId;
import org.faultwright.rules.Advice;

/**
 * Holds cases to what they expect to come out. Safe for any number of threads.
 *
 * <p>An expectation with a decisive fact is held to it twice: with all facts it must be met, and
 * without the decisive one it must not be. A case that comes out right whatever that fact says
 * proves nothing.
 */
public final class CaseCheck {

  private final Engine engine;

  /** Diagnoses cases with this engine. */
  public CaseCheck(Engine engine) {
    this.engine = engine;
  }

  /**
   * What came of a case.
   *
   * @param answer the answer to all facts
   * @param failures what is not as expected; empty: all is
   * @param why where something failed, what speaks for and against the cause that leads and the
   *     causes that the expectation names; empty where nothing ranks
   */
  public record Result(
      CaseFile caseFile, Answer answer, List<Failure> failures, List<WhyCause> why) {

    /** Copies the lists. */
    public Result {
      failures = List.copyOf(failures);
      why = List.copyOf(why);
    }

    /** Whether all is as expected. */
    public boolean passed() {
      return failures.isEmpty();
    }
  }

  /**
   * Something that did not come out as expected.
   *
   * @param expected what was expected, in words
   * @param actual what came out, in words
   */
  public record Failure(String expected, String actual) {}

  /**
   * Holds a case to its expectation.
   *
   * @throws IllegalArgumentException when the case expects nothing, or {@link Engine#resume} would
   *     refuse it
   */
  public Result run(Pack pack, CaseFile caseFile) {
    Expectation expected =
        caseFile
            .expectation()
            .orElseThrow(
                () ->
                    new IllegalArgumentException(
                        "case must say what it expects: " + caseFile.name()));
    try (Diagnosis diagnosis = engine.resume(pack, caseFile)) {
      Answer answer = diagnosis.answer();
      List<Failure> failures = new ArrayList<>(failures(pack, expected, answer));
      if (failures.isEmpty()) {
        expected
            .decisive()
            .flatMap(d -> idle(pack, caseFile, expected, d))
            .ifPresent(failures::add);
      }
      return new Result(
          caseFile, answer, failures, failures.isEmpty() ? List.of() : why(diagnosis, expected));
    }
  }

  /** A decisive fact without which the expectation is met as well. */
  private Optional<Failure> idle(Pack pack, CaseFile caseFile, Expectation expected, String label) {
    List<Told> decisive =
        caseFile.facts().stream().filter(t -> t.label().equals(Optional.of(label))).toList();
    if (decisive.isEmpty()) {
      return Optional.of(
          new Failure("a fact labelled '" + label + "' decides", "no fact has that label"));
    }
    CaseFile fewer = caseFile;
    for (Told told : decisive) {
      fewer = fewer.without(told.id());
    }
    try (Diagnosis without = engine.resume(pack, fewer)) {
      if (failures(pack, expected, without.answer()).isEmpty()) {
        return Optional.of(
            new Failure(
                "without fact '" + label + "' it comes out otherwise",
                "it comes out as expected without it too: "
                    + FactWords.of(pack, decisive.get(0).fact())));
      }
      return Optional.empty();
    }
  }

  private static List<WhyCause> why(Diagnosis diagnosis, Expectation expected) {
    Optional<Posterior> posterior = diagnosis.answer().posterior();
    if (posterior.isEmpty()) {
      return List.of();
    }
    List<CauseId> causes = new ArrayList<>(List.of(posterior.get().leader().cause()));
    expected.leads().filter(c -> !causes.contains(c)).ifPresent(causes::add);
    return causes.stream().map(diagnosis::why).toList();
  }

  private static List<Failure> failures(Pack pack, Expectation expected, Answer answer) {
    List<Failure> failures = new ArrayList<>();
    checkImpossible(expected, answer).ifPresent(failures::add);
    if (!expected.impossible() && answer.posterior().isPresent()) {
      checkRanking(expected, answer.posterior().get(), failures);
    } else if (!expected.impossible() && failures.isEmpty()) {
      failures.add(new Failure("a ranking", "the case is too wide for an exact answer"));
    }
    expected
        .advice()
        .flatMap(a -> checkAdvice(a, answer.advice().primary()))
        .ifPresent(failures::add);
    for (String step : expected.blocked()) {
      if (answer.findings().isOpen(new StepId(step))) {
        failures.add(new Failure("step " + step + " is not open", "it is open"));
      }
    }
    List<String> holds =
        answer.findings().holds().stream().map(h -> h.hold().id().value()).toList();
    for (String hold : expected.holds()) {
      if (!holds.contains(hold)) {
        failures.add(
            new Failure(
                "hold " + hold + " is in force",
                holds.isEmpty() ? "no hold is" : "only these are: " + String.join(", ", holds)));
      }
    }
    return failures;
  }

  private static Optional<Failure> checkImpossible(Expectation expected, Answer answer) {
    boolean impossible = answer.outlook() instanceof Outlook.ImpossibleEvidence;
    if (impossible == expected.impossible()) {
      return Optional.empty();
    }
    return Optional.of(
        impossible
            ? new Failure(
                "facts that can be true together",
                "these cannot: " + ((Outlook.ImpossibleEvidence) answer.outlook()).clash())
            : new Failure("facts that cannot be true together", "they can"));
  }

  private static void checkRanking(
      Expectation expected, Posterior posterior, List<Failure> failures) {
    Posterior.Ranked leader = posterior.leader();
    if (expected.leads().isPresent() && !expected.leads().get().equals(leader.cause())) {
      CauseId cause = expected.leads().get();
      failures.add(
          new Failure(
              cause + " leads",
              leader.cause()
                  + " leads with "
                  + percent(leader.p())
                  + "; "
                  + cause
                  + " has "
                  + percent(posterior.p(cause))));
    }
    for (Map.Entry<CauseId, Double> least : expected.atLeast().entrySet()) {
      double p = posterior.p(least.getKey());
      if (p < least.getValue()) {
        failures.add(
            new Failure(least.getKey() + " has at least " + percent(least.getValue()), percent(p)));
      }
    }
    for (Map.Entry<CauseId, Double> most : expected.atMost().entrySet()) {
      double p = posterior.p(most.getKey());
      if (p > most.getValue()) {
        failures.add(
            new Failure(most.getKey() + " has at most " + percent(most.getValue()), percent(p)));
      }
    }
  }

  private static Optional<Failure> checkAdvice(String expected, Advice advice) {
    String kind = advice.kind().name().toLowerCase(Locale.ROOT).replace('_', '-');
    String[] words = expected.split(" ", 2);
    boolean sameStep =
        words.length == 1 || advice.step().map(StepId::value).equals(Optional.of(words[1]));
    if (words[0].equals(kind) && sameStep) {
      return Optional.empty();
    }
    return Optional.of(
        new Failure(
            "advice " + expected, "advice " + kind + advice.step().map(s -> " " + s).orElse("")));
  }

  private static String percent(double p) {
    return String.format(Locale.ROOT, "%.3g %%", 100 * p);
  }
}
