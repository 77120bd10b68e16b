package org.faultwright.cli.converse;

import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.faultwright.casefile.CaseFile;
import org.faultwright.casefile.CaseReader;
import org.faultwright.casefile.CaseReading;
import org.faultwright.casefile.CaseWriter;
import org.faultwright.casefile.Fact;
import org.faultwright.casefile.FactId;
import org.faultwright.casefile.JudgedReading;
import org.faultwright.casefile.Told;
import org.faultwright.cli.converse.Conversation.Body;
import org.faultwright.cli.converse.Refused.Kind;
import org.faultwright.cli.json.AnswerJson;
import org.faultwright.cli.json.ReadingFields;
import org.faultwright.cli.text.BranchesText.Branch;
import org.faultwright.compile.CompilationProblems;
import org.faultwright.diagnosis.Answer;
import org.faultwright.diagnosis.Diagnosis;
import org.faultwright.diagnosis.Engine;
import org.faultwright.explanation.FactWords;
import org.faultwright.explanation.WhyCause;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.Id;
import org.faultwright.pack.Pack;
import org.faultwright.pack.PackId;
import org.faultwright.pack.check.Positions;
import org.faultwright.pack.reader.PackLibrary;
import org.faultwright.pack.reader.PackReading;
import org.faultwright.pack.yaml.YamlText;
import org.faultwright.problem.Nearest;
import org.faultwright.problem.Problem;

/** What can be asked for, and the case that it is asked about. */
final class Requests implements AutoCloseable {

  private static final String FACTS = "facts";
  private static final String CASE = "case";

  private final Engine engine;
  private final PackLibrary library;
  private final Map<String, Handler> handlers = new LinkedHashMap<>();
  private final Map<PackId, Pack> packs = new LinkedHashMap<>();
  private Optional<Diagnosis> open = Optional.empty();
  private boolean over;

  private interface Handler {
    Body answer(Request request) throws Refused;
  }

  Requests(Engine engine, PackLibrary library, Optional<Pack> own) {
    this.engine = engine;
    this.library = library;
    own.ifPresent(pack -> packs.put(pack.id(), pack));
    handlers.put("packs", this::packs);
    handlers.put("open", this::open);
    handlers.put("tell", this::tell);
    handlers.put("withdraw", this::withdraw);
    handlers.put("answer", this::answerNow);
    handlers.put("why", this::why);
    handlers.put("suppose", this::suppose);
    handlers.put("save", this::save);
    handlers.put("close", this::closeCase);
    handlers.put("end", this::end);
  }

  /** Whether the other side has ended the conversation. */
  boolean isOver() {
    return over;
  }

  /**
   * Does what is asked.
   *
   * @throws Refused when that cannot be done; then nothing has changed
   */
  Body answer(Request request) throws Refused {
    String ask = request.text("ask");
    Handler handler = handlers.get(ask);
    if (handler == null) {
      throw new Refused(
          Kind.UNKNOWN_REQUEST,
          "nothing is done for '"
              + ask
              + "'; "
              + Nearest.of(ask, handlers.keySet())
                  .map(n -> "did you mean '" + n + "'?")
                  .orElse("ask for one of: " + String.join(", ", handlers.keySet())));
    }
    return handler.answer(request);
  }

  private Body packs(Request request) throws Refused {
    request.allowOnly(List.of());
    List<PackLibrary.Listed> all = library.list();
    return json -> {
      json.writeArrayFieldStart("packs");
      for (PackLibrary.Listed pack : all) {
        json.writeStartObject();
        json.writeStringField("id", pack.id().toString());
        if (pack.version().isPresent()) {
          json.writeStringField("version", pack.version().get());
        }
        if (pack.title().isPresent()) {
          json.writeStringField("title", pack.title().get());
        }
        json.writeEndObject();
      }
      json.writeEndArray();
    };
  }

