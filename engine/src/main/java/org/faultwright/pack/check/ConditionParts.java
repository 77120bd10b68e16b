package org.faultwright.pack.check;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Consumer;
import org.faultwright.pack.Condition;
import org.faultwright.pack.Pack;

/** Walks through condition trees. The reader bounds their depth. */
final class ConditionParts {

  private ConditionParts() {}

  /** Every condition that the pack states, parts included. */
  static void all(Pack pack, Consumer<Condition> visit) {
    pack.steps().values().forEach(s -> each(s.conditions().onlyIf(), visit));
    pack.holds()
        .values()
        .forEach(
            h -> {
              each(h.when(), visit);
              each(h.until(), visit);
            });
    pack.clashes().forEach(c -> c.together().forEach(t -> each(t, visit)));
  }

  /** The condition and all its parts. */
  static void each(Condition condition, Consumer<Condition> visit) {
    visit.accept(condition);
    if (condition instanceof Condition.All all) {
      all.parts().forEach(p -> each(p, visit));
    } else if (condition instanceof Condition.Any any) {
      any.parts().forEach(p -> each(p, visit));
    } else if (condition instanceof Condition.Not not) {
      each(not.part(), visit);
    } else if (condition instanceof Condition.Unless unless) {
      each(unless.part(), visit);
    }
  }

  /** The parts that must all be met for the condition to be met: nested "all" are flattened. */
  static List<Condition> needed(Condition condition) {
    List<Condition> needed = new ArrayList<>();
    if (condition instanceof Condition.All all) {
      all.parts().forEach(p -> needed.addAll(needed(p)));
    } else if (!(condition instanceof Condition.Always)) {
      needed.add(condition);
    }
    return needed;
  }
}
