package evenside.api.log;

import ch.qos.logback.classic.LoggerContext;
import ch.qos.logback.classic.PatternLayout;
import ch.qos.logback.classic.spi.ILoggingEvent;
import ch.qos.logback.core.encoder.Encoder;
import ch.qos.logback.core.encoder.LayoutWrappingEncoder;

/** The log for a person. */
final class PlainLines {
  private static final String PATTERN =
      "%d{\"yyyy-MM-dd'T'HH:mm:ss.SSSXXX\"} %-5level %logger{20} %sentence %kvp{NONE}%n%failure";

  private PlainLines() {}

  static Encoder<ILoggingEvent> encoder(LoggerContext log) {
    PatternLayout layout = new PatternLayout();
    layout.setContext(log);
    layout.getInstanceConverterMap().put("sentence", SentenceConverter::new);
    layout.getInstanceConverterMap().put("failure", FailureConverter::new);
    layout.setPattern(PATTERN);
    layout.start();
    LayoutWrappingEncoder<ILoggingEvent> encoder = new LayoutWrappingEncoder<>();
    encoder.setContext(log);
    encoder.setLayout(layout);
    return encoder;
  }
}
