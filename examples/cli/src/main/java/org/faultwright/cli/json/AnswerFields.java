package org.faultwright.cli.json;

import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.util.Collection;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.faultwright.casefile.FactId;
import org.faultwright.casefile.JudgedReading;
import org.faultwright.diagnosis.Answer;
import org.faultwright.diagnosis.Considered;
import org.faultwright.diagnosis.Outlook;
import org.faultwright.diagnosis.Posterior;
import org.faultwright.explanation.FactWords;
import org.faultwright.explanation.WhyCause;
import org.faultwright.pack.BenchState;
import org.faultwright.pack.CautionId;
import org.faultwright.pack.ComplaintId;
import org.faultwright.pack.ConsentId;
import org.faultwright.pack.Id;
import org.faultwright.pack.OutcomeId;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Step;
import org.faultwright.planning.Spend;
import org.faultwright.rules.Advice;
import org.faultwright.rules.Alarm;
import org.faultwright.rules.Blocked;
import org.faultwright.rules.Conflict;
import org.faultwright.rules.HoldInForce;
import org.faultwright.rules.Reason;
import org.faultwright.rules.Standing;

/** The keys of one answer. What is not known has no key, or is an empty list; never null. */
final class AnswerFields {

  private final JsonGenerator json;
  private final Pack pack;
  private final Answer answer;

  AnswerFields(JsonGenerator json, Pack pack, Answer answer) {
    this.json = json;
    this.pack = pack;
    this.answer = answer;
  }

  void write(List<WhyCause> why) throws IOException {
    json.writeStringField("case", answer.caseFile().name());
    writeOutlook();
    writeFacts();
    writeFindings();
    json.writeObjectFieldStart("advice");
    writeAdvice(answer.advice().primary());
    json.writeEndObject();
    json.writeArrayFieldStart("others");
    for (Advice other : answer.advice().others()) {
      json.writeStartObject();
      writeAdvice(other);
      json.writeEndObject();
    }
    json.writeEndArray();
    json.writeBooleanField("end", answer.isEnd());
    writeSteps();
    number("expectedCost", answer.expectedCost());
    number("expectedCostIfRefused", answer.ifRefused());
    json.writeNumberField("leftOut", answer.pLeftOut());
    json.writeArrayFieldStart("why");
    for (WhyCause w : why) {
      new WhyFields(json, pack).write(w);
    }
    json.writeEndArray();
  }

  private void writeOutlook() throws IOException {
    if (answer.outlook() instanceof Posterior posterior) {
      json.writeStringField("outlook", "ranked");
      json.writeArrayFieldStart("ranking");
      for (Posterior.Ranked r : posterior.ranking()) {
        json.writeStartObject();
        json.writeStringField("cause", r.cause().value());
        json.writeStringField("title", pack.causes().get(r.cause()).title());
        json.writeNumberField("probability", r.p());
        json.writeNumberField("probabilityAtIntake", r.pAtIntake());
        json.writeEndObject();
      }
      json.writeEndArray();
      json.writeArrayFieldStart("complaints");
      for (Map.Entry<ComplaintId, Double> lost : posterior.lost().entrySet()) {
        json.writeStartObject();
        json.writeStringField("complaint", lost.getKey().value());
        json.writeStringField("title", pack.complaints().get(lost.getKey()).title());
        json.writeNumberField("probabilityLost", lost.getValue());
        json.writeEndObject();
      }
      json.writeEndArray();
      json.writeNumberField("logEvidence", posterior.logPEvidence());
    } else if (answer.outlook() instanceof Outlook.ImpossibleEvidence impossible) {
      json.writeStringField("outlook", "impossible");
      facts("clash", impossible.clash());
    } else if (answer.outlook() instanceof Outlook.OverBudget wide) {
      json.writeStringField("outlook", "too-wide");
      json.writeNumberField("predictedEntries", wide.predicted());
      json.writeNumberField("allowedEntries", wide.budget());
    }
  }

  private void writeFacts() throws IOException {
    json.writeArrayFieldStart("facts");
    for (Standing s : answer.findings().standings()) {
      json.writeStartObject();
      json.writeNumberField("fact", s.id().number());
      if (s.told().label().isPresent()) {
        json.writeStringField("label", s.told().label().get());
      }
      json.writeStringField("words", FactWords.of(pack, s.told().fact()));
      json.writeBooleanField("counts", s.counts());
      json.writeStringField("standing", word(s.verdict()));
      strings("marks", s.marks().stream().map(AnswerFields::word).toList());
      strings("notes", s.words());
      Optional<JudgedReading> reading = answer.reading(s.id());
      if (reading.isPresent()) {
        new ReadingFields(json).write(reading.get());
      }
      json.writeEndObject();
    }
    json.writeEndArray();
  }

  private void writeFindings() throws IOException {
    json.writeArrayFieldStart("alarms");
    for (Alarm alarm : answer.findings().alarms()) {
      json.writeStartObject();
      json.writeStringField("hold", alarm.hold().value());
      json.writeStringField("words", alarm.words());
      json.writeStringField("endedBy", name(alarm.ends()));
      json.writeEndObject();
    }
    json.writeEndArray();
    json.writeArrayFieldStart("holds");
    for (HoldInForce h : answer.findings().holds()) {
      json.writeStartObject();
      json.writeStringField("hold", h.hold().id().value());
      json.writeStringField("words", h.hold().says());
      ids("forbids", h.hold().forbids());
      facts("facts", h.reasons());
      json.writeEndObject();
    }
    json.writeEndArray();
    json.writeArrayFieldStart("conflicts");
    for (Conflict conflict : answer.advice().conflicts()) {
      json.writeStartObject();
      json.writeStringField("kind", word(conflict.kind()));
      json.writeStringField("words", conflict.words());
      facts("facts", conflict.facts());
      json.writeEndObject();
    }
    json.writeEndArray();
    strings("bench", answer.findings().bench().stream().map(this::name).toList());
    json.writeBooleanField("closed", answer.findings().closed());
  }

