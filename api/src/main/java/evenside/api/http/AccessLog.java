package evenside.api.http;

import evenside.api.log.LogFields;
import java.util.function.Consumer;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.slf4j.spi.LoggingEventBuilder;

/** One line per request. Never a path, a query or a value, as those can hold personal data. */
final class AccessLog implements Consumer<Finished> {
  private static final Logger LOG = LoggerFactory.getLogger("evenside.access");

  @Override
  public void accept(Finished request) {
    LoggingEventBuilder line =
        LOG.atInfo()
            .addKeyValue(LogFields.METHOD, request.method())
            .addKeyValue(LogFields.ROUTE, request.route())
            .addKeyValue(LogFields.STATUS, request.status())
            .addKeyValue(LogFields.DURATION, request.duration().toMillis())
            .addKeyValue(LogFields.REQUEST, request.requestId())
            .addKeyValue(LogFields.TRACE, request.trace().traceId());
    request.client().ifPresent(client -> line.addKeyValue(LogFields.CLIENT, client));
    request.recordId().ifPresent(id -> line.addKeyValue(LogFields.RECORD, id));
    if (!request.faults().isEmpty()) {
      line.addKeyValue(LogFields.FAULTS, String.join(" ", request.faults()));
    }
    line.log("request");
  }
}
