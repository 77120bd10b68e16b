package org.faultwright.cli.text;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import org.faultwright.casefile.FactId;
import org.faultwright.diagnosis.Answer;
import org.faultwright.diagnosis.Considered;
import org.faultwright.explanation.FactWords;
import org.faultwright.measurement.Quantity;
import org.faultwright.measurement.Reference;
import org.faultwright.pack.CautionId;
import org.faultwright.pack.ConsentId;
import org.faultwright.pack.Effort;
import org.faultwright.pack.Limit;
import org.faultwright.pack.OutcomeId;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Point;
import org.faultwright.pack.Step;
import org.faultwright.pack.StepId;
import org.faultwright.rules.Advice;
import org.faultwright.rules.Reason;

/** What to do next, with all that must be at hand when it is done. */
final class NextStep {

  private static final int SIGNIFICANT_DIGITS = 3;

  private final Page page;
  private final Pack pack;
  private final Answer answer;
  private final Advice advice;

  private NextStep(Page page, Pack pack, Answer answer) {
    this.page = page;
    this.pack = pack;
    this.answer = answer;
    this.advice = answer.advice().primary();
  }

  static void write(Page page, Pack pack, Answer answer) {
    new NextStep(page, pack, answer).write();
  }

  private void write() {
    boolean danger =
        advice.reasons().stream()
            .anyMatch(r -> r.why() == Reason.Why.ALARM || r.why() == Reason.Why.HELD);
    Ink ink = danger ? Ink.DANGER : Ink.STRONG;
    page.gap().hanging("NEXT  ", ink, Wording.headline(pack, advice), ink);
    String why =
        advice.reasons().stream()
            .map(Reason::words)
            .filter(words -> !Dangers.says(answer, words))
            .distinct()
            .map(words -> Wording.plain(words) + (isWorth(words) ? worth() : ""))
            .collect(Collectors.joining("; "));
    page.labelled("why", Ink.PLAIN, why.isEmpty() ? "see above" : why);
    for (FactId fact : advice.about()) {
      page.labelled("about", Ink.PLAIN, Wording.fact(pack, answer, fact));
    }
    for (ConsentId consent : advice.consents()) {
      page.labelled("ask", Ink.STRONG, pack.consents().getOrDefault(consent, consent.value()));
    }
    Optional<Step> step = advice.step().map(id -> pack.steps().get(id));
    writeTime(step);
    if (step.isPresent() && !advice.turns().isEmpty()) {
      page.labelled("first", Ink.STRONG, Wording.turns(pack, advice.turns()));
    }
    step.ifPresent(this::writeTools);
    for (CautionId caution : advice.cautions()) {
      page.labelled("CAUTION", Ink.CAUTION, pack.cautions().get(caution).text());
    }
    step.ifPresent(this::writeLimits);
    step.ifPresent(this::writeHow);
    step.ifPresent(this::writeOutcomes);
    step.flatMap(Step::thenRepeat).ifPresent(this::writeThen);
  }

  private boolean isWorth(String words) {
    return advice.reasons().stream()
        .anyMatch(r -> r.why() == Reason.Why.WORTH && r.words().equals(words));
  }

  /** What a test costs and saves, in money, since that is what was weighed. */
  private String worth() {
    Optional<Considered> considered =
        advice
            .step()
            .flatMap(id -> answer.steps().stream().filter(c -> c.step().equals(id)).findFirst());
    if (considered.isEmpty()
        || considered.get().worth().isEmpty()
        || considered.get().cost().isEmpty()) {
      return "";
    }
    double cost = considered.get().cost().getAsDouble();
    double saves = considered.get().worth().getAsDouble() + cost;
    return ": costs about " + Figures.money(cost) + ", saves about " + Figures.money(saves);
  }

