package org.faultwright.cli.text;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.PrintWriter;
import java.io.StringWriter;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class PageTest {

  private static final String LONG =
      "Lithium cell: never bend, cut, pry against or press it; use plastic blades only.";

  @Test
  void labelled_putsTheTextBesideItsLabel_whenThereIsRoom() {
    Page page = new Page(wide());
    page.labelled("CAUTION", Ink.CAUTION, LONG);
    assertThat(print(page))
        .isEqualTo(
            """
              CAUTION  Lithium cell: never bend, cut, pry against or
                       press it; use plastic blades only.
            """);
  }

  @Test
  void labelled_startsOnTheLabelsLine_whenNarrow() {
    Page page = new Page(new Screen(40, false, false));
    page.labelled("CAUTION", Ink.CAUTION, LONG);
    assertThat(print(page))
        .isEqualTo(
            """
              CAUTION: Lithium cell: never bend,
                cut, pry against or press it; use
                plastic blades only.
            """);
  }

  @ParameterizedTest
  @ValueSource(ints = {30, 40, 59, 60, 80, 100})
  void noLineIsLongerThanTheScreen_andNoWordIsLost(int width) {
    Page page = new Page(new Screen(width, true, false));
    page.labelled("why", Ink.PLAIN, LONG)
        .item(LONG)
        .heading("H")
        .hanging("  * ", Ink.PLAIN, LONG, Ink.PLAIN);
    String text = print(page);
    assertThat(text.lines()).allMatch(line -> Letters.columns(line) <= width);
    assertThat(text.replaceAll("\\s+", " ").split("plastic blades only\\.", -1)).hasSize(4);
  }

  @Test
  void colourAddsNothingButCodes() {
    Page plain = new Page(new Screen(80, true, false));
    Page colour = new Page(new Screen(80, true, true));
    for (Page page : new Page[] {plain, colour}) {
      page.hanging("HOLD  ", Ink.DANGER, LONG + " " + LONG, Ink.STRONG)
          .labelled("CAUTION", Ink.CAUTION, LONG);
    }
    String coloured = print(colour);
    assertThat(coloured).contains("\u001b[1;31mHOLD  \u001b[0m");
    assertThat(coloured.replaceAll("\u001b\\[[0-9;]*m", "")).isEqualTo(print(plain));
  }

  @Test
  void textFromAFile_cannotSteerTheTerminal() {
    Page page = new Page(new Screen(80, true, true));
    page.text("nice\u001b]0;owned\u0007 try").labelled("why\u001b[2J", Ink.PLAIN, "x");
    assertThat(print(page)).doesNotContain("\u001b").doesNotContain("\u0007");
  }

  @Test
  void gap_neverComesTwiceOrFirst() {
    Page page = new Page(wide());
    page.gap().text("a").gap().gap().heading("b");
    assertThat(print(page)).isEqualTo("a\n\nb\n");
  }

  private static Screen wide() {
    return new Screen(60, false, false);
  }

  private static String print(Page page) {
    StringWriter text = new StringWriter();
    page.printOn(new PrintWriter(text, true));
    return text.toString().replace(System.lineSeparator(), "\n");
  }
}
