package org.faultwright.cli.dialogue;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.PrintWriter;
import java.util.Collection;
import java.util.List;
import java.util.Optional;
import org.faultwright.cli.text.Screen;

/**
 * A console that only reads lines and writes lines: a terminal that cannot move its cursor, a
 * screen reader, a pipe.
 */
public final class StreamConsole implements Console {

  private final BufferedReader in;
  private final PrintWriter out;
  private final Screen screen;
  private final int rows;
  private final boolean plain;

  /**
   * Reads from one and writes to the other; closes neither.
   *
   * @param rows how many lines are seen at once
   * @param plain whether to speak in sentences
   */
  public StreamConsole(BufferedReader in, PrintWriter out, Screen screen, int rows, boolean plain) {
    this.in = in;
    this.out = out;
    this.screen = screen;
    this.rows = rows;
    this.plain = plain;
  }

  @Override
  public Screen screen() {
    return screen;
  }

  @Override
  public int rows() {
    return rows;
  }

  @Override
  public boolean isPlain() {
    return plain;
  }

  @Override
  public void show(List<String> lines) {
    lines.forEach(out::println);
  }

  @Override
  public Optional<String> ask(Collection<String> words) {
    out.print(plain ? "Answer: " : "> ");
    out.flush();
    try {
      return Optional.ofNullable(in.readLine());
    } catch (IOException e) {
      return Optional.empty(); // a terminal that went away
    }
  }

  @Override
  public void close() {
    out.flush();
  }
}
