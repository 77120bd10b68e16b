package org.faultwright.pack.format;

import java.util.Map;
import org.faultwright.pack.Goal;
import org.faultwright.pack.Step;

/** Words that packs and cases share. */
public final class Words {

  /** What the customer can want. */
  public static final Form<Goal> GOAL =
      Forms.word(
          Map.entry("working", Goal.WORKING),
          Map.entry("data-only", Goal.DATA_ONLY),
          Map.entry("estimate", Goal.ESTIMATE));

  /** The skill that a step asks for, or a bench has. */
  public static final Form<Step.Skill> SKILL =
      Forms.word(
          Map.entry("counter", Step.Skill.COUNTER),
          Map.entry("bench", Step.Skill.BENCH),
          Map.entry("board", Step.Skill.BOARD),
          Map.entry("licensed", Step.Skill.LICENSED));

  private Words() {}
}
