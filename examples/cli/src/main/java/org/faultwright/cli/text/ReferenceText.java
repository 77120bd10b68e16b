package org.faultwright.cli.text;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.faultwright.measurement.Quantity;
import org.faultwright.measurement.knowngood.Normality;
import org.faultwright.measurement.knowngood.PinReference;
import org.faultwright.measurement.knowngood.PinReference.AlwaysOverRange;
import org.faultwright.measurement.knowngood.PinReference.AsNormal;
import org.faultwright.measurement.knowngood.PinReference.ByPractice;
import org.faultwright.measurement.knowngood.PinReference.DistributionFreely;
import org.faultwright.measurement.knowngood.PinReference.Missing;
import org.faultwright.measurement.knowngood.ReferencePolicy;

/** References from known-good boards as a table, and below it what to know about them. */
public final class ReferenceText {

  private static final int[] WIDTHS = {-4, -14, 6, 10, 9, 10, 10, -8};
  private static final List<String> TITLES =
      List.of("PIN", "POINT", "BOARDS", "MEAN", "DEVIATION", "FROM", "TO", "BY");
  private static final int TABLE = 80;
  private static final int FEWEST_TO_TEST = 8;

  private final Page page;
  private final ReferencePolicy policy;

  /** Lays out references that hold to a policy. */
  public ReferenceText(Page page, ReferencePolicy policy) {
    this.page = page;
    this.policy = policy;
  }

  /**
   * Adds them to the page.
   *
   * @param boards how many known-good boards there are
   */
  public void write(List<PinReference> pins, int boards) {
    page.heading("REFERENCES FROM " + boards + " KNOWN-GOOD BOARD" + (boards == 1 ? "" : "S"));
    page.item(
        "A reference holds at least "
            + ReferenceWords.promise(policy)
            + ", unless it is said otherwise below. "
            + ReferenceWords.SAME_WAY);
    page.gap();
    if (page.screen().width() >= TABLE) {
      row(" ", TITLES);
      pins.forEach(p -> row(needsALook(p) ? "!" : " ", cells(p)));
    } else {
      pins.forEach(this::asLines);
    }
    Map<String, List<String>> notes = new LinkedHashMap<>();
    for (PinReference pin : pins) {
      for (String note : notes(pin)) {
        notes.computeIfAbsent(note, n -> new ArrayList<>()).add(pin.of().id());
      }
    }
    if (!notes.isEmpty()) {
      page.heading("TO KNOW");
      notes.forEach((note, of) -> page.bullet(String.join(", ", of) + ": " + note));
    }
  }

  private void row(String mark, List<String> cells) {
    StringBuilder line = new StringBuilder(mark);
    for (int i = 0; i < WIDTHS.length; i++) {
      int width = Math.abs(WIDTHS[i]);
      String text = cell(cells.get(i), width);
      String space = " ".repeat(width - Letters.columns(text));
      line.append(' ').append(WIDTHS[i] < 0 ? text + space : space + text);
    }
    page.hanging(line.toString(), Ink.PLAIN, "", Ink.PLAIN);
  }

  private String cell(String text, int width) {
    String shown = Letters.harmless(text);
    shown = page.screen().unicode() ? shown : Letters.ascii(shown);
    if (Letters.columns(shown) <= width) {
      return shown;
    }
    String kept = shown;
    while (Letters.columns(kept) > width - 1) {
      kept = kept.substring(0, kept.offsetByCodePoints(kept.length(), -1));
    }
    return kept + page.sign("\u2026", "~");
  }

  private static List<String> cells(PinReference pin) {
    List<String> limits = limits(pin);
    return List.of(
        pin.of().pin().orElse(""),
        pin.of().id(),
        pin.overRange() > 0 && pin.used() > 0
            ? pin.used() + "+" + pin.overRange() + "OL"
            : String.valueOf(pin.of().readings().size()),
        pin.used() == 0 && pin.overRange() > 0 ? "OL" : ReferenceWords.quantity(pin.mean(), pin, 4),
        ReferenceWords.quantity(pin.deviation(), pin, 2),
        limits.get(0),
        limits.get(1),
        by(pin));
  }

