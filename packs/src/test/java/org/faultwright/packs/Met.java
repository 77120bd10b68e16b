package org.faultwright.packs;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.faultwright.casefile.CaseFile;
import org.faultwright.casefile.Expectation;
import org.faultwright.casefile.Told;
import org.faultwright.compile.Belief;
import org.faultwright.compile.BeliefResult;
import org.faultwright.compile.CompiledPack;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.StepId;
import org.faultwright.rules.Findings;
import org.faultwright.rules.Standing;
import org.faultwright.rules.WorkingMemory;

/**
 * How far a case meets an expectation.
 *
 * @param unmet what the expectation asks for and the case does not give, in words
 * @param ranking the most likely causes, in words
 * @param discounted facts that the rules do not count
 */
record Met(List<String> unmet, String ranking, List<Standing> discounted) {

  /** Runs a case. Advice is not looked at. */
  static Met of(Expectation expected, CaseFile caseFile, PackUnderTest pack) {
    List<String> unmet = new ArrayList<>();
    try (WorkingMemory memory = pack.rules().open(caseFile.intake())) {
      Findings findings = memory.conclude(caseFile.facts());
      lookAtSafety(expected, findings, unmet);
      List<Told> counting =
          findings.standings().stream().filter(Standing::counts).map(Standing::told).toList();
      BeliefResult result = pack.compiled().belief(counting);
      lookAtRanking(expected, result, unmet);
      return new Met(
          unmet, words(result), findings.standings().stream().filter(s -> !s.counts()).toList());
    }
  }

  private static void lookAtSafety(Expectation expected, Findings findings, List<String> unmet) {
    for (String hold : expected.holds()) {
      addIf(
          findings.holds().stream().noneMatch(h -> h.hold().id().value().equals(hold)),
          "hold '" + hold + "' is not in force",
          unmet);
    }
    for (String step : expected.blocked()) {
      addIf(findings.isOpen(new StepId(step)), "step '" + step + "' is open", unmet);
    }
  }

  private static void lookAtRanking(Expectation expected, BeliefResult result, List<String> unmet) {
    boolean impossible = result instanceof BeliefResult.ImpossibleEvidence;
    addIf(expected.impossible() != impossible, "impossible: " + impossible, unmet);
    if (result instanceof Belief belief) {
      Map<CauseId, Double> p = belief.causes();
      CauseId leader =
          p.entrySet().stream().max(Map.Entry.comparingByValue()).orElseThrow().getKey();
      expected.leads().ifPresent(l -> addIf(!l.equals(leader), leader + " leads, not " + l, unmet));
      expected
          .atLeast()
          .forEach((c, least) -> addIf(p.get(c) < least, c + " is below " + least, unmet));
      expected
          .atMost()
          .forEach((c, most) -> addIf(p.get(c) > most, c + " is above " + most, unmet));
    } else {
      addIf(!impossible, result.toString(), unmet);
    }
  }

  private static void addIf(boolean condition, String words, List<String> to) {
    if (condition) {
      to.add(words);
    }
  }

  private static String words(BeliefResult result) {
    if (!(result instanceof Belief belief)) {
      return result.toString();
    }
    StringBuilder words = new StringBuilder();
    belief.causes().entrySet().stream()
        .sorted(Map.Entry.<CauseId, Double>comparingByValue().reversed())
        .limit(5)
        .forEach(e -> words.append("%s %.1f %%, ".formatted(e.getKey(), 100 * e.getValue())));
    return words.toString();
  }

  /** A pack made ready for running cases. */
  record PackUnderTest(CompiledPack compiled, org.faultwright.rules.PackRules rules) {}
}
