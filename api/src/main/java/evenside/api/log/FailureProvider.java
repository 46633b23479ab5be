package evenside.api.log;

import ch.qos.logback.classic.spi.ILoggingEvent;
import net.logstash.logback.composite.AbstractFieldJsonProvider;
import net.logstash.logback.composite.JsonWritingUtils;
import tools.jackson.core.JsonGenerator;

/** What failed, in its JSON form. */
public final class FailureProvider extends AbstractFieldJsonProvider<ILoggingEvent> {
  /** Made by the log's configuration. */
  public FailureProvider() {
    setFieldName("failure");
  }

  @Override
  public void writeTo(JsonGenerator json, ILoggingEvent event) {
    String failure = Discreet.failure(event);
    if (!failure.isEmpty()) {
      JsonWritingUtils.writeStringField(json, getFieldName(), failure);
    }
  }
}
