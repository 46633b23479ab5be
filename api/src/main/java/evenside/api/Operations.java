package evenside.api;

import evenside.api.http.Finished;
import evenside.api.http.RateLimit;
import evenside.api.metrics.Metrics;
import evenside.api.resource.Check;
import evenside.api.resource.OperationsResource;
import evenside.api.server.Draining;
import evenside.api.server.ServerLimits;
import evenside.readiness.ReadinessService;
import java.util.List;

/**
 * How the service is watched and held within limits.
 *
 * @param checks what it takes to be ready
 * @param metrics its numbers
 * @param metricsApart whether these are served on a port of their own
 * @param draining whether it is about to stop
 * @param limits what the server gives to those who connect
 * @param rateLimit what one client may send
 */
record Operations(
    List<Check> checks,
    Metrics metrics,
    boolean metricsApart,
    Draining draining,
    ServerLimits limits,
    RateLimit rateLimit) {
  /** Keeps its own copy. */
  Operations {
    checks = List.copyOf(checks);
  }

  /** Every default: ready as long as the store answers and the ledgers take entries. */
  static Operations of(ReadinessService service) {
    return with(
        List.of(
            new Check("The database does not answer.", service::storeAnswers),
            new Check(
                "A ledger takes no entries; the log says why.",
                () -> service.ledger().trouble().isEmpty())));
  }

  /** Every other default. */
  static Operations with(List<Check> checks) {
    return new Operations(
        checks, new Metrics(), false, new Draining(), ServerLimits.DEFAULT, RateLimit.NONE);
  }

  /** Tells the numbers of a request. */
  void count(Finished request) {
    metrics.accept(request);
  }

  OperationsResource resource(ReadinessService service) {
    return new OperationsResource(service.ledger()::on, checks, metrics::text);
  }
}
