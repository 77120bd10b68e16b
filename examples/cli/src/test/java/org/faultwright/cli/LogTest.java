package org.faultwright.cli;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.io.PrintStream;
import org.junit.jupiter.api.Test;
import org.slf4j.Logger;
import org.slf4j.simple.SimpleServiceProvider;

class LogTest {

  @Test
  void warningsGoToStandardError_andNothingElseAnywhere() {
    PrintStream err = System.err;
    PrintStream out = System.out;
    ByteArrayOutputStream errBytes = new ByteArrayOutputStream();
    ByteArrayOutputStream outBytes = new ByteArrayOutputStream();
    try {
      System.setErr(new PrintStream(errBytes, true, UTF_8));
      System.setOut(new PrintStream(outBytes, true, UTF_8));
      SimpleServiceProvider provider = new SimpleServiceProvider();
      provider.initialize();
      Logger logger = provider.getLoggerFactory().getLogger("some.place");
      logger.info("all is well");
      logger.warn("mind the gap of {} mm", 3);
    } finally {
      System.setErr(err);
      System.setOut(out);
    }
    assertThat(errBytes.toString(UTF_8))
        .isEqualTo("WARN some.place - mind the gap of 3 mm" + System.lineSeparator());
    assertThat(outBytes.size()).isZero();
  }
}
