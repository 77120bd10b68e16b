package org.faultwright.casefile;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Collectors;
import org.faultwright.measurement.Dimension;
import org.faultwright.measurement.Quantity;
import org.faultwright.measurement.ReadingValue;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Point;
import org.faultwright.pack.PointId;
import org.faultwright.pack.Switch;

/**
 * Writes cases of format 1, so that {@link CaseReader} reads the same case back; only the numbers
 * of facts are not kept, since they count the facts of the file. Each fact takes one line, and
 * facts come last unless something is expected: a further fact can be put behind the text.
 * Immutable, and safe for use by several threads.
 */
public final class CaseWriter {

  /** What stands before a fact in the list of facts. */
  private static final String ITEM = "  - ";

  private final Pack pack;

  /** A writer of cases for one pack. */
  public CaseWriter(Pack pack) {
    this.pack = pack;
  }

  /**
   * The text of a case, with a line feed at its end.
   *
   * @throws IllegalArgumentException when it speaks of what the pack does not have
   */
  public String write(CaseFile c) {
    Lines lines = new Lines();
    lines.key(CaseKeys.CASE.name(), c.name());
    lines.key(CaseKeys.FORMAT.name(), "1");
    c.title().ifPresent(title -> lines.key(CaseKeys.TITLE.name(), quoted(title)));
    lines.key(
        CaseKeys.PACK.name(), c.pack() + c.packVersion().map(version -> "@" + version).orElse(""));
    writeIntake(lines, c.intake());
    c.expectation().ifPresent(e -> writeExpectation(lines, e));
    if (!c.facts().isEmpty()) {
      lines.add(FactForms.FACTS + ":");
      for (int i = 0; i < c.facts().size(); ) {
        int end = i + 1;
        while (end < c.facts().size() && isOneTable(c.facts().get(i), c.facts().get(end))) {
          end++;
        }
        List<Told> together = c.facts().subList(i, end);
        lines.add(ITEM + (together.size() == 1 ? fact(together.get(0)) : table(together)));
        i = end;
      }
    }
    return lines.text();
  }

  /**
   * One fact on one line, as in {@code {outcome: bend-check, is: drops-out}}.
   *
   * @throws IllegalArgumentException when it speaks of what the pack does not have
   */
  public String fact(Told told) {
    Map<String, String> keys = keys(told.fact());
    told.label().ifPresent(label -> keys.put("label", label));
    return flow(keys);
  }

  /** Only the facts of one pin table have one label. */
  private static boolean isOneTable(Told one, Told other) {
    return one.label().isPresent()
        && one.label().equals(other.label())
        && one.fact() instanceof Fact.ReadingTaken
        && other.fact() instanceof Fact.ReadingTaken;
  }

  private String table(List<Told> readings) {
    Map<String, String> keys = new LinkedHashMap<>();
    Map<String, String> values = new LinkedHashMap<>();
    Fact.ReadingTaken first = (Fact.ReadingTaken) readings.get(0).fact();
    keys.put("pins", stepOf(first.point()));
    for (Told told : readings) {
      Fact.ReadingTaken reading = (Fact.ReadingTaken) told.fact();
      values.put(reading.point().value(), value(reading));
    }
    keys.put("values", flow(values));
    keys.put("turned", "no");
    putSetup(keys, first.setup());
    keys.put("label", readings.get(0).label().orElseThrow());
    return flow(keys);
  }

  private String stepOf(PointId point) {
    return pack.steps().values().stream()
        .filter(
            s ->
                s.pinTable().stream()
                    .flatMap(t -> t.points().stream())
                    .anyMatch(p -> p.id().equals(point)))
        .map(s -> s.id().value())
        .findFirst()
        .orElseThrow(() -> new IllegalArgumentException("point must be one of the pack: " + point));
  }