  private Body open(Request request) throws Refused {
    request.allowOnly(List.of(CASE));
    if (open.isPresent()) {
      throw new Refused(Kind.BAD_VALUE, "a case is open; close it first");
    }
    JsonNode value =
        request
            .value(CASE)
            .orElseThrow(() -> new Refused(Kind.MISSING_KEY, "the request needs 'case'"));
    if (!value.isTextual() && !value.isObject()) {
      throw new Refused(
          Kind.BAD_VALUE, "'case' must be the text of a case file, or an object with its keys");
    }
    // JSON is YAML as well, so that the one reader reads both
    YamlText text = YamlText.of(CASE, value.isTextual() ? value.asText() : value.toString());
    CaseReading reading = read(text);
    if (!(reading instanceof CaseReading.Readable readable)) {
      throw new Refused(Kind.BAD_CASE, "the case cannot be used", reading.problems());
    }
    Optional<Problem> unusable =
        CompilationProblems.of(
            engine.compile(readable.pack()),
            readable.pack(),
            Positions.none("pack " + readable.pack().id()));
    if (unusable.isPresent()) {
      throw new Refused(
          Kind.BAD_CASE, "its pack cannot be diagnosed with", List.of(unusable.get()));
    }
    open = Optional.of(engine.resume(readable.pack(), readable.caseFile()));
    return json -> {
      new AnswerJson(readable.pack()).writePack(json);
      json.writeStringField(CASE, readable.caseFile().name());
      writeFacts(json, readable.pack(), readable.caseFile().facts());
    };
  }

  /** Each pack is read once, so that it is compiled once. */
  private CaseReading read(YamlText text) {
    Optional<PackId> id = CaseReader.packNamedIn(text);
    if (id.isEmpty()) {
      return CaseReader.read(text, library);
    }
    Optional<Pack> known = Optional.ofNullable(packs.get(id.get()));
    if (known.isEmpty()) {
      known =
          library
              .read(id.get())
              .filter(PackReading.Readable.class::isInstance)
              .map(r -> ((PackReading.Readable) r).pack());
      known.ifPresent(pack -> packs.put(pack.id(), pack));
    }
    return known
        .map(pack -> new CaseReader(pack).read(text))
        .orElseGet(() -> CaseReader.read(text, library));
  }

  private Diagnosis opened() throws Refused {
    return open.orElseThrow(() -> new Refused(Kind.NO_CASE, "no case is open; ask for 'open'"));
  }

  private Body tell(Request request) throws Refused {
    request.allowOnly(List.of(FACTS));
    Diagnosis diagnosis = opened();
    List<Fact> facts = facts(diagnosis.pack(), request.list(FACTS), FACTS);
    int before = diagnosis.caseFile().facts().size();
    facts.forEach(diagnosis::tell);
    List<Told> all = diagnosis.caseFile().facts();
    List<Told> told = all.subList(before, all.size());
    return json -> writeFacts(json, diagnosis.pack(), told);
  }

  /** Facts in the keys of a case file. */
  private static List<Fact> facts(Pack pack, List<JsonNode> written, String key) throws Refused {
    StringBuilder text =
        new StringBuilder("case: told\nformat: 1\npack: " + pack.id() + "\nfacts:\n");
    written.forEach(fact -> text.append("  - ").append(fact).append('\n'));
    CaseReading reading = new CaseReader(pack).read(YamlText.of(key, text.toString()));
    if (reading instanceof CaseReading.Readable readable) { // a pin table is several facts
      return readable.caseFile().facts().stream().map(Told::fact).toList();
    }
    throw new Refused(Kind.BAD_FACT, "nothing was told", reading.problems());
  }

  private Body withdraw(Request request) throws Refused {
    request.allowOnly(List.of("fact"));
    Diagnosis diagnosis = opened();
    FactId id = new FactId(request.number("fact"));
    CaseFile known = diagnosis.caseFile();
    List<Told> out = known.facts().stream().filter(t -> t.id().equals(id)).toList();
    if (out.isEmpty()) {
      throw new Refused(Kind.BAD_VALUE, "the case has no fact " + id.number());
    }
    diagnosis.withdraw(id);
    return json -> writeFacts(json, diagnosis.pack(), out);
  }

