package org.faultwright.cli;

/** A command cannot go on, and the person at the terminal is to know why. Not a fault of ours. */
final class Stopped extends RuntimeException {
  private static final long serialVersionUID = 1L;

  private final int exitCode;
  private final boolean report;

  private Stopped(int exitCode, boolean report, String text) {
    super(text);
    this.exitCode = exitCode;
    this.report = report;
  }

  /** Something that the command line names is not there, or is not what it has to be. */
  static Stopped byUsage(String words) {
    return new Stopped(ExitCode.USAGE, false, words);
  }

  /** A file has errors. */
  static Stopped byProblems(String report) {
    return new Stopped(ExitCode.FINDINGS, true, report);
  }

  /** Something about the case stands in the way. */
  static Stopped byFinding(String words) {
    return new Stopped(ExitCode.FINDINGS, false, words);
  }

  int tell(Surroundings surroundings) {
    if (report) {
      surroundings.report(getMessage());
    } else {
      surroundings.tell(getMessage());
    }
    return exitCode;
  }
}
