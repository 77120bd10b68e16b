package org.faultwright.cli.text;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.faultwright.casefile.PinTable;
import org.faultwright.diagnosis.PinReport;
import org.faultwright.explanation.FactWords;
import org.faultwright.measurement.Dimension;
import org.faultwright.measurement.Quantity;
import org.faultwright.measurement.ReadingValue;
import org.faultwright.measurement.Reference;
import org.faultwright.measurement.table.TableProblem;
import org.faultwright.pack.OutcomeId;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Step;

/** A pin table for a technician: odd pins first seen, then what they say together. */
public final class PinsText {

  private static final int[] WIDTHS = {3, -14, 9, 15, 8, 6, 6, -11};
  private static final List<String> TITLES =
      List.of("PIN", "NET", "READS", "REFERENCE", "OFF", "IN U", "FITS", "STATE");
  private static final int TABLE = 80;
  private static final int MOST_SUSPECTS = 3;

  /** More pins of one kind than these go by their numbers. */
  private static final int MOST_NAMED = 2;

  /** What to think of before a part is blamed. Common practice, no source. */
  private static final String DIODE_MODE =
      "in diode mode a protection diode to ground reads 0.3 to 0.8 V, meters differ by 5 to 15 %,"
          + " and a board that is a degree warmer reads about 2 mV less: wait after hot air (common"
          + " practice, no source)";

  /** About how a junction's drop changes with temperature, in V/K. Common practice. */
  private static final double PER_KELVIN = -0.002;

  private final Page page;
  private final Pack pack;

  /** Lays out tables of a pack. */
  public PinsText(Page page, Pack pack) {
    this.page = page;
    this.pack = pack;
  }

  /**
   * Adds a table to the page.
   *
   * @param noted the table of text that some of it comes from
   */
  public void write(PinReport report, Optional<PinTable> noted) {
    Step step = pack.steps().get(report.step());
    page.text("PIN TABLE " + step.title() + (pack.invented() ? " (invented)" : ""));
    page.text(setup(step));
    page.gap();
    if (report.lines().isEmpty()) {
      page.item("Nothing has been read yet.");
      return;
    }
    if (page.screen().width() >= TABLE) {
      row(' ', TITLES, Ink.STRONG);
      report.lines().forEach(l -> row(mark(l), cells(l), l.isOdd() ? Ink.STRONG : Ink.PLAIN));
    } else {
      report.lines().forEach(this::asLines);
    }
    noted.flatMap(PinTable::turned).ifPresent(this::writeTurned);
    writeOdd(report);
    writeToKnow(report, noted);
    if (report.posterior().isPresent()) {
      Ranking.write(page, pack, report.posterior().get(), false);
    } else {
      page.heading("THESE FACTS CANNOT ALL BE TRUE");
      page.item("The command diagnose says which of them clash.");
    }
  }

  private String setup(Step step) {
    Step.PinTable table = step.pinTable().orElseThrow();
    List<String> words = new ArrayList<>();
    table.instrument().ifPresent(i -> words.add(pack.instruments().get(i).title()));
    table.leads().ifPresent(l -> words.add(l.replace('-', ' ')));
    step.conditions().bench().forEach(b -> words.add(FactWords.of(pack, b)));
    return words.isEmpty() ? "" : String.join("; ", words);
  }

  private static char mark(PinReport.Line line) {
    return !line.counts().counts() ? 'x' : line.isOdd() ? '!' : line.nearLimit() ? '?' : ' ';
  }

  private List<String> cells(PinReport.Line line) {
    String state = FactWords.of(new OutcomeId(line.state().value()));
    return List.of(
        line.point().pin().orElse(""),
        line.point().title(),
        isNamed(line) ? "seen" : FactWords.of(line.value()),
        reference(line.point().reference()),
        signed(line.deviation(), 100) + (line.deviation().isPresent() ? " %" : ""),
        signed(line.inUncertainties(), 1),
        isNamed(line) ? "-" : percent(line.pConforms()),
        line.isOdd() ? state.toUpperCase(Locale.ROOT) : state);
  }

  /** What was seen without a number is its state, and says nothing of limits. */
  private static boolean isNamed(PinReport.Line line) {
    return line.value() instanceof ReadingValue.Named;
  }

  /** In whole percent: the table is narrow, and the last tenth is worth nothing. */
  private static String percent(double p) {
    return p == 0 || p == 1
        ? Figures.percent(p)
        : p < 0.005 ? "<1 %" : p > 0.995 ? ">99 %" : Math.round(100 * p) + " %";
  }

  private static String signed(OptionalDouble value, double times) {
    if (value.isEmpty()) {
      return "-";
    }
    double shown = times * value.getAsDouble();
    String format = Math.abs(shown) < 100 ? "%+.1f" : "%+.0f";
    return Math.abs(shown) < 10_000 ? String.format(Locale.ROOT, format, shown) : "far";
  }

