package evenside.api.log;

import ch.qos.logback.classic.spi.ILoggingEvent;
import net.logstash.logback.composite.AbstractFieldJsonProvider;
import net.logstash.logback.composite.JsonWritingUtils;
import tools.jackson.core.JsonGenerator;

/** The sentence of an event, in its JSON form. */
public final class SentenceProvider extends AbstractFieldJsonProvider<ILoggingEvent> {
  /** Made by the log's configuration. */
  public SentenceProvider() {
    setFieldName("message");
  }

  @Override
  public void writeTo(JsonGenerator json, ILoggingEvent event) {
    JsonWritingUtils.writeStringField(json, getFieldName(), Discreet.sentence(event));
  }
}
