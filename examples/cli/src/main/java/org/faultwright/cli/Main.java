package org.faultwright.cli;

import picocli.CommandLine;
import picocli.CommandLine.Command;

/** The command line of Faultwright. */
@Command(name = "faultwright", mixinStandardHelpOptions = true)
public final class Main {
  private Main() {}

  /** Runs one command and ends the process with its exit code. */
  public static void main(String[] args) {
    System.exit(new CommandLine(new Main()).execute(args));
  }
}