  private static void writeIntake(Lines lines, Intake intake) {
    intake.board().ifPresent(board -> lines.key(CaseKeys.BOARD.name(), board.value()));
    lines.key(CaseKeys.GOAL.name(), word(intake.goal()));
    lines.list(CaseKeys.CONSENT.name(), intake.consented());
    lines.list(CaseKeys.REFUSED.name(), intake.refused());
    intake.ceiling().ifPresent(money -> lines.key(CaseKeys.CEILING.name(), number(money)));
    intake.deviceValue().ifPresent(money -> lines.key(CaseKeys.DEVICE_VALUE.name(), number(money)));
    intake.dataValue().ifPresent(money -> lines.key(CaseKeys.DATA_VALUE.name(), number(money)));
    if (intake.irreplaceableData()) {
      lines.key(CaseKeys.IRREPLACEABLE.name(), "yes");
    }
    lines.list(CaseKeys.LACKS.name(), intake.lacking());
    lines.key(CaseKeys.SKILL.name(), word(intake.skill()));
  }

  private static void writeExpectation(Lines lines, Expectation e) {
    lines.add(CaseKeys.EXPECT.name() + ":");
    Lines inner = new Lines();
    e.leads().ifPresent(cause -> inner.key(CaseKeys.LEADS.name(), cause.value()));
    inner.bounds(CaseKeys.AT_LEAST.name(), e.atLeast());
    inner.bounds(CaseKeys.AT_MOST.name(), e.atMost());
    e.advice().ifPresent(advice -> inner.key(CaseKeys.ADVICE.name(), advice));
    if (e.impossible()) {
      inner.key(CaseKeys.IMPOSSIBLE.name(), "yes");
    }
    inner.list(CaseKeys.BLOCKED.name(), e.blocked());
    inner.list(CaseKeys.HOLDS.name(), e.holds());
    e.decisive().ifPresent(label -> inner.key(CaseKeys.DECISIVE.name(), label));
    inner.all.forEach(line -> lines.add("  " + line));
  }

  private Map<String, String> keys(Fact fact) {
    Map<String, String> keys = new LinkedHashMap<>();
    if (fact instanceof Fact.Complained f) {
      keys.put("complaint", f.complaint().value());
      if (!f.reported()) {
        keys.put("is", "denied");
      }
    } else if (fact instanceof Fact.SymptomNoted f) {
      keys.put("symptom", f.symptom().value());
      keys.put("is", word(f.value()));
    } else if (fact instanceof Fact.HistorySaid f) {
      keys.put("history", f.history().value());
      keys.put("said", yesOrNo(f.happened()));
    } else if (fact instanceof Fact.HistorySeen f) {
      keys.put("history", f.history().value());
      keys.put("seen", yesOrNo(f.traces()));
    } else if (fact instanceof Fact.OutcomeSeen f) {
      keys.put("outcome", f.step().value());
      keys.put("is", f.outcome().value());
    } else if (fact instanceof Fact.CouldNotDo f) {
      keys.put("outcome", f.step().value());
      keys.put("is", FactForms.COULD_NOT_DO);
      if (!f.why().isEmpty()) {
        keys.put("why", quoted(f.why()));
      }
    } else if (fact instanceof Fact.ReadingTaken f) {
      putReading(keys, f);
    } else if (fact instanceof Fact.StepDone f) {
      keys.put("did", f.step().value());
      f.part().ifPresent(part -> keys.put("part", part(part)));
    } else if (fact instanceof Fact.BenchSet f) {
      Switch s = pack.switches().get(f.state().of());
      if (s == null) {
        throw new IllegalArgumentException("switch must be one of the pack: " + f.state().of());
      }
      keys.put("bench", (f.state().on() ? s.id() : s.offCalled()).value());
    } else if (fact instanceof Fact.ConsentAnswered f) {
      keys.put("consent", f.consent().value());
      keys.put("given", yesOrNo(f.given()));
    } else if (fact instanceof Fact.Checked f) {
      keys.put("check", f.function());
      keys.put("is", word(f.result()));
      keys.put("at", f.atEnd() ? "end" : "intake");
    } else if (fact instanceof Fact.Noted f) {
      keys.put("note", quoted(f.text()));
    }
    return keys;
  }

