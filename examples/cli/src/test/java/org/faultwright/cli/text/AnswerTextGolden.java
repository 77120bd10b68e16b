package org.faultwright.cli.text;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.util.List;
import java.util.function.Consumer;
import org.faultwright.casefile.Fact;
import org.faultwright.cli.Golden;
import org.faultwright.diagnosis.Answer;
import org.faultwright.explanation.WhyCause;
import org.faultwright.measurement.Quantity;
import org.faultwright.measurement.ReadingValue;
import org.faultwright.pack.PointId;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** How answers look, from values made by hand. */
class AnswerTextGolden {

  @ParameterizedTest
  @CsvSource({
    "80, true, false", "80, false, false", "80, true, true",
    "40, true, false", "40, false, false", "40, false, true"
  })
  void ranked(int width, boolean unicode, boolean colour) {
    Screen screen = new Screen(width, unicode, colour);
    String text = answer(screen, Examples.ranked(), false);
    Golden.assertSame("ranked-" + name(screen), text);
    assertFits(screen, text);
  }

  @ParameterizedTest
  @CsvSource({"80", "40"})
  void everything(int width) {
    Screen screen = new Screen(width, true, false);
    String text =
        print(
            screen,
            page ->
                new AnswerText(Examples.PACK, true)
                    .write(page, Examples.ranked(), List.of(), List.of(Examples.why())));
    Golden.assertSame("everything-" + name(screen), text);
    assertFits(screen, text);
  }

  @ParameterizedTest
  @CsvSource({"80, false", "80, true", "40, false"})
  void alarming(int width, boolean colour) {
    Screen screen = new Screen(width, true, colour);
    String text = answer(screen, Examples.alarming(), false);
    Golden.assertSame("alarming-" + name(screen), text);
    assertFits(screen, text);
  }

  @Test
  void asking() {
    Screen screen = new Screen(80, true, false);
    Golden.assertSame("asking-" + name(screen), answer(screen, Examples.asking(), false));
  }

  @ParameterizedTest
  @CsvSource({"80", "40"})
  void impossible(int width) {
    Screen screen = new Screen(width, true, false);
    String text =
        print(
            screen,
            page ->
                new AnswerText(Examples.PACK, false)
                    .write(page, Examples.impossible(), List.of(), List.of()));
    Golden.assertSame("impossible-" + name(screen), text);
    assertFits(screen, text);
  }

  @Test
  void tooWide() {
    Screen screen = new Screen(80, true, false);
    Golden.assertSame(
        "too-wide-" + name(screen),
        print(
            screen,
            page ->
                new AnswerText(Examples.PACK, false)
                    .write(page, Examples.tooWide(), List.of(), List.of())));
  }

  @ParameterizedTest
  @CsvSource({"80, true", "40, false"})
  void supposed(int width, boolean unicode) {
    Screen screen = new Screen(width, unicode, false);
    Fact fact =
        new Fact.ReadingTaken(
            new PointId("coil"),
            new ReadingValue.OverRange(Quantity.parse("1 ohm").dimension()),
            java.util.OptionalDouble.empty(),
            Fact.Setup.AS_STATED);
    String text =
        print(
            screen,
            page ->
                new SupposedText(page, Examples.PACK)
                    .write(Examples.ranked(), List.of(fact), Examples.asking()));
    Golden.assertSame("supposed-" + name(screen), text);
    assertFits(screen, text);
  }

  private static String answer(Screen screen, Answer answer, boolean all) {
    List<WhyCause> leader = List.of(Examples.why());
    return print(
        screen, page -> new AnswerText(Examples.PACK, all).write(page, answer, leader, List.of()));
  }

  private static String print(Screen screen, Consumer<Page> writing) {
    Page page = new Page(screen);
    writing.accept(page);
    StringWriter text = new StringWriter();
    page.printOn(new PrintWriter(text, true));
    return text.toString().replace(System.lineSeparator(), "\n");
  }

  private static String name(Screen screen) {
    return screen.width()
        + (screen.unicode() ? "-utf8" : "-ascii")
        + (screen.colour() ? "-colour" : "");
  }

  private static void assertFits(Screen screen, String text) {
    assertThat(text.replaceAll("\u001b\\[[0-9;]*m", "").lines())
        .allMatch(line -> Letters.columns(line) <= screen.width());
    assertThat(text.lines()).noneMatch(line -> line.endsWith(" "));
    if (!screen.unicode()) {
      assertThat(text).matches("\\p{ASCII}*");
    }
    if (!screen.colour()) {
      assertThat(text).doesNotContain("\u001b");
    }
  }
}
