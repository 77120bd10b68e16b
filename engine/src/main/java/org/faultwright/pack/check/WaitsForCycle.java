package org.faultwright.pack.check;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Consumer;
import org.faultwright.pack.Pack;
import org.faultwright.pack.PointId;
import org.faultwright.pack.Step;
import org.faultwright.pack.StepId;
import org.faultwright.problem.Problem;

/** Steps that wait for each other for ever. */
final class WaitsForCycle implements PackCheck {

  /** Names in a message: more than these nobody reads. */
  private static final int MOST_NAMED = 8;

  @Override
  public String id() {
    return "waits-for-cycle";
  }

  @Override
  public void check(Pack pack, Positions at, Consumer<Problem> found) {
    Map<StepId, Set<StepId>> waits = new LinkedHashMap<>();
    Map<PointId, StepId> steps = Requirements.stepsOfPoints(pack);
    for (Step step : pack.steps().values()) {
      Set<StepId> needed = new LinkedHashSet<>(Requirements.stepsNeeded(step, steps));
      needed.remove(step.id()); // only-if-never says so
      needed.addAll(step.conditions().after());
      waits.put(step.id(), needed);
    }
    while (waits.values().removeIf(Set::isEmpty) | forget(waits)) {}
    Set<StepId> told = new LinkedHashSet<>();
    for (StepId start : waits.keySet()) {
      Set<StepId> way = new LinkedHashSet<>();
      StepId step = start;
      while (!told.contains(step) && way.add(step)) {
        step = waits.get(step).iterator().next();
      }
      if (way.contains(step)) {
        List<StepId> cycle = new ArrayList<>(way);
        cycle = cycle.subList(cycle.indexOf(step), cycle.size());
        report(cycle, at, found);
      }
      told.addAll(way);
    }
  }

  /** Drops what waits for nothing that is left; true where that changed something. */
  private static boolean forget(Map<StepId, Set<StepId>> waits) {
    boolean changed = false;
    for (Set<StepId> needed : waits.values()) {
      changed |= needed.retainAll(waits.keySet());
    }
    return changed;
  }

  private void report(List<StepId> cycle, Positions at, Consumer<Problem> found) {
    StringBuilder way = new StringBuilder();
    cycle.stream().limit(MOST_NAMED).forEach(s -> way.append("'" + s + "' waits for "));
    way.append(cycle.size() > MOST_NAMED ? "... waits for " : "");
    String path = "steps/" + cycle.get(0);
    boolean listed = at.exactly(path + "/waits-for").isPresent();
    found.accept(
        Problem.error(
            id(),
            at.of(path + (listed ? "/waits-for" : "/only-if")),
            "steps wait for each other: " + way + "'" + cycle.get(0) + "'",
            "leave out one of the conditions"));
  }
}
