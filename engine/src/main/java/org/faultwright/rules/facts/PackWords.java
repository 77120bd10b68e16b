package org.faultwright.rules.facts;

import static java.util.stream.Collectors.joining;

import java.util.Collection;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Function;
import org.faultwright.casefile.FactId;
import org.faultwright.pack.BenchState;
import org.faultwright.pack.BoardId;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.ComplaintId;
import org.faultwright.pack.Condition;
import org.faultwright.pack.ConsentId;
import org.faultwright.pack.Conventions;
import org.faultwright.pack.Goal;
import org.faultwright.pack.Hold;
import org.faultwright.pack.Id;
import org.faultwright.pack.Pack;
import org.faultwright.pack.StepId;
import org.faultwright.pack.ToolId;

/** What a pack calls its things, in the words that a technician reads. Immutable. */
public final class PackWords {

  private final Map<Id, String> words = new HashMap<>();
  private final Set<StepId> swaps = new HashSet<>();
  private final Map<Id, String> offCalled = new HashMap<>();

  /** The words of a pack. */
  public PackWords(Pack pack) {
    pack.steps().forEach((id, s) -> put(id, s.title()));
    pack.steps().values().stream()
        .filter(s -> s.swap().isPresent())
        .forEach(s -> swaps.add(s.id()));
    pack.complaints().forEach((id, c) -> put(id, c.title()));
    pack.causes().forEach((id, c) -> put(id, c.title()));
    pack.symptoms().forEach((id, s) -> put(id, s.title()));
    pack.histories().forEach((id, h) -> put(id, h.title()));
    pack.tools().forEach(this::put);
    pack.consents().forEach(this::put);
    pack.switches().forEach((id, s) -> offCalled.put(id, s.offCalled().value()));
    Conventions.ASKED_ANYWHERE.forEach(words::putIfAbsent);
  }

  private void put(Id id, String text) {
    if (!text.isBlank()) {
      words.put(id, text);
    }
  }

  private String of(Id id) {
    return words.getOrDefault(id, id.value());
  }

  /** The title of a step. */
  public String step(StepId step) {
    return of(step);
  }

  /**
   * What a passed function test after an attempt proves, and what it does not: most repairs are
   * confirmed only by the cure.
   */
  public String provedBy(StepId step) {
    return swaps.contains(step)
        ? "the function test passed after: "
            + step(step)
            + "; the new part cured it: that does not tell whether the old part was bad or sat"
            + " badly, so keep the old part"
        : "the function test passed after: "
            + step(step)
            + "; that it cured it is all that shows what was wrong";
  }

  /** A complaint in the customer's words. */
  public String complaint(ComplaintId complaint) {
    return of(complaint);
  }

  /** The title of a cause. */
  public String cause(CauseId cause) {
    return of(cause);
  }

  /** A tool. */
  public String tool(ToolId tool) {
    return of(tool);
  }

  /** What the customer is asked to agree to. */
  public String consent(ConsentId consent) {
    return of(consent);
  }

  /** Several things that the customer is asked to agree to. */
  public String consents(Collection<ConsentId> consents) {
    return consents.stream().map(this::consent).collect(joining(", "));
  }

  /** A position, as packs name it. */
  public String position(BenchState state) {
    return state.on() ? state.of().value() : offCalled.getOrDefault(state.of(), "no " + state.of());
  }

  /** Several positions. */
  public String positions(Collection<BenchState> states) {
    return states.stream().map(this::position).collect(joining(", "));
  }

  /** What is going on against a hold, and what to do. */
  public String alarm(Hold hold, BenchState going) {
    return hold.says() + "; now: " + position(new BenchState(going.of(), !going.on()));
  }

  /** The skill that a step asks for. */
  public String skill(PackStep step) {
    return step.step()
        .conditions()
        .skill()
        .map(
            skill ->
                switch (skill) {
                  case COUNTER -> "anyone's";
                  case BENCH -> "a bench technician's";
                  case BOARD -> "those of someone who works on boards under a microscope";
                  case LICENSED -> "licensed or specially trained ones";
                })
        .orElse("anyone's");
  }

  /** Boards. */
  public String boards(Set<BoardId> boards) {
    return boards.stream().map(BoardId::value).collect(joining(" or "));
  }

  /** Facts by number. */
  public String facts(Collection<FactId> facts) {
    return facts.stream().map(FactId::toString).collect(joining(", "));
  }

  /** A condition. */
  public String condition(Condition condition) {
    if (condition instanceof Condition.Always) {
      return "nothing";
    } else if (condition instanceof Condition.All all) {
      return joined(all.parts(), " and ", this::inner);
    } else if (condition instanceof Condition.Any any) {
      return joined(any.parts(), " or ", this::inner);
    } else if (condition instanceof Condition.Not not) {
      return "not: " + condition(not.part());
    } else if (condition instanceof Condition.Unless unless) {
      return "unless: " + condition(unless.part());
    } else if (condition instanceof Condition.SymptomIs c) {
      return of(c.symptom()) + ": " + lower(c.value());
    } else if (condition instanceof Condition.OutcomeIs c) {
      return of(c.step()) + ": " + c.outcome();
    } else if (condition instanceof Condition.ReadingIs c) {
      return c.point() + " reads " + c.state();
    } else if (condition instanceof Condition.HistoryIs c) {
      return of(c.history()) + ": " + (c.happened() ? "yes" : "no");
    } else if (condition instanceof Condition.BenchIs c) {
      return position(c.state());
    } else if (condition instanceof Condition.Done c) {
      return "done: " + of(c.step());
    } else if (condition instanceof Condition.Reproduced c) {
      return "seen here: " + of(c.complaint());
    } else if (condition instanceof Condition.Works c) {
      return "works: " + of(c.complaint());
    } else if (condition instanceof Condition.GoalIs c) {
      return "the customer wants " + goal(c.goal());
    } else if (condition instanceof Condition.Consented c) {
      return "the customer agrees: " + of(c.consent());
    } else if (condition instanceof Condition.BoardIs c) {
      return "board " + c.board();
    }
    throw new AssertionError("unknown condition: " + condition);
  }

  private String inner(Condition condition) {
    boolean compound = condition instanceof Condition.All || condition instanceof Condition.Any;
    return compound ? "(" + condition(condition) + ")" : condition(condition);
  }

  private static String joined(
      List<Condition> parts, String by, Function<Condition, String> words) {
    return parts.stream().map(words).collect(joining(by));
  }

  private static String lower(Enum<?> value) {
    return value.name().toLowerCase(java.util.Locale.ROOT).replace('_', ' ');
  }

  private static String goal(Goal goal) {
    return switch (goal) {
      case WORKING -> "a working device";
      case DATA_ONLY -> "the data only";
      case ESTIMATE -> "a price first";
    };
  }
}
