package org.faultwright.pack.check;

import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.Consumer;
import org.faultwright.pack.ActivityId;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Step;
import org.faultwright.pack.Switch;
import org.faultwright.problem.Problem;

/** A dangerous activity without a word of caution. */
final class MissingCaution implements PackCheck {

  /** Words in the names of activities that can hurt someone. */
  private static final Set<String> DANGEROUS =
      Set.of(
          "charging",
          "mains",
          "heat",
          "heating",
          "warm",
          "warming",
          "solder",
          "soldering",
          "press",
          "pressing",
          "prise",
          "prising",
          "inject",
          "injecting",
          "solvent",
          "solvents",
          "laser",
          "ultraviolet",
          "uv");

  @Override
  public String id() {
    return "missing-caution";
  }

  @Override
  public void check(Pack pack, Positions at, Consumer<Problem> found) {
    for (Step step : pack.steps().values()) {
      danger(step.does())
          .filter(d -> step.cautions().isEmpty())
          .ifPresent(d -> report("step '" + step.id() + "'", d, at, "steps/" + step.id(), found));
    }
    for (Switch s : pack.switches().values()) {
      s.turnOn().ifPresent(t -> look(s, t, "turn-on", s.whileOn(), at, found));
      s.turnOff().ifPresent(t -> look(s, t, "turn-off", Set.of(), at, found));
    }
  }

  private void look(
      Switch s,
      Switch.Turn turn,
      String key,
      Set<ActivityId> whileOn,
      Positions at,
      Consumer<Problem> found) {
    danger(turn.does())
        .or(() -> danger(whileOn))
        .filter(d -> turn.cautions().isEmpty())
        .ifPresent(
            d ->
                report(
                    key + " of switch '" + s.id() + "'",
                    d,
                    at,
                    "switches/" + s.id() + "/" + key,
                    found));
  }

  private static Optional<ActivityId> danger(Set<ActivityId> activities) {
    return activities.stream()
        .filter(a -> List.of(a.value().split("-")).stream().anyMatch(DANGEROUS::contains))
        .findFirst();
  }

  private void report(
      String what, ActivityId danger, Positions at, String path, Consumer<Problem> found) {
    found.accept(
        Problem.error(
            id(),
            at.of(path),
            what + " involves '" + danger + "' and shows no caution",
            "add 'cautions' that say how not to get hurt"));
  }
}
