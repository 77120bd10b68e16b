package org.faultwright.interchange;

import java.util.Optional;
import org.faultwright.problem.Span;

/** The words, numbers and signs of a text in BIF. Not thread-safe. */
final class BifTokens {

  private static final String SIGNS = "{}()[];";
  private static final String BLANK = ",|";

  /**
   * A word, number or sign.
   *
   * @param quoted whether it stood in quotes, and so is no sign and no keyword
   */
  record Token(String text, boolean quoted, Span at) {
    boolean is(String sign) {
      return !quoted && text.equals(sign);
    }
  }

  private final String text;
  private final Places places;
  private int position;
  private Token ahead;

  BifTokens(ExchangeText source, Places places) {
    this.text = source.text();
    this.places = places;
  }

  /** The next token, without taking it; empty at the end. */
  Optional<Token> peek() {
    if (ahead == null) {
      ahead = read();
    }
    return Optional.ofNullable(ahead);
  }

  /** The next token; empty at the end. */
  Optional<Token> next() {
    Optional<Token> next = peek();
    ahead = null;
    return next;
  }

  /** Where the text ends. */
  Span end() {
    return places.span(text.length(), 1);
  }

  private Token read() {
    skipBlank();
    if (position >= text.length()) {
      return null;
    }
    int start = position;
    char c = text.charAt(start);
    if (SIGNS.indexOf(c) >= 0) {
      position++;
      return new Token(String.valueOf(c), false, places.span(start, 1));
    }
    if (c == '"') {
      int end = text.indexOf('"', start + 1);
      position = end < 0 ? text.length() : end + 1;
      String inside = text.substring(start + 1, end < 0 ? text.length() : end);
      return new Token(inside, true, places.span(start, position - start));
    }
    while (position < text.length() && isOfWord(text.charAt(position)) && !comment(position)) {
      position++;
    }
    return new Token(text.substring(start, position), false, places.span(start, position - start));
  }

  private static boolean isOfWord(char c) {
    return !Character.isWhitespace(c) && SIGNS.indexOf(c) < 0 && BLANK.indexOf(c) < 0 && c != '"';
  }

  private boolean comment(int at) {
    return text.startsWith("//", at) || text.startsWith("/*", at);
  }

  private void skipBlank() {
    while (position < text.length()) {
      char c = text.charAt(position);
      if (Character.isWhitespace(c) || BLANK.indexOf(c) >= 0) {
        position++;
      } else if (text.startsWith("//", position)) {
        int end = text.indexOf('\n', position);
        position = end < 0 ? text.length() : end;
      } else if (text.startsWith("/*", position)) {
        int end = text.indexOf("*/", position);
        position = end < 0 ? text.length() : end + 2;
      } else {
        return;
      }
    }
  }
}
