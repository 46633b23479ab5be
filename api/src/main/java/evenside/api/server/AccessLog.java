package evenside.api.server;

import evenside.api.http.Finished;
import evenside.api.log.LogFields;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.function.Consumer;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.slf4j.spi.LoggingEventBuilder;

/** One line per request. Never a path, a query or a value, as those can hold personal data. */
final class AccessLog implements Consumer<Finished> {
  private static final Logger LOG = LoggerFactory.getLogger("evenside.access");

  @Override
  public void accept(Finished request) {
    Map<String, Object> fields = new LinkedHashMap<>();
    fields.put(LogFields.METHOD, request.method());
    fields.put(LogFields.ROUTE, request.route());
    fields.put(LogFields.STATUS, request.status());
    fields.put(LogFields.DURATION, request.duration().toMillis());
    fields.put(LogFields.REQUEST, request.requestId());
    fields.put(LogFields.TRACE, request.trace().traceId());
    request.client().ifPresent(client -> fields.put(LogFields.CLIENT, client));
    request.recordId().ifPresent(id -> fields.put(LogFields.RESOURCE, id));
    if (!request.faults().isEmpty()) {
      fields.put(LogFields.FAULTS, String.join(" ", request.faults()));
    }
    LoggingEventBuilder line = LOG.atInfo();
    for (Map.Entry<String, Object> field : fields.entrySet()) {
      line = line.addKeyValue(field.getKey(), field.getValue());
    }
    line.log("request");
  }
}
