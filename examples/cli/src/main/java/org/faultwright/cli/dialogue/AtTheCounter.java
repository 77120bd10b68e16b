package org.faultwright.cli.dialogue;

import java.util.ArrayList;
import java.util.List;
import org.faultwright.casefile.Fact;
import org.faultwright.pack.BenchState;
import org.faultwright.pack.OutcomeId;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Step;
import org.faultwright.pack.Switch;

/** Function tests of a device that has just been taken in, closed as it is. */
final class AtTheCounter {

  private AtTheCounter() {}

  /** Whether it needs nothing that only an open device has. */
  static boolean canBeTried(Pack pack, Step test) {
    return test.shows().isPresent()
        && test.conditions().bench().stream()
            .noneMatch(
                state -> {
                  Switch s = pack.switches().get(state.of());
                  boolean turned = s.startsOn() != state.on();
                  return turned && (s.closedWhenOff() || needsOpening(pack, s, state.on()));
                });
  }

  private static boolean needsOpening(Pack pack, Switch s, boolean on) {
    return (on ? s.turnOn() : s.turnOff())
        .map(
            turn ->
                turn.needs().stream()
                    .anyMatch(n -> n.on() && pack.switches().get(n.of()).closedWhenOff()))
        .orElse(true);
  }

  /** The outcome that says that the function is there. */
  static OutcomeId works(Step test) {
    return test.shows().orElseThrow().outcomes().get(1);
  }

  /** The outcome that says that it is lost. */
  static OutcomeId faulty(Step test) {
    return test.shows().orElseThrow().outcomes().get(0);
  }

  /** The outcome, with the bench brought into place for it before and put back after. */
  static List<Fact> tried(Pack pack, Step test, OutcomeId outcome) {
    List<BenchState> turned =
        test.conditions().bench().stream()
            .filter(state -> pack.switches().get(state.of()).startsOn() != state.on())
            .toList();
    List<Fact> facts = new ArrayList<>();
    turned.forEach(state -> facts.add(new Fact.BenchSet(state)));
    facts.add(new Fact.OutcomeSeen(test.id(), outcome));
    turned.forEach(state -> facts.add(new Fact.BenchSet(new BenchState(state.of(), !state.on()))));
    return facts;
  }
}
