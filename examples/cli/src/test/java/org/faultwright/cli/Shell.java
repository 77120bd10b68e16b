package org.faultwright.cli;

import static java.nio.charset.StandardCharsets.UTF_8;

import java.io.ByteArrayInputStream;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.util.LinkedHashMap;
import java.util.Map;

/** Runs commands in this process as a shell would, and keeps what they print. Immutable. */
record Shell(Map<String, String> environment, boolean terminal, byte[] in) {

  /** What came of a command. */
  record Result(int exitCode, String out, String err) {}

  /** Nobody looks, and nothing is said about the place. */
  static final Shell PLAIN = new Shell(Map.of(), false, new byte[0]);

  /** With one more variable. */
  Shell with(String name, String value) {
    Map<String, String> more = new LinkedHashMap<>(environment);
    more.put(name, value);
    return new Shell(more, terminal, in);
  }

  /** With somebody looking. */
  Shell onTerminal() {
    return new Shell(environment, true, in);
  }

  /** With this on standard input. */
  Shell reading(byte[] bytes) {
    return new Shell(environment, terminal, bytes);
  }

  /** With this text on standard input. */
  Shell reading(String text) {
    return reading(text.getBytes(UTF_8));
  }

  Result run(String... args) {
    StringWriter out = new StringWriter();
    StringWriter err = new StringWriter();
    Surroundings surroundings =
        new Surroundings(
            new ByteArrayInputStream(in),
            new PrintWriter(out, true),
            new PrintWriter(err, true),
            environment,
            terminal,
            terminal);
    int exitCode = Main.run(surroundings, args);
    return new Result(exitCode, lines(out), lines(err));
  }

  private static String lines(StringWriter text) {
    return text.toString().replace(System.lineSeparator(), "\n");
  }
}
