package org.faultwright.casefile;

import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.faultwright.pack.BoardId;
import org.faultwright.pack.ComplaintId;
import org.faultwright.pack.ConsentId;
import org.faultwright.pack.Goal;
import org.faultwright.pack.HistoryId;
import org.faultwright.pack.Ordered;
import org.faultwright.pack.OutcomeId;
import org.faultwright.pack.PointId;
import org.faultwright.pack.StateId;
import org.faultwright.pack.StepId;
import org.faultwright.pack.SwitchId;
import org.faultwright.pack.SymptomId;
import org.faultwright.pack.SymptomValue;

/**
 * What conditions ask about at one moment of a case, real or imagined. Immutable; what a map lacks
 * is unknown.
 *
 * @param outcomes the latest standing outcome of each step that no later attempt can have moved
 * @param readings the state that the latest such readings of each point point to
 * @param histories whether it happened: what we saw, or else what was said
 * @param on the switches that are on
 * @param done the steps carried out so far
 * @param lost for each complaint, whether its function is lost: by its latest function test, or
 *     else by the report
 * @param consents what the customer has agreed to (true) or refused (false)
 */
public record Situation(
    Map<SymptomId, SymptomValue> symptoms,
    Map<StepId, OutcomeId> outcomes,
    Map<PointId, StateId> readings,
    Map<HistoryId, Boolean> histories,
    Set<SwitchId> on,
    Set<StepId> done,
    Map<ComplaintId, Boolean> lost,
    Map<ConsentId, Boolean> consents,
    Goal goal,
    Optional<BoardId> board) {

  /** Copies the collections, keeping their order. */
  public Situation {
    symptoms = Ordered.copy(symptoms);
    outcomes = Ordered.copy(outcomes);
    readings = Ordered.copy(readings);
    histories = Ordered.copy(histories);
    on = Ordered.copy(on);
    done = Ordered.copy(done);
    lost = Ordered.copy(lost);
    consents = Ordered.copy(consents);
  }

  /** The same situation with one more outcome. */
  public Situation withOutcome(StepId step, OutcomeId outcome) {
    Map<StepId, OutcomeId> more = new LinkedHashMap<>(outcomes);
    more.put(step, outcome);
    return new Situation(
        symptoms, more, readings, histories, on, done, lost, consents, goal, board);
  }

  /** The same situation with these switches on and all others off. */
  public Situation withOn(Set<SwitchId> nowOn) {
    return new Situation(
        symptoms, outcomes, readings, histories, nowOn, done, lost, consents, goal, board);
  }

  /** The same situation after one more step has been carried out. */
  public Situation withDone(StepId step) {
    Set<StepId> more = new LinkedHashSet<>(done);
    more.add(step);
    return new Situation(
        symptoms, outcomes, readings, histories, on, more, lost, consents, goal, board);
  }

  /** The same situation where the function of a complaint is lost. */
  public Situation withLost(ComplaintId complaint) {
    Map<ComplaintId, Boolean> more = new LinkedHashMap<>(lost);
    more.put(complaint, true);
    return new Situation(
        symptoms, outcomes, readings, histories, on, done, more, consents, goal, board);
  }

  /** The same situation where these functions are lost or not, as given. */
  public Situation withLost(Map<ComplaintId, Boolean> nowLost) {
    return new Situation(
        symptoms, outcomes, readings, histories, on, done, nowLost, consents, goal, board);
  }

  /** The same situation after the customer has agreed to something more. */
  public Situation withConsent(ConsentId consent) {
    Map<ConsentId, Boolean> more = new LinkedHashMap<>(consents);
    more.put(consent, true);
    return new Situation(
        symptoms, outcomes, readings, histories, on, done, lost, more, goal, board);
  }
}