  private void writeAdvice(Advice advice) throws IOException {
    json.writeStringField("kind", word(advice.kind()));
    if (advice.step().isPresent()) {
      Step step = pack.steps().get(advice.step().get());
      json.writeStringField("step", step.id().value());
      json.writeStringField("title", step.title());
      json.writeNumberField("handsMinutes", step.effort().handsMinutes());
      json.writeNumberField("waitMinutes", step.effort().waitMinutes());
    }
    json.writeArrayFieldStart("reasons");
    for (Reason reason : advice.reasons()) {
      json.writeStartObject();
      json.writeStringField("kind", word(reason.why()));
      json.writeStringField("words", reason.words());
      json.writeEndObject();
    }
    json.writeEndArray();
    strings("turns", advice.turns().stream().map(this::name).toList());
    cautions(advice.cautions());
    json.writeArrayFieldStart("consents");
    for (ConsentId consent : advice.consents()) {
      json.writeStartObject();
      json.writeStringField("consent", consent.value());
      json.writeStringField("words", pack.consents().getOrDefault(consent, consent.value()));
      json.writeEndObject();
    }
    json.writeEndArray();
    facts("about", advice.about());
    Optional<Spend> toTheEnd = answer.toTheEnd(advice);
    if (toTheEnd.isPresent()) {
      spend("toTheEnd", toTheEnd.get());
    }
    Optional<Spend> behind = answer.behind(advice);
    if (behind.isPresent() && !advice.equals(answer.advice().primary())) {
      spend("behind", behind.get());
    }
  }

  private void spend(String key, Spend spend) throws IOException {
    json.writeObjectFieldStart(key);
    json.writeNumberField("cost", spend.cost(answer.shop()));
    json.writeNumberField("handsMinutes", spend.hands());
    json.writeNumberField("waitMinutes", spend.waiting());
    json.writeNumberField("money", spend.money());
    json.writeNumberField("risk", spend.risk());
    json.writeEndObject();
  }

  private void writeSteps() throws IOException {
    json.writeArrayFieldStart("steps");
    for (Considered c : answer.steps()) {
      json.writeStartObject();
      json.writeStringField("step", c.step().value());
      json.writeStringField("title", pack.steps().get(c.step()).title());
      json.writeBooleanField("open", c.status().isOpen());
      json.writeArrayFieldStart("blocked");
      for (Blocked b : c.status().blocked()) {
        json.writeStartObject();
        writeBlocked(json, b);
        json.writeEndObject();
      }
      json.writeEndArray();
      strings("turns", c.status().turns().stream().map(this::name).toList());
      cautions(c.status().cautions());
      number("worth", c.worth());
      number("cost", c.cost());
      if (c.toTheEnd().isPresent()) {
        spend("toTheEnd", c.toTheEnd().get());
      }
      json.writeArrayFieldStart("outcomes");
      for (Map.Entry<OutcomeId, Double> o : c.outcomes().entrySet()) {
        json.writeStartObject();
        json.writeStringField("outcome", o.getKey().value());
        json.writeNumberField("probability", o.getValue());
        json.writeEndObject();
      }
      json.writeEndArray();
      json.writeEndObject();
    }
    json.writeEndArray();
  }

  /** One reason why a step is not open. */
  static void writeBlocked(JsonGenerator json, Blocked blocked) throws IOException {
    json.writeStringField("kind", word(blocked.kind()));
    json.writeStringField("words", blocked.words());
    json.writeStringField("wayOut", blocked.wayOut());
    if (blocked.consent().isPresent()) {
      json.writeStringField("consent", blocked.consent().get().value());
    }
  }

  private void cautions(Collection<CautionId> cautions) throws IOException {
    json.writeArrayFieldStart("cautions");
    for (CautionId caution : cautions) {
      json.writeStartObject();
      json.writeStringField("caution", caution.value());
      json.writeStringField("words", pack.cautions().get(caution).text());
      json.writeEndObject();
    }
    json.writeEndArray();
  }

  private void facts(String key, Collection<FactId> facts) throws IOException {
    json.writeArrayFieldStart(key);
    for (FactId fact : facts) {
      json.writeNumber(fact.number());
    }
    json.writeEndArray();
  }

  private void ids(String key, Collection<? extends Id> ids) throws IOException {
    strings(key, ids.stream().map(Id::value).toList());
  }

  private void strings(String key, Collection<String> strings) throws IOException {
    json.writeArrayFieldStart(key);
    for (String s : strings) {
      json.writeString(s);
    }
    json.writeEndArray();
  }

  private void number(String key, OptionalDouble number) throws IOException {
    if (number.isPresent()) {
      json.writeNumberField(key, number.getAsDouble());
    }
  }

  private String name(BenchState state) {
    return FactWords.of(pack, state).replace(' ', '-');
  }

  private static String word(Enum<?> value) {
    return value.name().toLowerCase(Locale.ROOT).replace('_', '-');
  }
}
