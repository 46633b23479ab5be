package evenside.api.http;

import evenside.api.trace.TraceContext;
import java.time.Duration;
import java.util.List;
import java.util.Optional;

/**
 * What is kept of a request that was answered: nothing that was sent, beside registered names.
 *
 * @param method HTTP method; {@code OTHER} for one that nobody knows
 * @param route path template; {@code -} if it met none
 * @param status HTTP status
 * @param duration from the first byte of the request to the last of the answer
 * @param requestId id of the request
 * @param trace the trace it belongs to
 * @param client who asked, if known
 * @param recordId id of the record that was read or made, given out by the service
 * @param faults kind of problem, then the codes of its faults, each once
 */
public record Finished(
    String method,
    String route,
    int status,
    Duration duration,
    String requestId,
    TraceContext trace,
    Optional<String> client,
    Optional<String> recordId,
    List<String> faults) {}
