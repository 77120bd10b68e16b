package org.faultwright.cli.json;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.util.List;
import java.util.Optional;
import org.faultwright.casefile.PinTable;
import org.faultwright.diagnosis.PinReport;
import org.faultwright.measurement.ReadingValue;
import org.faultwright.measurement.table.TableProblem;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Point;

/** Writes pin tables as JSON, format {@value #FORMAT}. */
public final class PinsJson {

  /** The format's number; it grows when a key changes its meaning or goes away. */
  public static final int FORMAT = 1;

  private final JsonGenerator json;

  private PinsJson(JsonGenerator json) {
    this.json = json;
  }

  /** Writes a table; {@code noted} is the table of text that some of it comes from. */
  public static void write(PrintWriter out, Pack pack, PinReport report, Optional<PinTable> noted) {
    StringWriter text = new StringWriter();
    try (JsonGenerator json = new JsonFactory().createGenerator(text)) {
      json.useDefaultPrettyPrinter();
      new PinsJson(json).write(pack, report, noted);
    } catch (IOException e) { // a StringWriter has no reason to
      throw new UncheckedIOException(e);
    }
    out.println(text);
  }

  private void write(Pack pack, PinReport report, Optional<PinTable> noted) throws IOException {
    json.writeStartObject();
    json.writeNumberField("format", FORMAT);
    json.writeStringField("pack", pack.id().toString());
    json.writeStringField("step", report.step().value());
    json.writeArrayFieldStart("pins");
    for (PinReport.Line line : report.lines()) {
      write(line);
    }
    json.writeEndArray();
    json.writeArrayFieldStart("missing");
    for (Point point : report.missing()) {
      json.writeString(point.id().value());
    }
    json.writeEndArray();
    json.writeArrayFieldStart("differences");
    for (PinReport.Difference difference : report.differences()) {
      write(difference);
    }
    json.writeEndArray();
    if (report.alike().isPresent()) {
      PinReport.Alike alike = report.alike().get();
      json.writeObjectFieldStart("alike");
      json.writeNumberField("ofReading", alike.ofReading());
      json.writeNumberField("inMeterUncertainties", alike.offset().mean());
      json.writeNumberField("uncertain", alike.offset().sd());
      json.writeNumberField("points", alike.offset().points());
      json.writeEndObject();
    }
    if (noted.flatMap(PinTable::turned).isPresent()) {
      PinTable.Turned turned = noted.get().turned().get();
      json.writeObjectFieldStart("turned");
      json.writeStringField("way", turned.way().key());
      // beyond what a double holds it is as good as certain
      json.writeNumberField("timesBetter", Math.min(turned.timesBetter(), Double.MAX_VALUE));
      json.writeEndObject();
    }
    json.writeArrayFieldStart("remarks");
    for (TableProblem remark : noted.map(PinTable::remarks).orElse(java.util.List.of())) {
      json.writeStartObject();
      json.writeNumberField("row", remark.row());
      json.writeNumberField("column", remark.column());
      json.writeStringField("words", remark.message());
      json.writeStringField("wayOut", remark.wayOut());
      json.writeEndObject();
    }
    json.writeEndArray();
    json.writeEndObject();
  }

  private void write(PinReport.Line line) throws IOException {
    json.writeStartObject();
    json.writeNumberField("fact", line.fact().number());
    json.writeStringField("point", line.point().id().value());
    if (line.point().pin().isPresent()) {
      json.writeStringField("pin", line.point().pin().get());
    }
    json.writeStringField("title", line.point().title());
    json.writeStringField("shown", line.value().toString());
    if (line.value() instanceof ReadingValue.Measured m) {
      json.writeNumberField("value", m.quantity().si());
      json.writeStringField("unit", m.quantity().dimension().unit());
    }
    if (line.corrected().isPresent()) {
      json.writeStringField("correctedFor", line.corrected().get());
    }
    if (line.deviation().isPresent()) {
      json.writeNumberField("deviation", line.deviation().getAsDouble());
    }
    if (line.inUncertainties().isPresent()) {
      json.writeNumberField("inUncertainties", line.inUncertainties().getAsDouble());
    }
    json.writeStringField("state", line.state().value());
    json.writeNumberField("probabilityConforms", line.pConforms());
    json.writeBooleanField("nearLimit", line.nearLimit());
    new ReadingFields(json).write(line.judged());
    json.writeBooleanField("counts", line.counts().counts());
    write(line.pointsTo());
    json.writeEndObject();
  }

  private void write(PinReport.Difference difference) throws IOException {
    json.writeStartObject();
    json.writeNumberField("fact", difference.line().number());
    json.writeNumberField("with", difference.with().number());
    json.writeStringField("otherPoint", difference.other().id().value());
    json.writeBooleanField("onKnownGood", difference.onKnownGood());
    json.writeNumberField("difference", difference.difference());
    json.writeNumberField("uncertainty", difference.uncertainty());
    if (difference.verdict().isPresent()) {
      PinReport.Verdict verdict = difference.verdict().get();
      json.writeNumberField("mayDiffer", verdict.mayDiffer());
      json.writeBooleanField("apart", verdict.apart());
      write(verdict.pointsTo());
    }
    json.writeEndObject();
  }

  private void write(List<PinReport.Suspect> pointsTo) throws IOException {
    json.writeArrayFieldStart("pointsTo");
    for (PinReport.Suspect s : pointsTo) {
      json.writeStartObject();
      json.writeStringField("node", s.node().toString());
      json.writeStringField("title", s.title());
      if (s.p().isPresent()) {
        json.writeNumberField("probability", s.p().getAsDouble());
      }
      json.writeEndObject();
    }
    json.writeEndArray();
  }
}
