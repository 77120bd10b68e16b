package org.faultwright.cli;

import java.io.InputStream;
import java.io.PrintWriter;
import java.util.Map;
import java.util.regex.Pattern;
import org.faultwright.cli.text.Letters;
import org.faultwright.cli.text.Screen;

/**
 * What a command runs in.
 *
 * @param in standard input
 * @param out for results
 * @param err for everything else
 * @param environment the variables of the shell
 * @param terminal whether a person looks at {@code out}
 * @param keyboard whether a person types into {@code in}
 */
record Surroundings(
    InputStream in,
    PrintWriter out,
    PrintWriter err,
    Map<String, String> environment,
    boolean terminal,
    boolean keyboard) {

  private static final Pattern QUOTED = Pattern.compile("^ *\\d+ \\| ");

  Screen screen() {
    return Screen.of(environment, terminal);
  }

  /** Tells the person at the terminal something that is no result. */
  void tell(String words) {
    err.println("faultwright: " + shown(words));
    err.flush();
  }

  /** Prints a report of problems, whose signs stay in their columns. */
  void report(String report) {
    report.lines().forEach(line -> err.println(shown(line)));
    err.flush();
  }

  /** Prints lines that are results. */
  void results(String lines) {
    lines.lines().forEach(line -> out.println(shown(line)));
  }

  private String shown(String line) {
    if (screen().unicode()) {
      return line;
    }
    // in a quoted line every sign has to keep its column, for the carets below it
    return QUOTED.matcher(line).find() ? Letters.asciiInPlace(line) : Letters.ascii(line);
  }
}
