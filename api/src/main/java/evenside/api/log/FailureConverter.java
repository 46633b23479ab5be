package evenside.api.log;

import ch.qos.logback.classic.pattern.ThrowableHandlingConverter;
import ch.qos.logback.classic.spi.ILoggingEvent;

/** What failed, in its plain form. */
public final class FailureConverter extends ThrowableHandlingConverter {
  @Override
  public String convert(ILoggingEvent event) {
    String failure = Discreet.failure(event);
    return failure.isEmpty() ? "" : failure + System.lineSeparator();
  }
}
