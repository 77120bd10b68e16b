package org.faultwright.cli.converse;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.InputStream;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.util.Optional;
import org.faultwright.cli.converse.Refused.Kind;
import org.faultwright.diagnosis.Engine;
import org.faultwright.pack.Pack;
import org.faultwright.pack.reader.PackLibrary;
import org.faultwright.problem.Problem;

/**
 * Answers requests line by line until there are no more. A request that fails leaves everything as
 * it was. Confined to one thread.
 */
public final class Conversation implements AutoCloseable {

  private static final ObjectMapper MAPPER = new ObjectMapper();

  private final Requests requests;

  /**
   * A conversation about cases of these packs.
   *
   * @param own a pack that stands before one of the same name in the library
   */
  public Conversation(Engine engine, PackLibrary library, Optional<Pack> own) {
    this.requests = new Requests(engine, library, own);
  }

  /** What a request writes into its reply. */
  interface Body {
    void write(JsonGenerator json) throws IOException;
  }

  /**
   * Holds it: one reply for each line that is not blank, sent as soon as it is there.
   *
   * @param err where faults of our own leave their traces
   */
  public void hold(InputStream in, PrintWriter out, PrintWriter err) {
    RequestLines lines = new RequestLines(in);
    long number = 0;
    try {
      for (Optional<RequestLines.Line> line = lines.next();
          line.isPresent() && !requests.isOver();
          line = lines.next()) {
        number++;
        if (!(line.get() instanceof RequestLines.Line.Text t && t.text().isBlank())) {
          out.print(reply(number, line.get(), err) + "\n");
          out.flush();
        }
        if (requests.isOver()) {
          return;
        }
      }
    } catch (IOException e) {
      err.println("faultwright: standard input cannot be read: " + e.getMessage());
    }
  }

  private String reply(long number, RequestLines.Line line, PrintWriter err) {
    Optional<Request> request = Optional.empty();
    try {
      request = Optional.of(parse(line));
      Body body = requests.answer(request.get());
      return write(number, request, true, body);
    } catch (Refused e) {
      return write(number, request, false, json -> writeError(json, e));
    } catch (RuntimeException e) {
      err.println("faultwright: a fault of our own at line " + number + "; please report it.");
      e.printStackTrace(err);
      err.flush();
      Refused fault = new Refused(Kind.OWN_FAULT, "a fault of our own: " + e);
      return write(number, request, false, json -> writeError(json, fault));
    }
  }

  private static Request parse(RequestLines.Line line) throws Refused {
    if (line instanceof RequestLines.Line.Text text) {
      return Request.parse(text.text());
    } else if (line instanceof RequestLines.Line.TooLong) {
      throw new Refused(
          Kind.TOO_LONG, "the line has more than " + RequestLines.MOST_BYTES + " bytes");
    }
    throw new Refused(Kind.NOT_TEXT, "the line is no UTF-8");
  }

  private static String write(long number, Optional<Request> request, boolean ok, Body body) {
    StringWriter text = new StringWriter();
    try (JsonGenerator json = new JsonFactory().setCodec(MAPPER).createGenerator(text)) {
      json.writeStartObject();
      json.writeNumberField("line", number);
      if (request.flatMap(Request::id).isPresent()) {
        json.writeFieldName("id");
        json.writeTree(request.flatMap(Request::id).get());
      }
      json.writeBooleanField("ok", ok);
      body.write(json);
      json.writeEndObject();
    } catch (IOException e) { // a StringWriter has no reason to
      throw new java.io.UncheckedIOException(e);
    }
    return text.toString();
  }

  private static void writeError(JsonGenerator json, Refused e) throws IOException {
    json.writeObjectFieldStart("error");
    json.writeStringField("kind", e.kind().word());
    json.writeStringField("words", e.getMessage());
    if (!e.problems().isEmpty()) {
      json.writeArrayFieldStart("problems");
      for (Problem problem : e.problems()) {
        json.writeStartObject();
        json.writeStringField("id", problem.id());
        json.writeStringField("words", problem.message());
        if (problem.wayOut().isPresent()) {
          json.writeStringField("wayOut", problem.wayOut().get());
        }
        json.writeEndObject();
      }
      json.writeEndArray();
    }
    json.writeEndObject();
  }

  @Override
  public void close() {
    requests.close();
  }
}
