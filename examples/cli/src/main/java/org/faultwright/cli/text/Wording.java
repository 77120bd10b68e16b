package org.faultwright.cli.text;

import java.time.Duration;
import java.util.Collection;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import org.faultwright.casefile.FactId;
import org.faultwright.casefile.Told;
import org.faultwright.diagnosis.Answer;
import org.faultwright.diagnosis.Considered;
import org.faultwright.explanation.FactWords;
import org.faultwright.pack.BenchState;
import org.faultwright.pack.ConsentId;
import org.faultwright.pack.Conventions;
import org.faultwright.pack.Effort;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Step;
import org.faultwright.pack.StepId;
import org.faultwright.pack.Switch;
import org.faultwright.rules.Advice;
import org.faultwright.rules.Reason;
import org.faultwright.rules.Standing;

/** Things of a pack and a case in the words that a technician reads. */
final class Wording {

  private Wording() {}

  /** What to do, in a word or three. */
  static String kind(Advice advice) {
    return switch (advice.kind()) {
      case MAKE_SAFE -> is(advice, Reason.Why.DATA) ? "SAVE THE DATA" : "MAKE SAFE";
      case FUNCTION_TEST -> "FUNCTION TEST";
      case CLOSE_UP -> "CLOSE UP";
      case READ_AGAIN -> "READ AGAIN";
      case TEST -> "TEST";
      case ASK -> "ASK THE CUSTOMER";
      case REPAIR -> "REPAIR";
      case SEND_ON -> "SEND ON";
      case RETURN -> is(advice, Reason.Why.NOT_THE_DEVICE) ? "GIVE BACK" : "RETURN UNREPAIRED";
      case STOP -> is(advice, Reason.Why.DONE) ? "DONE" : "STOP";
    };
  }

  private static boolean is(Advice advice, Reason.Why why) {
    return advice.reasons().stream().anyMatch(r -> r.why() == why);
  }

  /** The kind and what it is about. */
  static String headline(Pack pack, Advice advice) {
    String subject = subject(pack, advice);
    return kind(advice) + (subject.isEmpty() ? "" : ": " + subject);
  }

  /** Words in which facts go by their numbers, as they do on the page. */
  static String plain(String words) {
    return words.replaceAll("#(\\d+)", "fact $1").replace(".;", ";");
  }

  /** What it is about: the title of the step, or the positions to be brought about. */
  static String subject(Pack pack, Advice advice) {
    if (advice.step().isPresent()) {
      return without(kind(advice), pack.steps().get(advice.step().get()).title());
    }
    if (!advice.turns().isEmpty()) {
      return Dangers.sentence(turns(pack, advice.turns()));
    }
    return "";
  }

  /** The kind of a step, in a word or two. */
  static String kind(Step step) {
    return switch (step.kind()) {
      case FUNCTION_TEST -> "FUNCTION TEST";
      case SWAP, REPAIR -> "REPAIR";
      case TEST -> "TEST";
      case PREPARE -> "DO";
    };
  }

  /** The title of a step, without a kind that stands before it. */
  static String title(Pack pack, StepId step) {
    Step named = pack.steps().get(step);
    return without(kind(named), named.title());
  }

  private static String without(String kind, String title) {
    String twice = kind + ":";
    return title.regionMatches(true, 0, twice, 0, twice.length())
        ? Dangers.sentence(title.substring(twice.length()))
        : title;
  }

  /** What the customer is asked for. */
  static String consent(Pack pack, ConsentId consent) {
    return pack.consents()
        .getOrDefault(consent, Conventions.ASKED_ANYWHERE.getOrDefault(consent, consent.value()));
  }

  /**
   * What a test costs and saves, in money, since that is what was weighed; empty where it was not.
   */
  static String worth(Answer answer, Optional<StepId> step) {
    Optional<Considered> considered =
        step.flatMap(id -> answer.steps().stream().filter(c -> c.step().equals(id)).findFirst());
    if (considered.isEmpty()
        || considered.get().worth().isEmpty()
        || considered.get().cost().isEmpty()) {
      return "";
    }
    double cost = considered.get().cost().getAsDouble();
    double saves = considered.get().worth().getAsDouble() + cost;
    return ": costs about " + Figures.money(cost) + ", saves about " + Figures.money(saves);
  }

  /** Positions of switches, in order: {@code device open, battery disconnected}. */
  static String turns(Pack pack, Collection<BenchState> turns) {
    return turns.stream().map(t -> FactWords.of(pack, t)).collect(Collectors.joining(", then "));
  }

  /** The time that it takes to bring the positions about, each by itself. */
  static Effort effort(Pack pack, Collection<BenchState> turns) {
    Duration hands = Duration.ZERO;
    Duration waiting = Duration.ZERO;
    for (BenchState turn : turns) {
      Switch s = pack.switches().get(turn.of());
      Optional<Switch.Turn> how = turn.on() ? s.turnOn() : s.turnOff();
      hands = hands.plus(how.map(t -> t.effort().hands()).orElse(Duration.ZERO));
      waiting = waiting.plus(how.map(t -> t.effort().waiting()).orElse(Duration.ZERO));
    }
    return new Effort(hands, waiting);
  }

  /** A fact with its number. */
  static String fact(Pack pack, Told told) {
    return "fact " + told.id().number() + ", " + FactWords.of(pack, told.fact());
  }

  /** A fact by its number. */
  static String fact(Pack pack, Answer answer, FactId id) {
    return answer
        .findings()
        .standing(id)
        .map(Standing::told)
        .map(told -> fact(pack, told))
        .orElse("fact " + id.number());
  }

  /** The part of a text before its first comma, colon or semicolon: enough to know a tool by. */
  static String brief(String words) {
    String[] parts = words.split("[,:;]", 2);
    return parts[0].strip();
  }

  /** The first words of a caution: enough to be reminded of it by who has read it. */
  static String name(String caution) {
    return caution.split("[,:;.]", 2)[0].strip();
  }

  /** {@code a}, {@code a and b}, {@code a, b and c}. */
  static String listed(List<String> items) {
    if (items.size() < 2) {
      return String.join("", items);
    }
    int last = items.size() - 1;
    return String.join(", ", items.subList(0, last)) + " and " + items.get(last);
  }
}
