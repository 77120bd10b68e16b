package org.faultwright.cli.text;

import java.io.PrintWriter;
import java.util.ArrayList;
import java.util.List;

/** Lines of text, laid out for a screen. Not thread-safe. */
public final class Page {

  /** Stands for a space where no line may end; texts never have it, being harmless. */
  private static final char BOUND = '\u0001';

  private final Screen screen;
  private final List<String> lines = new ArrayList<>();

  /** An empty page. */
  public Page(Screen screen) {
    this.screen = screen;
  }

  /** What it is laid out for. */
  public Screen screen() {
    return screen;
  }

  /** Prints the page. */
  public void printOn(PrintWriter out) {
    lines.forEach(out::println);
  }

  /** The lines, as they would be printed. */
  public List<String> lines() {
    return List.copyOf(lines);
  }

  /** Items side by side, as many on a line as fit, none of them broken. */
  public Page beside(List<String> items) {
    StringBuilder line = new StringBuilder();
    for (String item : items) {
      String shown = fit(item);
      if (line.length() > 0 && columnsOf(line + "   " + shown) + 1 > screen.width()) {
        lines.add(" " + line);
        line.setLength(0);
      }
      line.append(line.length() == 0 ? "" : "   ").append(shown);
    }
    if (line.length() > 0) {
      lines.add(" " + line);
    }
    return this;
  }

  /**
   * The first lines of another page that is laid out for the same screen; dots say that there was
   * more.
   */
  Page first(int most, Page other) {
    if (other.lines.size() <= most) {
      lines.addAll(other.lines);
      return this;
    }
    lines.addAll(other.lines.subList(0, most));
    String dots = sign("\u2026", "...");
    String last = lines.remove(lines.size() - 1);
    while (columnsOf(last) + dots.length() > screen.width()) {
      last = last.substring(0, Math.max(0, last.lastIndexOf(' ')));
    }
    lines.add(last + dots);
    return this;
  }

  /** An empty line, unless the page is empty or ends with one. */
  public Page gap() {
    if (!lines.isEmpty() && !lines.get(lines.size() - 1).isEmpty()) {
      lines.add("");
    }
    return this;
  }

  /** A heading. */
  public Page heading(String text) {
    return gap().hanging("", Ink.PLAIN, text, Ink.STRONG);
  }

  /** A line of text, wrapped where it is too long. */
  public Page text(String text) {
    return hanging("", Ink.PLAIN, text, Ink.PLAIN);
  }

  /** Text below a heading. */
  public Page item(String text) {
    return hanging("  ", Ink.PLAIN, text, Ink.PLAIN);
  }

  /** One of several items below a heading. */
  public Page bullet(String text) {
    return hanging("  " + sign("\u2022", "*") + " ", Ink.PLAIN, text, Ink.PLAIN);
  }

  /** A label with text beside it; on a narrow screen the text starts on the label's line. */
  public Page labelled(String label, Ink ink, String text) {
    String shown = fit(label);
    if (screen.isNarrow()) {
      return wrapped(
          "  " + ink(ink, shown + ":") + " ", 2 + columnsOf(shown) + 2, 4, text, Ink.PLAIN);
    }
    String lead = "  " + ink(ink, shown) + " ".repeat(Math.max(1, 9 - columnsOf(shown)));
    int taken = 2 + Math.max(columnsOf(shown) + 1, 9);
    return wrapped(lead, taken, 11, text, Ink.PLAIN);
  }

  /** Text beside a lead; further lines of it stand below its beginning. */
  public Page hanging(String lead, Ink leadInk, String text, Ink textInk) {
    String shown = fitKeepingSpaces(lead);
    int columns = columnsOf(shown);
    return wrapped(ink(leadInk, shown), columns, columns, text, textInk);
  }

  /** The wider of the two signs on screens that show it, or else the plain one. */
  String sign(String wide, String plain) {
    return screen.unicode() ? wide : plain;
  }

  /**
   * The text, cut so that it fits on one line beside the rest; whole where the screen is so narrow
   * that little would be left.
   */
  String cut(String text, String rest) {
    String shown = fit(text);
    int room = screen.width() - columnsOf(fitKeepingSpaces(rest));
    if (screen.isNarrow() || columnsOf(shown) <= room) {
      return shown;
    }
    String dots = sign("\u2026", "...");
    StringBuilder kept = new StringBuilder();
    for (String word : shown.split(" ")) {
      if (columnsOf(kept + word) + 1 + dots.length() > room) {
        break;
      }
      kept.append(kept.length() == 0 ? "" : " ").append(word);
    }
    return kept + dots;
  }

  private Page wrapped(String lead, int leadColumns, int indent, String text, Ink ink) {
    StringBuilder line = new StringBuilder();
    String start = lead;
    int used = leadColumns;
    for (String bound : Letters.bind(fit(text), BOUND).split(" +")) {
      String word = bound.replace(BOUND, ' ');
      int columns = columnsOf(word);
      if (line.length() > 0 && used + 1 + columns > screen.width()) {
        lines.add(start + ink(ink, line.toString()));
        line.setLength(0);
        start = " ".repeat(indent);
        used = indent;
      }
      if (line.length() > 0) {
        line.append(' ');
        used++;
      }
      line.append(word);
      used += columns;
    }
    lines.add((start + ink(ink, line.toString())).stripTrailing());
    return this;
  }

  private String ink(Ink ink, String text) {
    return screen.colour() ? ink.on(text) : text;
  }

  private String fit(String text) {
    return fitKeepingSpaces(text).strip();
  }

  private String fitKeepingSpaces(String text) {
    String harmless = Letters.harmless(text);
    return screen.unicode() ? harmless : Letters.ascii(harmless);
  }

  private static int columnsOf(String text) {
    return Letters.columns(text);
  }
}