  private void writeTime(Optional<Step> step) {
    Effort turns = Wording.effort(pack, advice.turns());
    boolean turning = !turns.equals(Effort.NONE);
    if (step.isPresent()) {
      page.labelled(
          "time",
          Ink.PLAIN,
          Figures.time(step.get().effort())
              + (turning ? "; getting ready " + Figures.time(turns) : ""));
    } else if (turning) {
      page.labelled("time", Ink.PLAIN, Figures.time(turns));
    }
  }

  private void writeTools(Step step) {
    List<String> tools = new ArrayList<>();
    step.conditions().tools().forEach(t -> tools.add(Wording.brief(pack.tools().get(t))));
    if (!tools.isEmpty()) {
      page.labelled("tools", Ink.PLAIN, String.join("; ", tools));
    }
    step.swap()
        .map(swap -> pack.parts().get(swap.part()))
        .ifPresent(
            part -> {
              page.labelled(
                  "part",
                  Ink.PLAIN,
                  part.title()
                      + (part.price().isPresent()
                          ? ", cost " + Figures.money(part.price().getAsDouble())
                          : "")
                      + part.leadTime()
                          .map(t -> ", takes " + Figures.time(t) + " to come")
                          .orElse(""));
              part.leaves().ifPresent(words -> page.labelled("note", Ink.PLAIN, words));
              part.afterwards().ifPresent(words -> page.labelled("after", Ink.PLAIN, words));
            });
  }

  private void writeLimits(Step step) {
    for (Limit limit : step.limits()) {
      page.labelled(
          "AT MOST",
          Ink.CAUTION,
          limit.most()
              + limit.rail().map(rail -> " on: " + pack.rails().get(rail).title()).orElse(""));
    }
  }

  private void writeHow(Step step) {
    if (!step.how().isEmpty()) {
      page.labelled("how", Ink.PLAIN, step.how());
    }
    step.pinTable()
        .ifPresent(
            table -> {
              table.leads().ifPresent(l -> page.labelled("leads", Ink.PLAIN, l.replace('-', ' ')));
              table
                  .instrument()
                  .map(id -> pack.instruments().get(id))
                  .ifPresent(i -> page.labelled("with", Ink.PLAIN, i.title()));
              table.points().forEach(this::writePoint);
            });
  }

  private void writePoint(Point point) {
    page.labelled(
        "read",
        Ink.PLAIN,
        point.title()
            + point.pin().map(pin -> " (pin " + pin + ")").orElse("")
            + ": normal "
            + normal(point.reference()));
  }

  private static String normal(Reference reference) {
    if (reference instanceof Reference.Around r) {
      return quantity(r.nominal() - r.tolerance(), r)
          + " to "
          + quantity(r.nominal() + r.tolerance(), r);
    } else if (reference instanceof Reference.Within r) {
      if (r.low().isEmpty()) {
        return "at most " + quantity(r.high().getAsDouble(), r);
      }
      String low = quantity(r.low().getAsDouble(), r);
      return r.high().isEmpty()
          ? "at least " + low
          : low + " to " + quantity(r.high().getAsDouble(), r);
    }
    return "OL (over-range)";
  }

  private static String quantity(double si, Reference reference) {
    return new Quantity(si, reference.dimension()).format(SIGNIFICANT_DIGITS);
  }

  private void writeOutcomes(Step step) {
    Map<OutcomeId, Double> outcomes =
        answer.steps().stream()
            .filter(c -> c.step().equals(step.id()))
            .findFirst()
            .map(Considered::outcomes)
            .orElse(Map.of());
    if (!outcomes.isEmpty()) {
      page.labelled(
          "expect",
          Ink.PLAIN,
          outcomes.entrySet().stream()
              .sorted(Map.Entry.comparingByValue(Comparator.reverseOrder()))
              .map(o -> outcome(o.getKey()) + " " + Figures.percent(o.getValue()))
              .collect(Collectors.joining(", ")));
    }
  }

  /** Locating steps call their outcomes by the ids of causes. */
  private String outcome(OutcomeId outcome) {
    return FactWords.of(outcome);
  }

  private void writeThen(StepId then) {
    page.labelled("then", Ink.PLAIN, pack.steps().get(then).title());
  }
}
