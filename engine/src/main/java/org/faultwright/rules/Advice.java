package org.faultwright.rules;

import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.faultwright.casefile.FactId;
import org.faultwright.pack.BenchState;
import org.faultwright.pack.CautionId;
import org.faultwright.pack.ConsentId;
import org.faultwright.pack.Ordered;
import org.faultwright.pack.StepId;

/**
 * What to do next.
 *
 * @param step the step to do, or to ask about; empty where the kind says all
 * @param reasons why, most important first; never empty
 * @param turns the bench positions to bring about first, in an order that works
 * @param cautions shown beside it
 * @param consents what to ask the customer for
 * @param about the facts that it is about, for example those to be looked at again
 */
public record Advice(
    Kind kind,
    Optional<StepId> step,
    List<Reason> reasons,
    List<BenchState> turns,
    Set<CautionId> cautions,
    Set<ConsentId> consents,
    Set<FactId> about) {

  /** Copies the collections, keeping their order. */
  public Advice {
    reasons = List.copyOf(reasons);
    turns = List.copyOf(turns);
    cautions = Ordered.copy(cautions);
    consents = Ordered.copy(consents);
    about = Ordered.copy(about);
    if (reasons.isEmpty()) {
      throw new IllegalArgumentException("advice must have a reason: " + kind);
    }
  }

  /** Kinds of advice. */
  public enum Kind {
    /** Something is dangerous: see to it first. */
    MAKE_SAFE,
    /** Prove that the function is back. */
    FUNCTION_TEST,
    /** Close the device. */
    CLOSE_UP,
    /** Look at a fact again. */
    READ_AGAIN,
    /** Do a test. */
    TEST,
    /** Ask the customer. */
    ASK,
    /** Do a repair. */
    REPAIR,
    /** Send the device to other hands. */
    SEND_ON,
    /** Give the device back as it is. */
    RETURN,
    /** Nothing is left to do here. */
    STOP;

    /** Whether the job ends with it. */
    public boolean isEnd() {
      return this == SEND_ON || this == RETURN || this == STOP;
    }
  }
}
