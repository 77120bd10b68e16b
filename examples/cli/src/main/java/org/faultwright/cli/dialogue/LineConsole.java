package org.faultwright.cli.dialogue;

import java.io.IOException;
import java.util.Collection;
import java.util.List;
import java.util.Optional;
import org.faultwright.cli.text.Screen;
import org.jline.reader.Candidate;
import org.jline.reader.EndOfFileException;
import org.jline.reader.LineReader;
import org.jline.reader.LineReaderBuilder;
import org.jline.reader.UserInterruptException;
import org.jline.terminal.Terminal;
import org.jline.terminal.TerminalBuilder;
import org.jline.utils.InfoCmp.Capability;

/**
 * A terminal with a line to edit: completion with the tab key, earlier lines with the arrows. What
 * was typed is kept for this run only, since it speaks of customers.
 */
public final class LineConsole implements Console {

  private static final int USUAL_ROWS = 24;
  private static final int LEAST_ROWS = 10;

  private final Terminal terminal;
  private final LineReader reader;
  private final Screen usual;
  private Collection<String> words = List.of();

  private LineConsole(Terminal terminal, Screen usual) {
    this.terminal = terminal;
    this.usual = usual;
    this.reader =
        LineReaderBuilder.builder()
            .terminal(terminal)
            .appName("faultwright")
            .completer(
                (line, parsed, candidates) ->
                    words.forEach(word -> candidates.add(new Candidate(word))))
            .option(LineReader.Option.DISABLE_EVENT_EXPANSION, true)
            .option(LineReader.Option.BRACKETED_PASTE, true) // a pasted table is one answer
            .build();
  }

  /**
   * The terminal that this program runs at.
   *
   * @param usual what it shows where it does not say how wide it is
   * @throws IOException when there is none
   */
  public static LineConsole atThisTerminal(Screen usual) throws IOException {
    return at(TerminalBuilder.builder().system(true).dumb(false).build(), usual);
  }

  /** A terminal that is there already. */
  static LineConsole at(Terminal terminal, Screen usual) {
    return new LineConsole(terminal, usual);
  }

  @Override
  public Screen screen() {
    int width = terminal.getWidth();
    return width <= 0
        ? usual
        : new Screen(
            Math.max(Screen.NARROWEST, Math.min(Screen.WIDEST, width)),
            usual.unicode(),
            usual.colour());
  }

  @Override
  public int rows() {
    int height = terminal.getHeight();
    return height <= 0 ? USUAL_ROWS : Math.max(LEAST_ROWS, height);
  }

  @Override
  public boolean isPlain() {
    return false;
  }

  @Override
  public boolean leavesTime() {
    return true;
  }

  @Override
  public void show(List<String> lines) {
    terminal.puts(Capability.clear_screen);
    lines.forEach(line -> terminal.writer().println(line));
    terminal.flush();
  }

  @Override
  public Optional<String> ask(Collection<String> offered) {
    words = offered;
    try {
      return Optional.of(reader.readLine("> "));
    } catch (UserInterruptException | EndOfFileException e) {
      return Optional.empty();
    }
  }

  @Override
  public void close() {
    try {
      terminal.close();
    } catch (IOException e) {
      return; // nothing is left to be said to it
    }
  }
}
