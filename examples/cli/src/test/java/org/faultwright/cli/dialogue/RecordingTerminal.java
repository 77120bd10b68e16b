package org.faultwright.cli.dialogue;

import static java.nio.charset.StandardCharsets.UTF_8;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.util.Arrays;
import java.util.Collection;
import java.util.Iterator;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import org.faultwright.cli.text.Screen;
import org.jline.builtins.ScreenTerminal;
import org.jline.terminal.Size;
import org.jline.terminal.impl.LineDisciplineTerminal;

/**
 * A terminal of 80 columns and 24 rows that types what it is given, key by key through the line
 * editor, and keeps every screen as a person would see it.
 */
final class RecordingTerminal implements Console {

  private static final int COLUMNS = 80;
  private static final int ROWS = 24;

  private final ScreenTerminal seen = new ScreenTerminal(COLUMNS, ROWS);
  private final StringBuilder record = new StringBuilder();
  private final Iterator<String> script;
  private final LineDisciplineTerminal terminal;
  private final LineConsole console;

  RecordingTerminal(Screen screen, List<String> typed) {
    this.script = typed.iterator();
    try {
      terminal = new LineDisciplineTerminal("test", "xterm", new Shown(), UTF_8);
      terminal.setSize(new Size(COLUMNS, ROWS));
      console = LineConsole.at(terminal, screen);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** What the program writes, on its way to the screen. */
  private final class Shown extends OutputStream {
    private final ByteArrayOutputStream pending = new ByteArrayOutputStream();

    @Override
    public void write(int b) {
      pending.write(b);
    }

    @Override
    public void flush() {
      seen.write(pending.toString(UTF_8));
      pending.reset();
    }
  }

  @Override
  public Screen screen() {
    return console.screen();
  }

  @Override
  public int rows() {
    return console.rows();
  }

  @Override
  public boolean isPlain() {
    return console.isPlain();
  }

  @Override
  public void show(List<String> lines) {
    console.show(lines);
  }

  @Override
  public Optional<String> ask(Collection<String> words) {
    if (!script.hasNext()) {
      keep("nothing more");
      return Optional.empty();
    }
    String typed = script.next();
    keep(typed.isEmpty() ? "enter" : typed);
    try {
      terminal.processInputBytes((typed + "\r").getBytes(UTF_8));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return console.ask(words);
  }

  /** The screen at this moment, and what is typed at it. */
  private void keep(String typed) {
    terminal.flush();
    record.append(picture()).append("\n==== typed: ").append(typed).append(" ====\n");
  }

  private String picture() {
    long[] cells = new long[COLUMNS * ROWS];
    seen.dump(cells, 0, 0, ROWS, COLUMNS, new int[2]);
    return Arrays.stream(range())
        .mapToObj(row -> line(cells, row))
        .collect(Collectors.joining("\n"))
        .stripTrailing();
  }

  private static int[] range() {
    return java.util.stream.IntStream.range(0, ROWS).toArray();
  }

  private static String line(long[] cells, int row) {
    StringBuilder line = new StringBuilder();
    for (int column = 0; column < COLUMNS; column++) {
      line.append((char) (cells[row * COLUMNS + column] & 0xffff));
    }
    return line.toString().stripTrailing();
  }

  /** All screens so far, each with what was typed at it. */
  String record() {
    return record.toString();
  }

  @Override
  public void close() {
    console.close();
  }
}
