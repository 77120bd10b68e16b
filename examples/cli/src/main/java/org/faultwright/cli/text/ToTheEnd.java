package org.faultwright.cli.text;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.faultwright.diagnosis.Answer;
import org.faultwright.pack.StepId;
import org.faultwright.planning.Spend;
import org.faultwright.rules.Advice;

/** What a job is expected to take to its end by what is done next. */
final class ToTheEnd {

  private static final double SECONDS = 60;

  /** Smaller differences of minutes are not worth a word. */
  private static final double LEAST_MINUTES = 1;

  private ToTheEnd() {}

  /** By an advice; empty where it was not weighed. */
  static Optional<String> of(Answer answer, Advice next) {
    return answer
        .toTheEnd(next)
        .map(
            spend ->
                next.kind() == Advice.Kind.ASK
                    ? "if agreed, " + words(answer, spend, next.kind()) + refused(answer)
                    : words(answer, spend, next.kind()));
  }

  /** The same without what it is made of. */
  static String brief(String words) {
    return words.replaceAll(", time included( \\([^)]*\\))?(: [a-z ]*)?", "");
  }

  /** By a step that somebody has chosen. */
  static Optional<String> of(Answer answer, StepId step) {
    return answer.toTheEnd(step).map(spend -> words(answer, spend, Advice.Kind.TEST));
  }

  private static String refused(Answer answer) {
    return answer.ifRefused().isPresent()
        ? "; if refused, " + Figures.money(answer.ifRefused().getAsDouble()) + " in all"
        : "";
  }

  private static String words(Answer answer, Spend spend, Advice.Kind kind) {
    List<String> parts = new ArrayList<>();
    addMoney(
        parts,
        spend.money(),
        kind == Advice.Kind.RETURN ? " for the value lost" : " for parts and fees");
    addMoney(parts, spend.risk(), " for risks");
    if (spend.waiting() >= LEAST_MINUTES) {
      parts.add(time(spend.waiting()) + " waiting");
    }
    boolean isEnd = kind.isEnd() || kind == Advice.Kind.CLOSE_UP;
    return "on average "
        + time(spend.hands())
        + " hands on and "
        + (isEnd ? "" : "at most ")
        + Figures.money(spend.cost(answer.shop()))
        + " in all to its end, time included"
        + (parts.isEmpty() ? "" : " (" + String.join(", ", parts) + ")")
        + (isEnd ? "" : ": no later test is counted");
  }

  private static void addMoney(List<String> parts, double amount, String what) {
    String money = Figures.money(amount);
    if (!money.equals("0")) {
      parts.add(money + what);
    }
  }

  /**
   * How far an advice is behind the first, in money and, where it matters, in minutes; empty where
   * one of the two was not weighed.
   */
  static List<String> behind(Answer answer, Advice other, boolean minutesToo) {
    List<String> parts = new ArrayList<>();
    Optional<Spend> more = answer.behind(other);
    if (more.isPresent()) {
      double cost = more.get().cost(answer.shop());
      String amount = Figures.money(Math.abs(cost));
      parts.add(
          (amount.equals("0") ? "hardly" : amount)
              + (cost < 0 && !amount.equals("0") ? " cheaper" : " dearer"));
      double hands = more.get().hands();
      if (minutesToo && Math.abs(hands) >= LEAST_MINUTES) {
        parts.add(time(Math.abs(hands)) + (hands < 0 ? " shorter" : " longer"));
      }
    }
    return parts;
  }

  /** Minutes of an estimate, without seconds. */
  private static String time(double minutes) {
    long whole = Math.round(minutes);
    return whole == 0 && minutes > 0
        ? Figures.time(Duration.ofSeconds(Math.round(minutes * SECONDS)))
        : whole == 0 ? "0 min" : Figures.time(Duration.ofMinutes(whole));
  }
}
