package org.faultwright.cli;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import ch.qos.logback.classic.Level;
import ch.qos.logback.classic.LoggerContext;
import ch.qos.logback.classic.util.LogbackMDCAdapter;
import java.io.ByteArrayOutputStream;
import java.io.PrintStream;
import org.junit.jupiter.api.Test;
import org.slf4j.LoggerFactory;

class QuietLogTest {

  @Test
  void isWhatLogbackUses() {
    LoggerContext context = (LoggerContext) LoggerFactory.getILoggerFactory();
    assertThat(context.getLogger("ROOT").getLevel()).isEqualTo(Level.WARN);
  }

  @Test
  void warningsGoToStandardError_andNothingElseAnywhere() {
    PrintStream err = System.err;
    PrintStream out = System.out;
    ByteArrayOutputStream errBytes = new ByteArrayOutputStream();
    ByteArrayOutputStream outBytes = new ByteArrayOutputStream();
    LoggerContext context = new LoggerContext();
    context.setMDCAdapter(new LogbackMDCAdapter());
    try {
      System.setErr(new PrintStream(errBytes, true, UTF_8));
      System.setOut(new PrintStream(outBytes, true, UTF_8));
      new QuietLog().configure(context);
      context.getLogger("some.place").info("all is well");
      context.getLogger("some.place").warn("mind the gap of {} mm", 3);
    } finally {
      System.setErr(err);
      System.setOut(out);
      context.stop();
    }
    assertThat(errBytes.toString(UTF_8))
        .isEqualTo("WARN some.place: mind the gap of 3 mm" + System.lineSeparator());
    assertThat(outBytes.size()).isZero();
  }
}
