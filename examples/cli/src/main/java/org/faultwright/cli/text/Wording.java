package org.faultwright.cli.text;

import java.time.Duration;
import java.util.Collection;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import org.faultwright.casefile.FactId;
import org.faultwright.casefile.Told;
import org.faultwright.diagnosis.Answer;
import org.faultwright.explanation.FactWords;
import org.faultwright.pack.BenchState;
import org.faultwright.pack.Effort;
import org.faultwright.pack.Pack;
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
    return words.replaceAll("#(\\d+)", "fact $1");
  }

  /** What it is about: the title of the step, or the positions to be brought about. */
  static String subject(Pack pack, Advice advice) {
    if (advice.step().isPresent()) {
      String title = pack.steps().get(advice.step().get()).title();
      String twice = kind(advice) + ":";
      return title.regionMatches(true, 0, twice, 0, twice.length())
          ? Dangers.sentence(title.substring(twice.length()))
          : title;
    }
    if (!advice.turns().isEmpty()) {
      return Dangers.sentence(turns(pack, advice.turns()));
    }
    return "";
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

  /** {@code a}, {@code a and b}, {@code a, b and c}. */
  static String listed(List<String> items) {
    if (items.size() < 2) {
      return String.join("", items);
    }
    int last = items.size() - 1;
    return String.join(", ", items.subList(0, last)) + " and " + items.get(last);
  }
}
