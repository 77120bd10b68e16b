package org.faultwright.cli;

import ch.qos.logback.classic.Level;
import ch.qos.logback.classic.LoggerContext;
import ch.qos.logback.classic.spi.Configurator;
import ch.qos.logback.classic.spi.ConfiguratorRank;
import ch.qos.logback.classic.spi.ILoggingEvent;
import ch.qos.logback.core.ConsoleAppender;
import ch.qos.logback.core.LayoutBase;
import ch.qos.logback.core.encoder.LayoutWrappingEncoder;
import ch.qos.logback.core.spi.ContextAwareBase;
import org.slf4j.Logger;

/**
 * Warnings and errors of the libraries, on standard error: a log line among results would spoil
 * them. In code, because to read a configuration in XML takes longer than a diagnosis.
 *
 * <p>Public and found by its name in {@code META-INF/services}, as Logback wants it.
 */
@ConfiguratorRank(ConfiguratorRank.CUSTOM_HIGH_PRIORITY)
public final class QuietLog extends ContextAwareBase implements Configurator {

  /** Called by Logback. */
  public QuietLog() {}

  @Override
  public ExecutionStatus configure(LoggerContext context) {
    LayoutBase<ILoggingEvent> layout =
        new LayoutBase<>() {
          @Override
          public String doLayout(ILoggingEvent event) {
            return event.getLevel()
                + " "
                + event.getLoggerName()
                + ": "
                + event.getFormattedMessage()
                + System.lineSeparator();
          }
        };
    layout.setContext(context);
    layout.start();
    LayoutWrappingEncoder<ILoggingEvent> encoder = new LayoutWrappingEncoder<>();
    encoder.setContext(context);
    encoder.setLayout(layout);
    encoder.start();
    ConsoleAppender<ILoggingEvent> appender = new ConsoleAppender<>();
    appender.setContext(context);
    appender.setTarget("System.err");
    appender.setEncoder(encoder);
    appender.start();
    ch.qos.logback.classic.Logger root = context.getLogger(Logger.ROOT_LOGGER_NAME);
    root.setLevel(Level.WARN);
    root.addAppender(appender);
    return ExecutionStatus.DO_NOT_INVOKE_NEXT_IF_ANY;
  }
}
