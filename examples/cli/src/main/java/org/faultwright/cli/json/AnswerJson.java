package org.faultwright.cli.json;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.util.Collection;
import java.util.List;
import java.util.Optional;
import org.faultwright.casefile.Fact;
import org.faultwright.cli.text.BranchesText.Branch;
import org.faultwright.diagnosis.Answer;
import org.faultwright.diagnosis.Scrutiny;
import org.faultwright.explanation.FactWords;
import org.faultwright.explanation.WhyCause;
import org.faultwright.pack.Pack;

/** Writes answers as JSON, format {@value #FORMAT}. */
public final class AnswerJson {

  /** The format's number; it grows when a key changes its meaning or goes away. */
  public static final int FORMAT = 1;

  private final Pack pack;

  /** Writes answers about devices of this pack. */
  public AnswerJson(Pack pack) {
    this.pack = pack;
  }

  /**
   * Writes one answer.
   *
   * @param why causes that are explained
   * @param scrutiny a closer look; empty where nothing ranks
   */
  public void write(
      PrintWriter out, Answer answer, List<WhyCause> why, Optional<Scrutiny> scrutiny) {
    print(
        out,
        json -> {
          json.writeNumberField("format", FORMAT);
          writePack(json);
          new AnswerFields(json, pack, answer).write(why);
          if (scrutiny.isPresent()) {
            json.writeObjectFieldStart("scrutiny");
            new ScrutinyFields(json, pack).write(scrutiny.get());
            json.writeEndObject();
          }
        });
  }

  /** Writes a case as it is, and beside it the same case with more facts supposed. */
  public void writeSupposed(
      PrintWriter out, Answer now, Collection<? extends Fact> facts, Answer then) {
    print(
        out,
        json -> {
          json.writeNumberField("format", FORMAT);
          writePack(json);
          json.writeArrayFieldStart("supposed");
          for (Fact fact : facts) {
            json.writeString(FactWords.of(pack, fact));
          }
          json.writeEndArray();
          json.writeObjectFieldStart("now");
          new AnswerFields(json, pack, now).write(List.of());
          json.writeEndObject();
          json.writeObjectFieldStart("then");
          new AnswerFields(json, pack, then).write(List.of());
          json.writeEndObject();
        });
  }

  /** Writes a case as it is, and as it would be in each of several branches. */
  public void writeBranches(PrintWriter out, Answer now, List<Branch> branches) {
    print(
        out,
        json -> {
          json.writeNumberField("format", FORMAT);
          writePack(json);
          writeBranchFields(json, now, branches);
        });
  }

  /** The keys of an answer, into an object that is open. */
  public void writeFields(JsonGenerator json, Answer answer, List<WhyCause> why)
      throws IOException {
    new AnswerFields(json, pack, answer).write(why);
  }

  /** The explanation of a cause, as an object. */
  public void writeWhy(JsonGenerator json, WhyCause why) throws IOException {
    new WhyFields(json, pack).write(why);
  }

  /** The keys {@code now} and {@code branches}, into an object that is open. */
  public void writeBranchFields(JsonGenerator json, Answer now, List<Branch> branches)
      throws IOException {
    json.writeObjectFieldStart("now");
    writeFields(json, now, List.of());
    json.writeEndObject();
    json.writeArrayFieldStart("branches");
    for (Branch branch : branches) {
      json.writeStartObject();
      json.writeArrayFieldStart("supposed");
      for (Fact fact : branch.facts()) {
        json.writeString(FactWords.of(pack, fact));
      }
      json.writeEndArray();
      json.writeObjectFieldStart("then");
      writeFields(json, branch.answer(), List.of());
      json.writeEndObject();
      json.writeEndObject();
    }
    json.writeEndArray();
  }

  /** The key {@code pack}, into an object that is open. */
  public void writePack(JsonGenerator json) throws IOException {
    json.writeObjectFieldStart("pack");
    json.writeStringField("id", pack.id().toString());
    json.writeStringField("version", pack.version());
    json.writeStringField("title", pack.title());
    json.writeBooleanField("invented", pack.invented());
    json.writeEndObject();
  }

  /** What is written between the outermost braces. */
  interface Body {
    void write(JsonGenerator json) throws IOException;
  }

  /** Builds the whole text first, so that a failure leaves nothing half written. */
  static void print(PrintWriter out, Body body) {
    StringWriter text = new StringWriter();
    try (JsonGenerator json = new JsonFactory().createGenerator(text)) {
      json.useDefaultPrettyPrinter();
      json.writeStartObject();
      body.write(json);
      json.writeEndObject();
    } catch (IOException e) { // a StringWriter has no reason to
      throw new UncheckedIOException(e);
    }
    out.println(text);
  }
}
