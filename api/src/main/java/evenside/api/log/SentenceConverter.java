package evenside.api.log;

import ch.qos.logback.classic.pattern.ClassicConverter;
import ch.qos.logback.classic.spi.ILoggingEvent;

/** The sentence of an event, in its plain form. */
public final class SentenceConverter extends ClassicConverter {
  @Override
  public String convert(ILoggingEvent event) {
    return Discreet.sentence(event);
  }
}
