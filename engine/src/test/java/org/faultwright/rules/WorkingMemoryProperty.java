package org.faultwright.rules;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import org.faultwright.casefile.Fact;
import org.faultwright.casefile.FactId;
import org.faultwright.casefile.Intake;
import org.faultwright.casefile.Told;
import org.faultwright.pack.ActivityId;
import org.faultwright.pack.Step;
import org.faultwright.rules.facts.Impossible;

class WorkingMemoryProperty {
  /** Telling a fact, or (where one has been told) withdrawing one by its place among them. */
  record Move(Optional<Fact> tell, int withdraw) {}

  @Provide
  Arbitrary<List<Move>> moves() {
    Arbitrary<Move> tell = RandomScenes.facts().map(f -> new Move(Optional.of(f), 0));
    Arbitrary<Move> withdraw =
        Arbitraries.integers().between(0, 40).map(i -> new Move(Optional.empty(), i));
    return Arbitraries.frequencyOf(
            net.jqwik.api.Tuple.of(3, tell), net.jqwik.api.Tuple.of(1, withdraw))
        .list()
        .ofMinSize(1)
        .ofMaxSize(24);
  }

  @Provide
  Arbitrary<List<Fact>> facts() {
    return RandomScenes.facts().list().ofMaxSize(14);
  }

  @Provide
  Arbitrary<Intake> intakes() {
    return RandomScenes.intakes();
  }

  @Provide
  Arbitrary<Summary> summaries() {
    return RandomScenes.summaries();
  }

  private static List<Told> told(List<Fact> facts) {
    List<Told> told = new ArrayList<>();
    for (Fact fact : facts) {
      told.add(new Told(new FactId(told.size() + 1), Optional.empty(), fact));
    }
    return told;
  }

  @Property(tries = 300)
  void conclusions_areThoseOfAFreshMemory_howeverTheFactsCame(
      @ForAll("moves") List<Move> moves,
      @ForAll("intakes") Intake intake,
      @ForAll("summaries") Summary summary) {
    List<Told> facts = new ArrayList<>();
    int next = 1;
    try (WorkingMemory grown = BenchPack.RULES.open(intake)) {
      for (Move move : moves) {
        if (move.tell().isPresent()) {
          facts.add(new Told(new FactId(next++), Optional.empty(), move.tell().get()));
        } else if (!facts.isEmpty()) {
          facts.remove(move.withdraw() % facts.size());
        }
        Findings findings = grown.conclude(facts);
        AdviceSet advice = grown.advise(summary);
        try (WorkingMemory fresh = BenchPack.RULES.open(intake)) {
          assertThat(findings).isEqualTo(fresh.conclude(facts));
          assertThat(advice).isEqualTo(fresh.advise(summary));
        }
      }
    }
  }

  @Property(tries = 500)
  void step_isOpen_exactlyWhereItsGuardHoldsAndNothingElseBlocks(
      @ForAll("facts") List<Fact> facts, @ForAll("intakes") Intake intake) {
    try (WorkingMemory memory = BenchPack.RULES.open(intake)) {
      Findings findings = memory.conclude(told(facts));
      for (StepStatus step : findings.steps().values()) {
        boolean outside = step.blocked().stream().anyMatch(b -> b.unmet().isEmpty());
        boolean allowed = step.guard().holdsIn(findings.situation());
        assertThat(step.isOpen()).as("%s", step).isEqualTo(allowed && !outside);
      }
      for (TurnStatus turn : findings.turns().values()) {
        assertThat(turn.isPermitted())
            .as("%s", turn)
            .isEqualTo(turn.guard().holdsIn(findings.situation()));
      }
    }
  }

  /** Asked for the standings alone, before or after all else, the rules say the same. */
  @Property(tries = 300)
  void standings_areThoseOfTheWholeConclusion(
      @ForAll("facts") List<Fact> facts,
      @ForAll("facts") List<Fact> others,
      @ForAll("intakes") Intake intake) {
    try (WorkingMemory memory = BenchPack.RULES.open(intake);
        WorkingMemory fresh = BenchPack.RULES.open(intake)) {
      List<Standing> alone = memory.standings(told(facts));
      Findings whole = fresh.conclude(told(facts));
      assertThat(alone).isEqualTo(whole.standings());
      assertThat(memory.conclude(told(facts))).isEqualTo(whole);
      memory.standings(told(others));
      assertThat(memory.standings(told(facts))).isEqualTo(alone);
      assertThat(memory.conclude(told(facts))).isEqualTo(whole);
    }
  }

  @Property(tries = 500)
  void step_isNeverOpen_whereAHoldForbidsIt(
      @ForAll("facts") List<Fact> facts, @ForAll("intakes") Intake intake) {
    try (WorkingMemory memory = BenchPack.RULES.open(intake)) {
      Findings findings = memory.conclude(told(facts));
      for (HoldInForce hold : findings.holds()) {
        Set<ActivityId> forbidden = hold.hold().forbids();
        for (Step step : BenchPack.PACK.steps().values()) {
          if (!Collections.disjoint(step.does(), forbidden)) {
            assertThat(findings.isOpen(step.id())).as("%s under %s", step.id(), hold).isFalse();
          }
          boolean needsForbidden =
              step.conditions().bench().stream()
                  .anyMatch(
                      s ->
                          s.on()
                              && !Collections.disjoint(
                                  BenchPack.PACK.switches().get(s.of()).whileOn(), forbidden));
          if (needsForbidden) {
            assertThat(findings.isOpen(step.id())).as("%s under %s", step.id(), hold).isFalse();
          }
        }
        findings
            .turns()
            .forEach(
                (target, turn) -> {
                  if (target.on()
                      && !Collections.disjoint(
                          BenchPack.PACK.switches().get(target.of()).whileOn(), forbidden)) {
                    assertThat(findings.mayTurn(target)).as("%s under %s", target, hold).isFalse();
                  }
                });
      }
    }
  }

  @Property(tries = 500)
  void advice_hasOnePrimary_andNeverAStepThatIsNotAllowed(
      @ForAll("facts") List<Fact> facts,
      @ForAll("intakes") Intake intake,
      @ForAll("summaries") Summary summary,
      @ForAll boolean impossible) {
    List<Told> told = told(facts);
    try (WorkingMemory memory = BenchPack.RULES.open(intake)) {
      Findings findings = memory.conclude(told);
      Summary given =
          impossible && !told.isEmpty()
              ? Summary.impossible(new Impossible(Set.of(told.get(0).id())))
              : summary;
      AdviceSet advice = memory.advise(given);
      List<Advice> all = new ArrayList<>(advice.others());
      all.add(advice.primary());
      assertThat(all).doesNotHaveDuplicates();
      for (Advice each : all) {
        each.step()
            .map(findings::step)
            .ifPresent(
                step -> {
                  switch (each.kind()) {
                    case READ_AGAIN ->
                        assertThat(step.blocked())
                            .allMatch(b -> b.kind() == Blocked.Kind.ANSWERED_ALREADY);
                    case ASK ->
                        assertThat(step.blocked())
                            .allMatch(b -> b.kind() == Blocked.Kind.LACKS_CONSENT);
                    default -> assertThat(step.isOpen()).as("%s", each).isTrue();
                  }
                });
        each.turns()
            .forEach(
                t -> {
                  if (each.kind() != Advice.Kind.ASK) {
                    assertThat(findings.turns().get(t).blocked())
                        .as("%s", each)
                        .noneMatch(b -> b.kind() == Blocked.Kind.HELD);
                  }
                });
      }
    }
  }
}
