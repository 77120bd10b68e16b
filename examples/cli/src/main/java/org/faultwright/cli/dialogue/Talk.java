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

  /** Title, question, keys and the line to type on. */
  private static final int AROUND_A_LIST = 8;

  private static final String MORE = "m";

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
    return askList(title, List.of(), asked);
  }

  /**
   * The same below dangers.
   *
   * @param dangers lines that stand above all
   */
  Optional<String> askList(String title, List<String> dangers, Asked asked) {
    if (console.isPlain()) {
      List<String> said = new ArrayList<>(dangers);
      said.addAll(SpokenPage.question(asked));
      console.show(said.stream().map(s -> SpokenPage.fit(console.screen(), s)).toList());
      return console.ask(List.of());
    }
    int from = 0;
    while (true) {
      int to =
          Math.min(
              asked.choices().size(),
              from + Math.max(4, console.rows() - AROUND_A_LIST - dangers.size()));
      List<String> shown = new ArrayList<>(dangers);
      shown.addAll(list(title, asked, from, to).lines());
      console.show(shown);
      Optional<String> line = console.ask(List.of());
      if (line.isEmpty() || !line.get().strip().equals(MORE)) {
        return line;
      }
      from = to < asked.choices().size() ? to : 0;
    }
  }

  private Page list(String title, Asked asked, int from, int to) {
    Page page = new Page(console.screen());
    page.hanging("", Ink.PLAIN, title, Ink.PLAIN).gap();
    for (int i = from; i < to; i++) {
      page.hanging("%3d  ".formatted(i + 1), Ink.STRONG, asked.choices().get(i), Ink.PLAIN);
    }
    page.gap();
    if (!asked.notice().isEmpty()) {
      page.hanging("> ", Ink.STRONG, asked.notice(), Ink.PLAIN);
    }
    page.hanging("", Ink.PLAIN, asked.words(), Ink.STRONG);
    List<String> keys = new ArrayList<>(asked.keys());
    if (from > 0 || to < asked.choices().size()) {
      keys.add(0, MORE + ": more");
    }
    return page.beside(keys);
  }

  /** Shows a page, as much of it at a time as fits; false: whoever sat there has gone. */
  boolean read(Page page) {
    if (console.isPlain()) {
      console.show(SpokenPage.of(page));
      return true;
    }
    List<String> lines = page.lines();
    int most = Math.max(4, console.rows() - 3);
    int from = 0;
    while (from < lines.size()) {
      boolean whole = lines.size() - from <= most;
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
