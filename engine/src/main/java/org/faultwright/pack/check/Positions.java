package org.faultwright.pack.check;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import org.faultwright.pack.Ordered;
import org.faultwright.problem.Span;

/**
 * Where the statements of a pack stand. A statement is named by the keys that lead to it, with
 * slashes between, as in {@code causes/flex-cracked/share}, {@code steps/bend-check/shows/catches},
 * {@code steps/port-pin-table/points/cc1/open/0}; items of a list are counted from 0. Immutable.
 *
 * <p>The place of a plain value is the value itself; the place of a block or a list is its key.
 */
public final class Positions {

  private final Span start;
  private final Map<String, Span> spans;

  private Positions(Span start, Map<String, Span> spans) {
    this.start = start;
    this.spans = Ordered.copy(spans);
  }

  /**
   * Positions by path.
   *
   * @param start the start of the file, for whatever has no place of its own
   */
  public static Positions of(Span start, Map<String, Span> spans) {
    return new Positions(start, spans);
  }

  /** No positions but the start of a file: for packs built by a program. */
  public static Positions none(String file) {
    return new Positions(new Span(file, 1, 1, 1), new LinkedHashMap<>());
  }

  /** These positions, and others for what has none here. */
  public Positions and(Positions others) {
    Map<String, Span> all = new LinkedHashMap<>(spans);
    others.spans.forEach(all::putIfAbsent);
    return new Positions(start, all);
  }

  /** The place of exactly this statement; empty where it is not written in the file. */
  public Optional<Span> exactly(String path) {
    return Optional.ofNullable(spans.get(path));
  }

  /** The place of this statement, or else of the nearest one around it. */
  public Span of(String path) {
    String p = path;
    while (true) {
      Span span = spans.get(p);
      if (span != null) {
        return span;
      }
      int slash = p.lastIndexOf('/');
      if (slash < 0) {
        return start;
      }
      p = p.substring(0, slash);
    }
  }

  /** Whether the statement is written in this very file, not in a fragment that it uses. */
  boolean isOwn(String path) {
    return exactly(path).map(s -> s.file().equals(start.file())).orElse(false);
  }
}
