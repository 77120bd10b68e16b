package org.faultwright.pack.check;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.faultwright.pack.Condition;
import org.faultwright.pack.Pack;
import org.faultwright.pack.PointId;
import org.faultwright.pack.Step;
import org.faultwright.pack.StepId;

/** What must be met before a step is done, and whether all of it can be. */
final class Requirements {

  /** What a condition is about, and what it asks of it. */
  private record Asked(String subject, String value) {}

  private Requirements() {}

  /** The step in which each point is read. */
  static Map<PointId, StepId> stepsOfPoints(Pack pack) {
    Map<PointId, StepId> steps = new LinkedHashMap<>();
    for (Step step : pack.steps().values()) {
      step.pinTable().ifPresent(t -> t.points().forEach(p -> steps.put(p.id(), step.id())));
    }
    return steps;
  }

  /** The steps without which the condition of a step cannot be met. */
  static Set<StepId> stepsNeeded(Step step, Map<PointId, StepId> stepsOfPoints) {
    Set<StepId> steps = new LinkedHashSet<>();
    for (Condition c : ConditionParts.needed(step.conditions().onlyIf())) {
      stepOf(c, stepsOfPoints).ifPresent(steps::add);
    }
    return steps;
  }

  /** The step that a condition asks about. */
  static Optional<StepId> stepOf(Condition condition, Map<PointId, StepId> stepsOfPoints) {
    if (condition instanceof Condition.OutcomeIs c) {
      return Optional.of(c.step());
    } else if (condition instanceof Condition.Done c) {
      return Optional.of(c.step());
    } else if (condition instanceof Condition.ReadingIs c) {
      return Optional.ofNullable(stepsOfPoints.get(c.point()));
    }
    return Optional.empty();
  }

  /** Why the condition of a step can never be met; empty: it can, as far as one can see. */
  static Optional<String> whyNever(Step step, Map<PointId, StepId> stepsOfPoints) {
    List<Condition> needed = ConditionParts.needed(step.conditions().onlyIf());
    Optional<String> why = whyNever(needed, step, stepsOfPoints);
    if (why.isPresent() || needed.isEmpty()) {
      return why;
    }
    List<Condition> all = new ArrayList<>(needed);
    step.conditions().bench().forEach(s -> all.add(new Condition.BenchIs(s)));
    return contradiction(all)
        .filter(c -> step.conditions().bench().stream().noneMatch(s -> isBoth(step, s)));
  }

  private static boolean isBoth(Step step, org.faultwright.pack.BenchState s) {
    return step.conditions().bench().contains(new org.faultwright.pack.BenchState(s.of(), !s.on()));
  }

  private static Optional<String> whyNever(
      List<Condition> needed, Step step, Map<PointId, StepId> stepsOfPoints) {
    for (Condition c : needed) {
      Condition about = c instanceof Condition.Not not ? not.part() : c;
      boolean own = stepOf(about, stepsOfPoints).filter(step.id()::equals).isPresent();
      if (own && !(c instanceof Condition.Not && about instanceof Condition.Done)) {
        return Optional.of("its condition asks for what only the step itself can tell");
      }
      if (c instanceof Condition.BoardIs b
          && !step.boards().isEmpty()
          && !step.boards().contains(b.board())) {
        return Optional.of("it is not for board '" + b.board() + "'");
      }
      if (c instanceof Condition.Any any) {
        Optional<String> why = Optional.empty();
        for (Condition part : any.parts()) {
          why = whyNever(ConditionParts.needed(part), step, stepsOfPoints);
          if (why.isEmpty()) {
            break;
          }
        }
        if (why.isPresent()) {
          return why;
        }
      }
    }
    return contradiction(needed);
  }

  /** Two conditions that cannot both be met. */
  static Optional<String> contradiction(List<Condition> needed) {
    Map<String, String> asked = new HashMap<>();
    for (Condition c : needed) {
      Optional<Asked> a = asked(c);
      if (a.isPresent()) {
        String other = asked.putIfAbsent(a.get().subject(), a.get().value());
        if (other != null && !other.equals(a.get().value())) {
          return Optional.of(
              "%s cannot be both %s and %s".formatted(a.get().subject(), other, a.get().value()));
        }
      }
    }
    for (Condition c : needed) {
      if (c instanceof Condition.Not not && needed.contains(not.part())) {
        String about = asked(not.part()).map(Asked::subject).orElse("a part of its condition");
        return Optional.of(about + " cannot both be so and not be so");
      }
    }
    return Optional.empty();
  }

  private static Optional<Asked> asked(Condition condition) {
    if (condition instanceof Condition.OutcomeIs c) {
      return asked("outcome of '" + c.step() + "'", c.outcome());
    } else if (condition instanceof Condition.ReadingIs c) {
      return asked("reading '" + c.point() + "'", c.state());
    } else if (condition instanceof Condition.SymptomIs c) {
      return asked(
          "symptom '" + c.symptom() + "'", c.value().name().toLowerCase(java.util.Locale.ROOT));
    } else if (condition instanceof Condition.HistoryIs c) {
      return asked("history '" + c.history() + "'", c.happened() ? "yes" : "no");
    } else if (condition instanceof Condition.BenchIs c) {
      return asked("switch '" + c.state().of() + "'", c.state().on() ? "on" : "off");
    } else if (condition instanceof Condition.GoalIs c) {
      return asked("goal", c.goal().name().toLowerCase(java.util.Locale.ROOT).replace('_', '-'));
    } else if (condition instanceof Condition.BoardIs c) {
      return asked("board", c.board());
    } else if (condition instanceof Condition.Reproduced c) {
      return asked("complaint '" + c.complaint() + "'", "reproduced");
    } else if (condition instanceof Condition.Works c) {
      return asked("complaint '" + c.complaint() + "'", "not lost");
    }
    return Optional.empty();
  }

  private static Optional<Asked> asked(String subject, Object value) {
    return Optional.of(new Asked(subject, value.toString()));
  }
}
