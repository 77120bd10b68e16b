package org.faultwright.cli.text;

import java.util.List;
import java.util.stream.Stream;
import org.faultwright.measurement.knowngood.PinReference;
import org.faultwright.measurement.knowngood.ReferencePolicy;

/** The points of a step in the format of packs, ready to be pasted below it. */
public final class ReferenceBlock {

  /** As deep as in packs that indent by two. */
  private static final String INDENT = "    ";

  /** Remarks are broken where they would be longer. */
  private static final int WIDEST = 100;

  private final ReferencePolicy policy;
  private final StringBuilder lines = new StringBuilder();

  private ReferenceBlock(ReferencePolicy policy) {
    this.policy = policy;
  }

  /**
   * The block, each line of it with its end.
   *
   * @param boards how many known-good boards there are
   */
  public static String of(List<PinReference> pins, int boards, ReferencePolicy policy) {
    ReferenceBlock block = new ReferenceBlock(policy);
    block.remark(
        "From readings on "
            + ReferenceWords.boards(boards)
            + " known to be good. Leads, instrument and needs of the step must be those of the"
            + " readings. A counted reference holds at least "
            + ReferenceWords.promise(policy)
            + ", unless it says otherwise. "
            + ReferenceWords.SAME_WAY
            + " Now say at each point what makes it read open, short, low or high; a rate that you"
            + " add needs a basis of its own, as in {chance: 85 %, basis: common-practice}, because"
            + " it was not counted on these boards.");
    if (pins.stream().anyMatch(p -> p.result() instanceof PinReference.Established)) {
      block.line("points:");
    }
    pins.forEach(block::add);
    return block.lines.toString();
  }

  private void add(PinReference pin) {
    String id = pin.of().id();
    if (pin.result() instanceof PinReference.Missing missing) {
      remark("No reference for " + id + ": " + ReferenceWords.reason(pin, missing) + ".");
      return;
    }
    PinReference.Established result = (PinReference.Established) pin.result();
    line("  " + id + ":");
    pin.of().net().ifPresent(net -> line("    title: " + quoted(net)));
    pin.of().pin().ifPresent(number -> line("    pin: " + quoted(number)));
    WrittenReference written = WrittenReference.of(result.reference());
    if (written instanceof WrittenReference.Around a) {
      line("    reference: " + a.nominal());
      line("    tolerance: " + a.tolerance());
    } else if (written instanceof WrittenReference.Limits l) {
      line("    reference: {" + String.join(", ", limits(l)) + "}");
    } else {
      line("    reference: OL");
    }
    basis(pin, result);
  }

  private static List<String> limits(WrittenReference.Limits limits) {
    return Stream.concat(
            limits.low().map(l -> "low: " + l).stream(),
            limits.high().map(h -> "high: " + h).stream())
        .toList();
  }

  private void basis(PinReference pin, PinReference.Established result) {
    if (result instanceof PinReference.ByPractice practice) {
      line("    basis: common-practice");
      remark("    Common practice: " + ReferenceWords.practice(pin, practice.factor(), policy));
    } else {
      int read = pin.of().readings().size();
      int seen = result instanceof PinReference.AlwaysOverRange ? read : pin.used();
      line("    counted: {seen: " + seen + ", of: " + read + ", among: devices}");
    }
    if (result instanceof PinReference.DistributionFreely free) {
      remark("    Not normal; " + ReferenceWords.sorted(pin, free, policy));
    }
    for (PinReference.Outlier outlier : pin.outliers()) {
      remark(
          "    "
              + (outlier.dropped() ? "Left out: " : "Far from the others, and kept: ")
              + ReferenceWords.outlier(outlier.reading()));
    }
    if (WrittenReference.holdsZero(result.reference())) {
      remark("    So wide that a short would keep to it");
    }
  }

  private void line(String text) {
    lines.append(INDENT).append(Letters.harmless(text)).append('\n');
  }

  /** A remark in lines; what names boards and pins is from a file that anybody may have written. */
  private void remark(String text) {
    String words = text.stripLeading();
    String start = " ".repeat(text.length() - words.length()) + "#";
    StringBuilder line = new StringBuilder(start);
    for (String word : Letters.harmless(words).split(" +")) {
      if (INDENT.length() + line.length() + 1 + word.length() > WIDEST
          && line.length() > start.length()) {
        line(line.toString());
        line.replace(0, line.length(), start);
      }
      line.append(' ').append(word);
    }
    line(line.toString());
  }

  private static String quoted(String text) {
    return '"' + Letters.harmless(text).replace("\\", "\\\\").replace("\"", "\\\"") + '"';
  }
}
