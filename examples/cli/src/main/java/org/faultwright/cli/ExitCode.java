package org.faultwright.cli;

/** What a shell script learns from a finished command. */
final class ExitCode {
  /** The command did what was asked and found nothing to complain about. */
  static final int CLEAN = 0;

  /** The command ran and reports findings: problems in a file, an expectation that failed. */
  static final int FINDINGS = 1;

  /** The command line itself, or the machine it runs on, is not as it has to be. */
  static final int USAGE = 2;

  /** A fault of Faultwright; only here a trace is printed. */
  static final int OWN_FAULT = 3;

  private ExitCode() {}
}
