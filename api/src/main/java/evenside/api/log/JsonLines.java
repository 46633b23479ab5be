package evenside.api.log;

import ch.qos.logback.classic.LoggerContext;
import ch.qos.logback.classic.spi.ILoggingEvent;
import ch.qos.logback.core.encoder.Encoder;
import net.logstash.logback.composite.loggingevent.KeyValuePairsJsonProvider;
import net.logstash.logback.composite.loggingevent.LogLevelJsonProvider;
import net.logstash.logback.composite.loggingevent.LoggerNameJsonProvider;
import net.logstash.logback.composite.loggingevent.LoggingEventFormattedTimestampJsonProvider;
import net.logstash.logback.composite.loggingevent.LoggingEventJsonProviders;
import net.logstash.logback.encoder.LoggingEventCompositeJsonEncoder;

/** The log for a machine: a JSON object a line, with the fields named here and no others. */
final class JsonLines {
  private JsonLines() {}

  static Encoder<ILoggingEvent> encoder(LoggerContext log) {
    LoggingEventJsonProviders members = new LoggingEventJsonProviders();
    members.addTimestamp(time());
    members.addLogLevel(new LogLevelJsonProvider());
    members.addLoggerName(logger());
    members.addProvider(new SentenceProvider());
    members.addKeyValuePairs(fields());
    members.addProvider(new FailureProvider());
    members.setContext(log);
    LoggingEventCompositeJsonEncoder encoder = new LoggingEventCompositeJsonEncoder();
    encoder.setContext(log);
    encoder.setFindAndRegisterJacksonModules(false);
    encoder.setProviders(members);
    return encoder;
  }

  private static LoggingEventFormattedTimestampJsonProvider time() {
    LoggingEventFormattedTimestampJsonProvider time =
        new LoggingEventFormattedTimestampJsonProvider();
    time.setFieldName("time");
    time.setTimeZone("UTC");
    return time;
  }

  private static LoggerNameJsonProvider logger() {
    LoggerNameJsonProvider logger = new LoggerNameJsonProvider();
    logger.setFieldName("logger");
    return logger;
  }

  private static KeyValuePairsJsonProvider fields() {
    KeyValuePairsJsonProvider fields = new KeyValuePairsJsonProvider();
    LogFields.ALL.forEach(fields::addIncludeKeyName);
    return fields;
  }
}
