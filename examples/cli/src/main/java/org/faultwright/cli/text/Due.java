package org.faultwright.cli.text;

import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.faultwright.casefile.FactId;
import org.faultwright.diagnosis.Answer;
import org.faultwright.pack.BenchState;
import org.faultwright.pack.CautionId;
import org.faultwright.pack.ConsentId;
import org.faultwright.pack.Ordered;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Step;
import org.faultwright.pack.StepId;
import org.faultwright.rules.Advice;
import org.faultwright.rules.Reason;
import org.faultwright.rules.StepStatus;

/**
 * What is done next: as advised, or as somebody at the bench has chosen.
 *
 * @param headline the kind of thing and what it is about
 * @param reasons why, most important first
 * @param turns the bench positions to bring about first
 * @param about the facts that it is about
 * @param job what the job is expected to take to its end; empty where that was not weighed
 * @param danger whether a hold or an alarm is the reason
 */
public record Due(
    String headline,
    Optional<StepId> step,
    List<String> reasons,
    List<BenchState> turns,
    Set<CautionId> cautions,
    Set<ConsentId> consents,
    Set<FactId> about,
    Optional<String> job,
    boolean danger) {

  /** Copies the collections, keeping their order. */
  public Due {
    reasons = List.copyOf(reasons);
    turns = List.copyOf(turns);
    cautions = Ordered.copy(cautions);
    consents = Ordered.copy(consents);
    about = Ordered.copy(about);
  }

  /** What is advised. */
  public static Due of(Pack pack, Answer answer, Advice advice) {
    List<String> reasons =
        advice.reasons().stream()
            .filter(reason -> !Dangers.says(answer, reason.words()))
            .map(
                reason ->
                    Wording.plain(reason.words())
                        + (reason.why() == Reason.Why.WORTH
                            ? Wording.worth(answer, advice.step())
                            : ""))
            .distinct()
            .toList();
    return new Due(
        Wording.headline(pack, advice),
        advice.step(),
        reasons,
        advice.turns(),
        advice.cautions(),
        advice.consents(),
        advice.about(),
        ToTheEnd.of(answer, advice),
        advice.reasons().stream()
            .anyMatch(r -> r.why() == Reason.Why.ALARM || r.why() == Reason.Why.HELD));
  }

  /**
   * A step that somebody has chosen.
   *
   * @throws IllegalArgumentException when the pack has no such step
   */
  public static Due chosen(Pack pack, Answer answer, StepId step) {
    StepStatus status = answer.findings().step(step);
    return new Due(
        Wording.kind(pack.steps().get(step)) + ": " + Wording.title(pack, step),
        Optional.of(step),
        List.of("you chose it" + Wording.worth(answer, Optional.of(step))),
        status.turns(),
        status.cautions(),
        Set.of(),
        Set.of(),
        ToTheEnd.of(answer, step),
        false);
  }

  /** The step itself. */
  Optional<Step> step(Pack pack) {
    return step.map(id -> pack.steps().get(id));
  }
}
