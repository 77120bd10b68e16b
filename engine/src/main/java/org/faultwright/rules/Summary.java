package org.faultwright.rules;

import java.util.List;
import java.util.Optional;
import org.faultwright.rules.facts.ComesBack;
import org.faultwright.rules.facts.Exit;
import org.faultwright.rules.facts.FunctionLost;
import org.faultwright.rules.facts.Impossible;
import org.faultwright.rules.facts.Inspection;
import org.faultwright.rules.facts.Leader;
import org.faultwright.rules.facts.RepairPlan;
import org.faultwright.rules.facts.Reread;
import org.faultwright.rules.facts.RootFirst;
import org.faultwright.rules.facts.TestWorth;

/**
 * What inference and planning found, in the few facts that the second firing needs; some twenty are
 * enough. Money is in the shop's currency.
 *
 * @param leaders the most likely causes, most likely first
 * @param functions for each complaint how likely its function is lost now
 * @param tests tests that could be done, open ones and those that the customer's consent alone
 *     would open
 * @param rereads readings on a limit that could be taken again
 * @param repairs ways to repair, each by its first step
 * @param exit the cheapest way to end the job without a repair; empty: not known, and then any
 *     repair is better
 * @param comebacks for each complaint how likely its function comes back lost
 * @param inspections looks for what may only be hidden
 * @param roots repairs that would have to be made again, because their root is likely still there
 * @param impossible facts that cannot hold together under the pack's numbers; where present, the
 *     rest is empty
 */
public record Summary(
    List<Leader> leaders,
    List<FunctionLost> functions,
    List<TestWorth> tests,
    List<Reread> rereads,
    List<RepairPlan> repairs,
    Optional<Exit> exit,
    List<ComesBack> comebacks,
    List<Inspection> inspections,
    List<RootFirst> roots,
    Optional<Impossible> impossible) {

  /** Nothing is known and nothing can be done. */
  public static final Summary NOTHING =
      new Summary(
          List.of(),
          List.of(),
          List.of(),
          List.of(),
          List.of(),
          Optional.empty(),
          List.of(),
          List.of(),
          List.of(),
          Optional.empty());

  /** Copies the lists. */
  public Summary {
    leaders = List.copyOf(leaders);
    functions = List.copyOf(functions);
    tests = List.copyOf(tests);
    rereads = List.copyOf(rereads);
    repairs = List.copyOf(repairs);
    comebacks = List.copyOf(comebacks);
    inspections = List.copyOf(inspections);
    roots = List.copyOf(roots);
  }

  /** Inference found facts that cannot hold together. */
  public static Summary impossible(Impossible impossible) {
    return new Summary(
        List.of(),
        List.of(),
        List.of(),
        List.of(),
        List.of(),
        Optional.empty(),
        List.of(),
        List.of(),
        List.of(),
        Optional.of(impossible));
  }
}
