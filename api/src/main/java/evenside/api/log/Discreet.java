package evenside.api.log;

import ch.qos.logback.classic.spi.ILoggingEvent;
import ch.qos.logback.classic.spi.IThrowableProxy;
import ch.qos.logback.classic.spi.StackTraceElementProxy;

/** The text of an event without what a caller may have sent. */
final class Discreet {
  private static final int MOST_CAUSES = 5;
  private static final int MOST_FRAMES = 60;

  private Discreet() {}

  /** The sentence; that of another library without what it was filled with. */
  static String sentence(ILoggingEvent event) {
    boolean ours = event.getLoggerName().startsWith("evenside");
    return ours ? event.getFormattedMessage() : event.getMessage();
  }

  /** Classes and places of a failure and its causes, without any message; empty if none failed. */
  static String failure(ILoggingEvent event) {
    StringBuilder text = new StringBuilder();
    IThrowableProxy failure = event.getThrowableProxy();
    for (int i = 0; failure != null && i < MOST_CAUSES; i++) {
      text.append(i == 0 ? "" : "\n").append(failure.getClassName());
      StackTraceElementProxy[] frames = failure.getStackTraceElementProxyArray();
      for (int j = 0; j < Math.min(frames.length, MOST_FRAMES); j++) {
        text.append("\n  ").append(frames[j].getSTEAsString());
      }
      failure = failure.getCause();
    }
    return text.toString();
  }
}