  private static List<String> limits(PinReference pin) {
    if (!(pin.result() instanceof PinReference.Established e)) {
      return List.of("-", "-");
    }
    WrittenReference written = WrittenReference.of(e.reference());
    if (written instanceof WrittenReference.Around a) {
      return List.of(end(a, -1), end(a, 1));
    } else if (written instanceof WrittenReference.Limits l) {
      return List.of(
          l.low().map(Object::toString).orElse("-"), l.high().map(Object::toString).orElse("-"));
    }
    return List.of("OL", "OL");
  }

  /** An end of a tolerance, in decimals as they are written. */
  private static String end(WrittenReference.Around a, int sign) {
    double si =
        BigDecimal.valueOf(a.nominal().si())
            .add(BigDecimal.valueOf(a.tolerance().si()).multiply(BigDecimal.valueOf(sign)))
            .doubleValue();
    return new Quantity(si, a.nominal().dimension()).toString();
  }

  private static String by(PinReference pin) {
    return pin.result() instanceof AsNormal
        ? "normal"
        : pin.result() instanceof DistributionFreely
            ? "sorted"
            : pin.result() instanceof ByPractice
                ? "practice"
                : pin.result() instanceof AlwaysOverRange ? "OL" : isUnread(pin) ? "-" : "NONE";
  }

  private static boolean isUnread(PinReference pin) {
    return pin.result() instanceof Missing m && m.reason() == PinReference.Reason.NOT_READ;
  }

  private static boolean needsALook(PinReference pin) {
    return !pin.outliers().isEmpty()
        || pin.result() instanceof DistributionFreely
        || (pin.result() instanceof Missing && !isUnread(pin))
        || (pin.result() instanceof PinReference.Established e
            && WrittenReference.holdsZero(e.reference()));
  }

  private void asLines(PinReference pin) {
    List<String> cells = cells(pin);
    page.hanging(
        needsALook(pin) ? "! " : "  ",
        Ink.PLAIN,
        (cells.get(0).isEmpty() ? "" : cells.get(0) + " ")
            + cells.get(1)
            + ": "
            + (pin.result() instanceof Missing
                ? "NONE"
                : cells.get(5).equals("OL")
                    ? "OL"
                    : cells.get(5) + " to " + cells.get(6) + ", by " + cells.get(7))
            + " ("
            + cells.get(2)
            + ")",
        Ink.PLAIN);
  }

  private List<String> notes(PinReference pin) {
    List<String> notes = new ArrayList<>();
    for (PinReference.Outlier outlier : pin.outliers()) {
      notes.add(
          ReferenceWords.outlier(outlier.reading())
              + ", far from the others; "
              + (outlier.dropped()
                  ? "left out, as you asked"
                  : "kept: look at that board again, or leave it out with --drop-outliers"));
    }
    if (pin.result() instanceof Missing missing) {
      notes.add("no reference; " + ReferenceWords.reason(pin, missing));
      return notes;
    } else if (pin.result() instanceof DistributionFreely free) {
      Normality.Tested tested = (Normality.Tested) pin.normality();
      notes.add(
          "not normal (Anderson-Darling, p "
              + Figures.percent(tested.p())
              + "); "
              + ReferenceWords.sorted(pin, free, policy));
    } else if (pin.result() instanceof ByPractice practice) {
      notes.add(
          "by practice, "
              + ReferenceWords.rule(pin.of().dimension())
              + "; "
              + ReferenceWords.practice(pin, practice.factor(), policy));
    } else if (pin.result() instanceof AsNormal) {
      if (pin.normality() instanceof Normality.TooFew) {
        notes.add("taken for normal without a test, which needs " + FEWEST_TO_TEST + " boards");
      } else if (pin.normality() instanceof Normality.TooCoarse) {
        notes.add(
            "taken for normal without a test: the boards differ by less than a step of the"
                + " display; a finer range would tell more");
      }
    }
    if (pin.result() instanceof PinReference.Established e
        && WrittenReference.holdsZero(e.reference())) {
      notes.add("so wide that a short would keep to it; more boards would help");
    }
    return notes;
  }
}