  private Body answerNow(Request request) throws Refused {
    request.allowOnly(List.of(Parts.KEY));
    Diagnosis diagnosis = opened();
    Answer answer = diagnosis.answer();
    Parts parts = Parts.wanted(request, diagnosis.pack(), answer);
    return json -> {
      json.writeFieldName("answer");
      parts.write(json, answer);
    };
  }

  private Body why(Request request) throws Refused {
    request.allowOnly(List.of("cause"));
    Diagnosis diagnosis = opened();
    Pack pack = diagnosis.pack();
    String name = request.text("cause");
    if (!Id.isWellSpelt(name) || !pack.causes().containsKey(new CauseId(name))) {
      throw new Refused(
          Kind.BAD_VALUE,
          "the pack has no cause '"
              + name
              + "'"
              + Nearest.of(name, pack.causes().keySet().stream().map(CauseId::value).toList())
                  .map(n -> "; did you mean '" + n + "'?")
                  .orElse(""));
    }
    if (diagnosis.answer().posterior().isEmpty()) {
      throw new Refused(Kind.NO_RANKING, "nothing ranks, so no cause can be explained");
    }
    WhyCause why = diagnosis.why(new CauseId(name));
    return json -> {
      json.writeFieldName("why");
      new AnswerJson(pack).writeWhy(json, why);
    };
  }

  private Body suppose(Request request) throws Refused {
    request.allowOnly(List.of("branches", Parts.KEY));
    Diagnosis diagnosis = opened();
    List<List<Fact>> sides = new ArrayList<>();
    for (JsonNode branch : request.list("branches")) {
      if (!branch.isArray() || branch.isEmpty()) {
        throw new Refused(Kind.BAD_VALUE, "each of 'branches' must be a list of facts");
      }
      List<JsonNode> written = new ArrayList<>();
      branch.forEach(written::add);
      sides.add(facts(diagnosis.pack(), written, "branches"));
    }
    Answer now = diagnosis.answer();
    List<Branch> branches = new ArrayList<>();
    sides.forEach(facts -> branches.add(new Branch(facts, diagnosis.suppose(facts))));
    Parts parts = Parts.wanted(request, diagnosis.pack(), now);
    return json -> {
      json.writeFieldName("now");
      parts.write(json, now);
      json.writeArrayFieldStart("branches");
      for (Branch branch : branches) {
        json.writeStartObject();
        json.writeArrayFieldStart("supposed");
        for (Fact fact : branch.facts()) {
          json.writeString(FactWords.of(diagnosis.pack(), fact));
        }
        json.writeEndArray();
        json.writeFieldName("then");
        parts.write(json, branch.answer());
        json.writeEndObject();
      }
      json.writeEndArray();
    };
  }

  private Body save(Request request) throws Refused {
    request.allowOnly(List.of());
    Diagnosis diagnosis = opened();
    String text = new CaseWriter(diagnosis.pack()).write(diagnosis.caseFile());
    return json -> json.writeStringField(CASE, text);
  }

  private Body closeCase(Request request) throws Refused {
    request.allowOnly(List.of());
    opened();
    close();
    return json -> {};
  }

  private Body end(Request request) throws Refused {
    request.allowOnly(List.of());
    over = true;
    return json -> {};
  }

  private void writeFacts(JsonGenerator json, Pack pack, List<Told> facts) throws IOException {
    json.writeArrayFieldStart(FACTS);
    for (Told told : facts) {
      json.writeStartObject();
      json.writeNumberField("fact", told.id().number());
      json.writeStringField("words", FactWords.of(pack, told.fact()));
      Optional<JudgedReading> reading = JudgedReading.of(pack, told, engine.shop().guardBand());
      if (reading.isPresent()) {
        new ReadingFields(json).write(reading.get());
      }
      json.writeEndObject();
    }
    json.writeEndArray();
  }

  @Override
  public void close() {
    open.ifPresent(Diagnosis::close);
    open = Optional.empty();
  }
}
