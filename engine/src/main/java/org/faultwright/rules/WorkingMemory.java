package org.faultwright.rules;

import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Predicate;
import org.faultwright.casefile.Attempts;
import org.faultwright.casefile.Intake;
import org.faultwright.casefile.Told;
import org.faultwright.pack.BenchState;
import org.faultwright.rules.facts.Bench;
import org.faultwright.rules.facts.Now;
import org.faultwright.rules.facts.PackStep;
import org.faultwright.rules.facts.Shop;
import org.faultwright.rules.facts.Weighed;
import org.kie.api.runtime.KieSession;
import org.kie.api.runtime.rule.AgendaFilter;
import org.kie.api.runtime.rule.FactHandle;

/**
 * The rules at work on one case. Used by one thread at a time; must be closed.
 *
 * <p>What is concluded depends on the facts of the last call alone, not on those before: only the
 * difference is handed to the rules, and what rested on a fact that is gone goes with it.
 */
public final class WorkingMemory implements AutoCloseable {

  private final PackRules rules;
  private final KieSession session;
  private final Intake intake;
  private final AgendaFilter kept;
  private final Map<Object, FactHandle> told = new HashMap<>();
  private Bench bench;
  private FactHandle benchHandle;
  private Now now;
  private FactHandle nowHandle;
  private Findings findings;
  private boolean closed;

  WorkingMemory(PackRules rules, KieSession session, Intake intake, Predicate<String> rulesKept) {
    this.rules = rules;
    this.session = session;
    this.intake = intake;
    this.kept = match -> rulesKept.test(match.getRule().getName());
    session.setGlobal("words", rules.words());
    session.insert(new Shop(intake));
    for (Object fact : rules.facts()) {
      session.insert(fact);
      if (fact instanceof PackStep step) {
        step.shows(intake.board()).forEach(session::insert);
      }
    }
  }

  /**
   * First firing: what follows from the facts alone.
   *
   * @param facts all facts of the case, in order of telling; those withdrawn are left out
   * @throws IllegalArgumentException when facts are not in order, or speak of what the pack lacks
   */
  public Findings conclude(List<Told> facts) {
    requireOpen();
    Attempts attempts = rules.reading().attempts(facts);
    List<Object> read = rules.reading().read(facts, attempts, intake.board());
    handIn(read);
    fire();
    Concluded standing = Concluded.in(session);
    List<Standing> standings = standing.standings(facts);
    Situations situations = new Situations(rules, intake, attempts, standing.benchWords());
    update(situations.now(standings, read));
    update(situations.bench());
    fire();
    findings = Concluded.in(session).findings(rules, facts, bench, now.situation(), attempts);
    return findings;
  }

  /**
   * Which facts stand, as {@link #conclude} says it too, and nothing else: for those who want to
   * know no more.
   *
   * @throws IllegalArgumentException as there
   */
  public List<Standing> standings(List<Told> facts) {
    requireOpen();
    handIn(rules.reading().read(facts, rules.reading().attempts(facts), intake.board()));
    fire();
    return Concluded.in(session).standings(facts);
  }

  /**
   * Second firing: what to do next, given the findings of the last {@link #conclude} and what
   * inference and planning made of them.
   *
   * @throws IllegalStateException when nothing has been concluded yet
   */
  public AdviceSet advise(Summary summary) {
    requireOpen();
    if (findings == null) {
      throw new IllegalStateException("conclude must come before advise");
    }
    List<Object> facts = new ArrayList<>();
    facts.addAll(summary.leaders());
    facts.addAll(summary.functions());
    facts.addAll(summary.tests());
    facts.addAll(summary.rereads());
    facts.addAll(summary.repairs());
    summary.exit().ifPresent(facts::add);
    facts.addAll(summary.comebacks());
    facts.addAll(summary.inspections());
    facts.addAll(summary.roots());
    summary.impossible().ifPresent(facts::add);
    facts.add(new Weighed());
    List<FactHandle> handles = facts.stream().map(session::insert).toList();
    try {
      fire();
      return Concluded.in(session).advice(rules, findings);
    } finally {
      handles.forEach(session::delete);
    }
  }

  private void handIn(Collection<Object> read) {
    Set<Object> wanted = new LinkedHashSet<>(read);
    told.entrySet()
        .removeIf(
            entry -> {
              boolean gone = !wanted.contains(entry.getKey());
              if (gone) {
                session.delete(entry.getValue());
              }
              return gone;
            });
    for (Object each : wanted) {
      if (!told.containsKey(each)) {
        told.put(each, session.insert(each));
      }
    }
  }

  private void update(Now moment) {
    if (nowHandle == null) {
      nowHandle = session.insert(moment);
    } else {
      session.update(nowHandle, moment);
    }
    now = moment;
  }

  private void update(Set<BenchState> positions) {
    if (bench != null && bench.positions().equals(positions)) {
      return;
    }
    Bench next = new Bench(positions, rules.ways());
    if (benchHandle == null) {
      benchHandle = session.insert(next);
    } else {
      session.update(benchHandle, next);
    }
    bench = next;
  }

  private void fire() {
    session.fireAllRules(kept);
  }

  private void requireOpen() {
    if (closed) {
      throw new IllegalStateException("the working memory has been closed");
    }
  }

  /** Releases what the case holds; closing again does nothing. */
  @Override
  public void close() {
    if (!closed) {
      closed = true;
      session.dispose();
    }
  }
}