  private void putReading(Map<String, String> keys, Fact.ReadingTaken reading) {
    keys.put("reading", reading.point().value());
    keys.put(reading.value() instanceof ReadingValue.Named ? "is" : "value", value(reading));
    if (reading.uncertainty().isPresent()) {
      Quantity u =
          new Quantity(
              reading.uncertainty().getAsDouble(), point(reading.point()).reference().dimension());
      keys.put("uncertainty", u.toString());
    }
    putSetup(keys, reading.setup());
  }

  private static String value(Fact.ReadingTaken reading) {
    return reading.value().toString();
  }

  private static void putSetup(Map<String, String> keys, Fact.Setup setup) {
    setup.leads().ifPresent(leads -> keys.put("leads", quoted(leads)));
    setup.instrument().ifPresent(i -> keys.put("instrument", i.value()));
    if (setup.knownGood()) {
      keys.put("on", "known-good");
    }
    setup.board().ifPresent(b -> keys.put("board", b.value()));
    if (setup.celsius().isPresent()) {
      keys.put(
          "temperature",
          new Quantity(setup.celsius().getAsDouble(), Dimension.TEMPERATURE).toString());
    }
  }

  private Point point(PointId id) {
    return pack.steps().values().stream()
        .flatMap(s -> s.pinTable().stream())
        .flatMap(t -> t.points().stream())
        .filter(p -> p.id().equals(id))
        .findFirst()
        .orElseThrow(() -> new IllegalArgumentException("point must be one of the pack: " + id));
  }

  private static String part(Fact.PartUsed part) {
    Map<String, String> keys = new LinkedHashMap<>();
    part.grade().ifPresent(grade -> keys.put("grade", quoted(grade)));
    part.batch().ifPresent(batch -> keys.put("batch", quoted(batch)));
    return flow(keys);
  }

  private static String flow(Map<String, String> keys) {
    return keys.entrySet().stream()
        .map(e -> e.getKey() + ": " + e.getValue())
        .collect(Collectors.joining(", ", "{", "}"));
  }

  private static String yesOrNo(boolean yes) {
    return yes ? "yes" : "no";
  }

  private static String word(Enum<?> value) {
    return value.name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  private static String number(double value) {
    return BigDecimal.valueOf(value).stripTrailingZeros().toPlainString();
  }

  /** In double quotes, where every sign can be written (YAML 1.2, section 7.3.1). */
  private static String quoted(String text) {
    StringBuilder quoted = new StringBuilder("\"");
    for (int i = 0; i < text.length(); i++) {
      char c = text.charAt(i);
      if (c == '"' || c == '\\') {
        quoted.append('\\').append(c);
      } else if (c >= ' ' && c < 0x7f || c >= 0xa0 && !isUnsafe(c)) {
        quoted.append(c);
      } else {
        quoted.append(String.format(Locale.ROOT, "\\u%04x", (int) c));
      }
    }
    return quoted.append('"').toString();
  }

  /** Line ends of Unicode, the mark of byte order, and half characters. */
  private static boolean isUnsafe(char c) {
    return c == '\u2028' || c == '\u2029' || c == '\ufeff' || c >= '\ufffe';
  }

  /** Lines of a block of keys. */
  private static final class Lines {
    private final List<String> all = new ArrayList<>();

    void add(String line) {
      all.add(line);
    }

    void key(String key, String value) {
      all.add(key + ": " + value);
    }

    void list(String key, Collection<?> items) {
      if (!items.isEmpty()) {
        key(key, items.stream().map(Object::toString).collect(Collectors.joining(", ", "[", "]")));
      }
    }

    void bounds(String key, Map<CauseId, Double> bounds) {
      if (!bounds.isEmpty()) {
        Map<String, String> written = new LinkedHashMap<>();
        bounds.forEach((cause, p) -> written.put(cause.value(), number(p)));
        key(key, flow(written));
      }
    }

    String text() {
      return String.join("\n", all) + "\n";
    }
  }
}