  private String reference(Reference reference) {
    Dimension kind = reference.dimension();
    if (reference instanceof Reference.Around a) {
      String nominal = new Quantity(a.nominal(), kind).format(3);
      return nominal
          + " \u00b1"
          + (a.nominal() == 0
              ? new Quantity(a.tolerance(), kind).format(2)
              : signless(100 * a.tolerance() / Math.abs(a.nominal())) + " %");
    } else if (reference instanceof Reference.Within w) {
      Optional<String> low = end(w.low(), kind);
      Optional<String> high = end(w.high(), kind);
      return low.isPresent() && high.isPresent()
          ? low.get() + ".." + high.get()
          : low.map(l -> "\u2265 " + l).orElseGet(() -> "\u2264 " + high.orElseThrow());
    }
    return "OL";
  }

  private static Optional<String> end(OptionalDouble si, Dimension kind) {
    return si.isPresent()
        ? Optional.of(new Quantity(si.getAsDouble(), kind).format(3))
        : Optional.empty();
  }

  private static String signless(double value) {
    return String.format(Locale.ROOT, value < 9.95 ? "%.1f" : "%.0f", value).replace(".0", "");
  }

  private void row(char mark, List<String> cells, Ink ink) {
    StringBuilder line = new StringBuilder().append(mark);
    for (int i = 0; i < WIDTHS.length; i++) {
      int width = Math.abs(WIDTHS[i]);
      String text = fit(cells.get(i), width);
      String space = " ".repeat(Math.max(0, width - Letters.columns(text)));
      line.append(i == 0 ? "" : " ").append(WIDTHS[i] < 0 ? text + space : space + text);
    }
    page.hanging(line.toString().stripTrailing(), ink, "", Ink.PLAIN);
  }

  private String fit(String text, int width) {
    String shown = Letters.harmless(text);
    shown = page.screen().unicode() ? shown : Letters.ascii(shown);
    if (Letters.columns(shown) <= width) {
      return shown;
    }
    while (Letters.columns(shown) > width - 1) {
      shown = shown.substring(0, shown.offsetByCodePoints(shown.length(), -1));
    }
    return shown + page.sign("\u2026", "~");
  }

  private void asLines(PinReport.Line line) {
    List<String> cells = cells(line);
    page.hanging(
        mark(line) + " ",
        Ink.PLAIN,
        pin(line)
            + ": "
            + cells.get(2)
            + ", reference "
            + cells.get(3)
            + ", fits "
            + cells.get(6)
            + ", "
            + cells.get(7),
        line.isOdd() ? Ink.STRONG : Ink.PLAIN);
  }

  private static String pin(PinReport.Line line) {
    return line.point().pin().map(p -> "pin " + p + " ").orElse("") + line.point().title();
  }

  private void writeTurned(PinTable.Turned turned) {
    page.heading("NOTED THE WRONG WAY ROUND?");
    page.item(
        "The readings fit "
            + (turned.timesBetter() < 1e6
                ? Figures.times(turned.timesBetter())
                : "over a million times")
            + " better if "
            + turned.way().words()
            + ". Look at the socket again. If so, add --turned "
            + turned.way().key()
            + "; until that is known, what follows is worth little.");
  }

  private void writeOdd(PinReport report) {
    List<PinReport.Line> odd = report.lines().stream().filter(PinReport.Line::isOdd).toList();
    List<PinReport.Difference> apart =
        report.differences().stream().filter(PinReport.Difference::isOdd).toList();
    if (odd.isEmpty() && apart.isEmpty()) {
      return;
    }
    page.heading("ODD PINS POINT TO");
    Map<String, List<PinReport.Line>> alike = new LinkedHashMap<>();
    for (PinReport.Line line : odd) {
      alike
          .computeIfAbsent(line.state() + ":" + suspects(line.pointsTo()), k -> new ArrayList<>())
          .add(line);
    }
    alike
        .values()
        .forEach(lines -> page.bullet(pins(lines) + ": " + suspects(lines.get(0).pointsTo())));
    apart.forEach(
        d ->
            page.bullet(
                pin(line(report, d))
                    + " and "
                    + d.other().title()
                    + ", which differ: "
                    + suspects(d.verdict().orElseThrow().pointsTo())));
  }

  /** The pins of one group; of many the numbers alone, which are in the table with their nets. */
  private static String pins(List<PinReport.Line> lines) {
    String state = FactWords.of(new OutcomeId(lines.get(0).state().value()));
    boolean numbers =
        lines.size() > MOST_NAMED && lines.stream().allMatch(l -> l.point().pin().isPresent());
    String pins =
        numbers
            ? "pins "
                + Wording.listed(lines.stream().map(l -> l.point().pin().orElseThrow()).toList())
            : Wording.listed(lines.stream().map(PinsText::pin).toList());
    return pins + ", " + state;
  }

  private static String suspects(List<PinReport.Suspect> pointsTo) {
    List<String> suspects =
        pointsTo.stream()
            .limit(MOST_SUSPECTS)
            .map(
                s ->
                    s.title()
                        + (s.p().isPresent()
                            ? " (" + Figures.percent(Math.min(1, s.p().getAsDouble())) + ")"
                            : ""))
            .toList();
    int more = pointsTo.size() - suspects.size();
    return String.join("; ", suspects) + (more > 0 ? "; " + more + " more" : "");
  }

