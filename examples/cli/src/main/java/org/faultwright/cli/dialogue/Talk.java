package org.faultwright.cli.dialogue;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.faultwright.cli.text.Asked;
import org.faultwright.cli.text.Ink;
import org.faultwright.cli.text.Page;
import org.faultwright.cli.text.SpokenPage;

/** Shows pages and lists on a console and takes lines in, as the console likes it. */
final class Talk {

  private final Console console;

  Talk(Console console) {
    this.console = console;
  }

  Console console() {
    return console;
  }

  /**
   * A list with a question below it; the choices stand one on a line.
   *
   * @return what was typed; empty: whoever typed has gone
   */
  Optional<String> askList(String title, Asked asked) {
    if (console.isPlain()) {
      List<String> said = SpokenPage.question(asked);
      console.show(said.stream().map(s -> SpokenPage.fit(console.screen(), s)).toList());
      return console.ask(List.of());
    }
    Page page = new Page(console.screen());
    page.hanging("", Ink.PLAIN, title, Ink.PLAIN).gap();
    for (int i = 0; i < asked.choices().size(); i++) {
      page.hanging("%3d  ".formatted(i + 1), Ink.STRONG, asked.choices().get(i), Ink.PLAIN);
    }
    page.gap();
    if (!asked.notice().isEmpty()) {
      page.hanging("> ", Ink.STRONG, asked.notice(), Ink.PLAIN);
    }
    page.hanging("", Ink.PLAIN, asked.words(), Ink.STRONG);
    page.beside(asked.keys());
    console.show(page.lines());
    return console.ask(List.of());
  }

  /** Shows a page, as much of it at a time as fits; false: whoever sat there has gone. */
  boolean read(Page page) {
    List<String> lines = page.lines();
    int most = Math.max(4, console.rows() - 3);
    int from = 0;
    while (from < lines.size()) {
      boolean whole = console.isPlain() || lines.size() - from <= most;
      int to = whole ? lines.size() : from + most;
      List<String> shown = new ArrayList<>(lines.subList(from, to));
      shown.add("");
      shown.add(
          to < lines.size()
              ? "Enter: more (" + (lines.size() - to) + " lines)   x: enough"
              : "Enter: on with the work");
      console.show(shown);
      Optional<String> line = console.ask(List.of());
      if (line.isEmpty()) {
        return false;
      }
      if (!line.get().isBlank() && to < lines.size()) {
        return true;
      }
      from = to;
    }
    return true;
  }
}
