package evenside.api.http;

import evenside.api.access.Caller;
import evenside.api.problem.Problem;
import evenside.api.trace.TraceContext;
import evenside.schemas.Fault;
import io.javalin.http.Context;
import java.time.Duration;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Pattern;
import org.eclipse.jetty.server.Request;

/** What is noted on a request while it is served, for those who look at it when it has ended. */
public final class Notes {
  private static final String ROUTE = "evenside.route";
  private static final String CLIENT = "evenside.client";
  private static final String RECORD = "evenside.record";
  private static final String FAULTS = "evenside.faults";
  private static final int MOST_CODES = 20;
  private static final Set<String> METHODS =
      Set.of("GET", "HEAD", "POST", "PUT", "PATCH", "DELETE", "OPTIONS", "TRACE", "CONNECT");

  /** The ids that the service gives out (RFC 9562, version 7). */
  private static final Pattern OWN_ID =
      Pattern.compile("[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}");

  private Notes() {}

  static void route(Context context, String template) {
    context.attribute(ROUTE, template);
  }

  static void client(Context context, Caller caller) {
    context.attribute(CLIENT, caller.client());
  }

  /**
   * Notes the record behind an answer: the one it was made under, or the one that was asked for. An
   * id that a client chose, as that of a case, is not noted.
   */
  static void record(Context context, Map<String, String> ids, Reply reply) {
    String location = reply.headers().getOrDefault("Location", "");
    List<String> candidates = new ArrayList<>(ids.values());
    candidates.add(location.substring(location.lastIndexOf('/') + 1));
    for (String id : candidates) {
      if (OWN_ID.matcher(id).matches() && !id.equals(ids.get("caseId"))) {
        context.attribute(RECORD, id);
      }
    }
  }

  static void problem(Context context, Problem problem) {
    Set<String> codes = new LinkedHashSet<>();
    codes.add(problem.type().slug());
    problem.place().ifPresent(place -> codes.add(place.code()));
    problem.faults().stream().map(Fault::code).forEach(codes::add);
    context.attribute(FAULTS, codes.stream().limit(MOST_CODES).toList());
  }

  /** All notes together, with the status that was answered. */
  public static Finished finished(Request request, int status) {
    long nanos = System.nanoTime() - request.getBeginNanoTime();
    return new Finished(
        METHODS.contains(request.getMethod()) ? request.getMethod() : "OTHER",
        text(request, ROUTE).orElse("-"),
        status,
        Duration.ofNanos(nanos),
        RequestIds.of(request),
        TraceContext.of(request.getHeaders().getValuesList(TraceContext.HEADER)),
        text(request, CLIENT),
        text(request, RECORD),
        codes(request));
  }

  private static Optional<String> text(Request request, String name) {
    return Optional.ofNullable(request.getAttribute(name)).map(Object::toString);
  }

  private static List<String> codes(Request request) {
    return request.getAttribute(FAULTS) instanceof List<?> codes
        ? codes.stream().map(Object::toString).toList()
        : List.of();
  }
}
