package org.faultwright.rules;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.function.Predicate;
import org.faultwright.casefile.Intake;
import org.faultwright.pack.ActivityId;
import org.faultwright.pack.BenchState;
import org.faultwright.pack.Hold;
import org.faultwright.pack.Lineage;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Step;
import org.faultwright.pack.Switch;
import org.faultwright.rules.facts.Doing;
import org.faultwright.rules.facts.PackClash;
import org.faultwright.rules.facts.PackComplaint;
import org.faultwright.rules.facts.PackHold;
import org.faultwright.rules.facts.PackStep;
import org.faultwright.rules.facts.PackWords;
import org.faultwright.rules.facts.Subject;
import org.faultwright.rules.facts.Ways;
import org.kie.api.KieBase;

/** A pack made ready for the rules. Immutable, shared by any number of threads. */
public final class PackRules {

  private final KieBase rules;
  private final Pack pack;
  private final CaseReading reading;
  private final Ways ways;
  private final PackWords words;
  private final List<Object> facts = new ArrayList<>();

  PackRules(KieBase rules, Pack pack) {
    this.rules = rules;
    this.pack = pack;
    Lineage lineage = Lineage.of(pack);
    this.reading = new CaseReading(pack, lineage);
    this.ways = new Ways(pack);
    this.words = new PackWords(pack);
    state(lineage);
  }

  private void state(Lineage lineage) {
    int order = 0;
    for (Step step : pack.steps().values()) {
      facts.add(new PackStep(pack, step, lineage.changes(step).keySet(), order++));
      facts.add(new Doing(new Subject.OfStep(step.id()), step.does(), step.conditions().consent()));
    }
    for (Hold hold : pack.holds().values()) {
      facts.add(new PackHold(pack, hold));
    }
    for (int i = 0; i < pack.clashes().size(); i++) {
      facts.add(PackClash.of(i, pack.clashes().get(i)));
    }
    pack.complaints()
        .forEach((id, c) -> facts.add(new PackComplaint(id, lineage.ancestors(c.event()))));
    ways.turns().forEach((target, turn) -> facts.add(turning(target, turn)));
    for (Switch each : pack.switches().values()) {
      if (!each.whileOn().isEmpty()) {
        Subject on = Subject.position(new BenchState(each.id(), true));
        facts.add(new Doing(on, each.whileOn(), Set.of()));
      }
    }
  }

  private Doing turning(BenchState target, Switch.Turn turn) {
    Set<ActivityId> activities = new LinkedHashSet<>(turn.does());
    if (target.on()) {
      activities.addAll(pack.switches().get(target.of()).whileOn());
    }
    return new Doing(Subject.turn(target), activities, turn.consent());
  }

  /** The pack. */
  public Pack pack() {
    return pack;
  }

  /** Opens a working memory for one case; it must be closed. */
  public WorkingMemory open(Intake intake) {
    return open(intake, rule -> true);
  }

  /** Opens a working memory in which some rules are left out, to see that they are missed. */
  WorkingMemory open(Intake intake, Predicate<String> rulesKept) {
    return new WorkingMemory(this, rules.newKieSession(), intake, rulesKept);
  }

  CaseReading reading() {
    return reading;
  }

  Ways ways() {
    return ways;
  }

  PackWords words() {
    return words;
  }

  /** What the pack states, as facts. */
  List<Object> facts() {
    return facts;
  }
}
