package org.faultwright.diagnosis;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.faultwright.casefile.Attempts;
import org.faultwright.casefile.Situation;
import org.faultwright.compile.Belief;
import org.faultwright.compile.CompiledPack;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.ComplaintId;
import org.faultwright.pack.Lineage;
import org.faultwright.pack.ModeId;
import org.faultwright.pack.Step;
import org.faultwright.planning.Shop;
import org.faultwright.planning.Weighing;
import org.faultwright.planning.Worth;
import org.faultwright.rules.Findings;
import org.faultwright.rules.facts.ComesBack;
import org.faultwright.rules.facts.Inspection;

/**
 * Whether functions that are back now will last: what an attempt has only hidden acts again, and
 * what comes and goes comes again.
 */
final class Lasting {

  private final CompiledPack compiled;
  private final Shop shop;
  private final Belief belief;
  private final Findings findings;
  private final List<ComesBack> comebacks = new ArrayList<>();
  private final Set<CauseId> hidden;

  Lasting(
      CompiledPack compiled,
      Shop shop,
      Belief belief,
      Findings findings,
      Set<ComplaintId> reported) {
    this.compiled = compiled;
    this.shop = shop;
    this.belief = belief;
    this.findings = findings;
    this.hidden = hiddenByTheLast(findings.attempts());
    if (!findings.attempts().made().isEmpty() && isNothingLost()) {
      reported.forEach(
          c -> comebacks.add(new ComesBack(c, Math.max(0, Math.min(1, belief.pComesBack(c))))));
    }
  }

  private boolean isNothingLost() {
    return findings.situation().lost().values().stream().noneMatch(lost -> lost);
  }

  /** The causes that the last attempt may have hidden; by the next one they act again. */
  private Set<CauseId> hiddenByTheLast(Attempts attempts) {
    Set<CauseId> found = new LinkedHashSet<>();
    if (!attempts.made().isEmpty()) {
      Attempts.Attempt last = attempts.made().get(attempts.made().size() - 1);
      compiled
          .lineage()
          .changes(compiled.pack().steps().get(last.step()))
          .forEach(
              (cause, change) -> {
                if (change.hides().p() > 0) {
                  found.add(cause);
                }
              });
    }
    return found;
  }

  /** How likely each reported function comes back lost; empty while one is lost. */
  List<ComesBack> comebacks() {
    return comebacks;
  }

  /** Whether one of them likely comes back lost. */
  boolean isUnlikely() {
    return comebacks.stream().anyMatch(ComesBack::moreLikelyThanNot);
  }

  /**
   * The situation as it will be where functions come back lost: then there is something to find and
   * to repair. Empty where nothing speaks for it.
   */
  Optional<Situation> situation() {
    if (!isUnlikely() && (hidden.isEmpty() || comebacks.isEmpty())) {
      return Optional.empty();
    }
    Situation then = findings.situation();
    for (ComesBack c : comebacks) {
      then = then.withLost(c.complaint());
    }
    return Optional.of(then);
  }

  /**
   * Looks for what the last attempt may have hidden: a comeback costs what it costs as likely as
   * the cause is still there.
   *
   * @param then what could be done if the functions came back lost
   */
  List<Inspection> inspections(Weighing then) {
    List<Inspection> found = new ArrayList<>();
    for (Worth test : then.tests()) {
      Step step = compiled.pack().steps().get(test.step());
      if (!step.provokes().equals(ModeId.INSPECTION)) {
        continue; // what is hidden does not act, so that no other look finds it
      }
      for (CauseId cause : hidden) {
        double worth = belief.p(cause) * shop.comeback() - test.cost();
        if (worth > 0 && step.shows().filter(o -> Lineage.looksAt(o).contains(cause)).isPresent()) {
          found.add(new Inspection(step.id(), cause, worth));
        }
      }
    }
    return found;
  }
}
