package evenside.api.log;

import ch.qos.logback.classic.Level;
import ch.qos.logback.classic.Logger;
import ch.qos.logback.classic.LoggerContext;
import ch.qos.logback.classic.spi.ILoggingEvent;
import ch.qos.logback.core.ConsoleAppender;
import ch.qos.logback.core.encoder.Encoder;
import org.jspecify.annotations.Nullable;
import org.slf4j.LoggerFactory;

/**
 * How the log of the service looks. It goes to the standard error stream, as the standard output of
 * a command is its answer; sentences and failures are shown without what a caller may have sent.
 */
public enum LogForm {
  /** A line for a person. */
  PLAIN,
  /** A JSON object a line, for a machine. */
  JSON;

  private static volatile LogForm chosen = PLAIN;

  /** The form that the log of this process has; none until its first line. */
  private static volatile @Nullable LogForm made;

  static LogForm chosen() {
    return chosen;
  }

  /**
   * Makes the log of this process look so from now on. Costs least before the first line: each form
   * that is made takes a twentieth of the start.
   */
  public void use() {
    chosen = this;
    // The first to ask for it has it made in the form chosen.
    LoggerContext log = (LoggerContext) LoggerFactory.getILoggerFactory();
    if (made != this) {
      log.reset();
      make(log);
    }
  }

  /** The first time, or again. */
  void make(LoggerContext log) {
    apply(log);
    made = this;
  }

  private Encoder<ILoggingEvent> encoder(LoggerContext log) {
    return this == PLAIN ? PlainLines.encoder(log) : JsonLines.encoder(log);
  }

  void apply(LoggerContext log) {
    ConsoleAppender<ILoggingEvent> console = new ConsoleAppender<>();
    console.setContext(log);
    console.setName("console");
    console.setTarget("System.err");
    Encoder<ILoggingEvent> lines = encoder(log);
    lines.start();
    console.setEncoder(lines);
    console.start();
    log.getLogger("evenside").setLevel(Level.INFO);
    // Its warnings repeat what a malformed request held.
    log.getLogger("org.eclipse.jetty").setLevel(Level.ERROR);
    Logger root = log.getLogger(org.slf4j.Logger.ROOT_LOGGER_NAME);
    root.setLevel(Level.WARN);
    root.addAppender(console);
  }
}
