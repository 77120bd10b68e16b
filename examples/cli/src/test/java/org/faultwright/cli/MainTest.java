package org.faultwright.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.PrintWriter;
import java.io.StringWriter;
import org.junit.jupiter.api.Test;

class MainTest {
  private final StringWriter out = new StringWriter();
  private final StringWriter err = new StringWriter();

  @Test
  void help_goesToStandardOutput_whenAskedFor() {
    assertThat(run("--help")).isEqualTo(ExitCode.CLEAN);
    assertThat(out.toString()).startsWith("Usage: faultwright").contains("Exit codes:");
    assertThat(err.toString()).isEmpty();
  }

  @Test
  void usage_goesToStandardError_whenNoCommandIsGiven() {
    assertThat(run()).isEqualTo(ExitCode.USAGE);
    assertThat(out.toString()).isEmpty();
    assertThat(err.toString()).startsWith("faultwright: which command?").contains("Usage:");
  }

  @Test
  void message_namesTheWord_whenACommandIsUnknown() {
    assertThat(run("mend")).isEqualTo(ExitCode.USAGE);
    assertThat(out.toString()).isEmpty();
    assertThat(err.toString()).contains("'mend'");
  }

  private int run(String... args) {
    return Main.run(new PrintWriter(out, true), new PrintWriter(err, true), args);
  }
}
