package org.faultwright.cli.paper;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import net.jqwik.api.ForAll;
import net.jqwik.api.From;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.IntRange;

/** Lines of a drawing keep to their room and lose nothing, or say so. */
class LetteringProperty extends Labels {

  @Property(tries = 500)
  void linesKeepToTheirRoom(
      @ForAll @From("labels") String label,
      @ForAll @DoubleRange(min = 75, max = 300) double room,
      @ForAll boolean bold,
      @ForAll @IntRange(min = 1, max = 6) int most) {
    String text = Plain.of(label);
    List<String> lines = Lettering.wrap(text, 12, bold, room, most);

    assertThat(lines).hasSizeBetween(1, most);
    assertThat(lines)
        .allSatisfy(line -> assertThat(Lettering.width(line, 12, bold)).isLessThanOrEqualTo(room));
    String all = String.join("", lines).replaceAll("[ \u2026]", "");
    String plain = Lettering.spelt(text).replaceAll("[ \u2026]", "");
    if (lines.get(lines.size() - 1).endsWith("\u2026")) {
      assertThat(plain).startsWith(all);
    } else {
      assertThat(all).isEqualTo(plain);
    }
  }

  /** Widths: Adobe Core 14 AFM files, Helvetica and Helvetica-Bold. */
  @Property(tries = 1)
  void widthsAreThoseOfHelvetica() {
    assertThat(Lettering.exact("AV Mi.", 1000, false).getAsDouble())
        .isCloseTo(667 + 667 + 278 + 833 + 222 + 278, within(1e-9));
    assertThat(Lettering.exact("rW~", 1000, true).getAsDouble())
        .isCloseTo(389 + 944 + 584, within(1e-9));
    assertThat(Lettering.exact("\u03a9", 1000, false)).isEmpty();
  }
}
