package org.faultwright.cli.paper;

import java.util.Locale;

/** Text and numbers as they stand in HTML and SVG. */
final class Markup {

  private Markup() {}

  /** Text that cannot end what it stands in: between tags, and in quoted attributes. */
  static String text(String text) {
    StringBuilder out = new StringBuilder(text.length());
    Plain.of(text)
        .codePoints()
        .forEach(
            c -> {
              switch (c) {
                case '&' -> out.append("&amp;");
                case '<' -> out.append("&lt;");
                case '>' -> out.append("&gt;");
                case '"' -> out.append("&quot;");
                case '\'' -> out.append("&#39;");
                default -> out.appendCodePoint(c);
              }
            });
    return out.toString();
  }

  /** A length with one decimal at most. */
  static String length(double length) {
    String text = String.format(Locale.ROOT, "%.1f", length);
    return text.endsWith(".0") ? text.substring(0, text.length() - 2) : text;
  }
}
