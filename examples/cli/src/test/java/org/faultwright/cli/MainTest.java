package org.faultwright.cli;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

class MainTest {

  @Test
  void help_goesToStandardOutput_whenAskedFor() {
    Shell.Result result = Shell.PLAIN.run("--help");
    assertThat(result.exitCode()).isEqualTo(ExitCode.CLEAN);
    assertThat(result.out()).startsWith("Usage: faultwright").contains("Exit codes:");
    assertThat(result.err()).isEmpty();
  }

  @Test
  void usage_goesToStandardError_whenNoCommandIsGiven() {
    Shell.Result result = Shell.PLAIN.run();
    assertThat(result.exitCode()).isEqualTo(ExitCode.USAGE);
    assertThat(result.out()).isEmpty();
    assertThat(result.err()).startsWith("faultwright: which command?").contains("Usage:");
  }

  @Test
  void message_namesTheWord_whenACommandIsUnknown() {
    Shell.Result result = Shell.PLAIN.run("mend");
    assertThat(result.exitCode()).isEqualTo(ExitCode.USAGE);
    assertThat(result.out()).isEmpty();
    assertThat(result.err()).contains("'mend'");
  }

  @Test
  void helpIsPlain_whenNobodyLooks() {
    assertThat(Shell.PLAIN.run("--help").out()).doesNotContain("\u001b");
    assertThat(Shell.PLAIN.onTerminal().run("--help").out()).contains("\u001b[");
    assertThat(Shell.PLAIN.onTerminal().run("mend").err()).doesNotContain("\u001b");
  }
}