  private void writeToKnow(PinReport report, Optional<PinTable> noted) {
    List<String> notes = new ArrayList<>();
    report.alike().ifPresent(a -> notes.add(alike(report, a)));
    report.differences().forEach(d -> notes.add(difference(report, d)));
    for (TableProblem remark : noted.map(PinTable::remarks).orElse(List.of())) {
      notes.add("row " + remark.row() + ": " + remark.message() + ": " + remark.wayOut());
    }
    for (PinReport.Line line : report.lines()) {
      if (!line.counts().counts()) {
        notes.add(
            pin(line) + " (x) does not count: " + line.counts().why().orElse("it was replaced"));
      }
      line.corrected().ifPresent(c -> notes.add(pin(line) + " is corrected for " + c));
    }
    List<String> onLimit =
        report.lines().stream()
            .filter(l -> l.counts().counts() && l.nearLimit())
            .map(PinsText::pin)
            .toList();
    if (!onLimit.isEmpty()) {
      boolean helps =
          report.lines().stream()
              .filter(l -> l.counts().counts() && l.nearLimit())
              .allMatch(l -> l.judged().readingAgainHelps());
      notes.add(
          Wording.listed(onLimit)
              + (onLimit.size() == 1 ? " lies" : " lie")
              + " close to a limit (?): by the reading alone the true value is inside with what"
              + " stands under FITS. "
              + (helps
                  ? "Reading again helps: much of the uncertainty is chance"
                  : "Reading again with the same meter does not help: the meter's own error stays;"
                      + " another meter or another test tells more"));
    }
    long refused =
        report.lines().stream()
            .map(l -> l.judged().conformance())
            .filter(c -> c.inside() && !c.accepted())
            .count();
    if (refused > 0) {
      notes.add(
          refused
              + (refused == 1
                  ? " reading inside its limits is"
                  : " readings inside their limits are")
              + " refused by the shop's guard band");
    }
    boolean diode =
        pack.steps().get(report.step()).pinTable().flatMap(Step.PinTable::instrument).stream()
            .anyMatch(i -> pack.instruments().get(i).meter().diode());
    if (diode && report.lines().stream().anyMatch(PinReport.Line::isOdd)) {
      notes.add(DIODE_MODE);
    }
    if (!report.missing().isEmpty()) {
      notes.add(
          "not read: "
              + String.join(
                  ", ",
                  report.missing().stream()
                      .map(p -> p.pin().map(n -> n + " ").orElse("") + p.title())
                      .toList()));
    }
    if (!notes.isEmpty()) {
      page.heading("TO KNOW");
      notes.forEach(page::bullet);
    }
  }

  private static PinReport.Line line(PinReport report, PinReport.Difference d) {
    return report.lines().stream().filter(l -> l.fact().equals(d.line())).findFirst().orElseThrow();
  }

  /** As in "D+ lies 180 mV below D-, by 12 uncertainties of the difference". */
  private static String difference(PinReport report, PinReport.Difference d) {
    PinReport.Line line = line(report, d);
    String other = d.onKnownGood() ? "what it reads on a known-good board" : d.other().title();
    if (d.difference() == 0) {
      return pin(line) + " reads the same as " + other;
    }
    Quantity apart = new Quantity(Math.abs(d.difference()), line.value().kind());
    return pin(line)
        + " lies "
        + apart.format(3)
        + (d.difference() > 0 ? " above " : " below ")
        + other
        + d.verdict()
            .map(
                v ->
                    (v.apart() ? ": they differ" : ": they read alike")
                        + " (good devices stay within about "
                        + new Quantity(v.mayDiffer(), line.value().kind()).format(2)
                        + "; what one meter is off by in both cancels)")
            .orElse(
                (d.uncertainty() > 0
                        ? ", by "
                            + signless(Math.abs(d.difference()) / d.uncertainty())
                            + " uncertainties"
                        : "")
                    + " (what one meter is off by in both cancels)");
  }

  private String alike(PinReport report, PinReport.Alike alike) {
    boolean low = alike.ofReading() < 0;
    boolean diode =
        alike.offset().setup().instrument().map(pack.instruments()::get).stream()
            .anyMatch(i -> i.meter().diode());
    String words =
        "All read about "
            + signless(100 * Math.abs(alike.ofReading()))
            + " % "
            + (low ? "low" : "high")
            + " alike ("
            + signless(Math.abs(alike.offset().mean()))
            + " times what the meter may usually be off): that speaks for the meter"
            + (diode ? " or the temperature" : "")
            + " rather than for as many faults";
    if (!diode) {
      return words + ". Check it on something known";
    }
    double volts =
        report.lines().stream()
            .filter(l -> l.value() instanceof ReadingValue.Measured)
            .mapToDouble(
                l -> alike.ofReading() * ((ReadingValue.Measured) l.value()).quantity().si())
            .average()
            .orElse(0);
    return words
        + ". A board about "
        + Math.round(Math.abs(volts / PER_KELVIN))
        + " K "
        + (low ? "warmer" : "colder")
        + " than the reference would do it: wait after hot air, and read a known-good board";
  }
}
