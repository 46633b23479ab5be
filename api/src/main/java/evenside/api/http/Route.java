package evenside.api.http;

import java.util.List;
import java.util.Set;

/**
 * One line of the route table.
 *
 * @param method the method
 * @param path path template, {@code /v1/cases/{caseId}}
 * @param endpoint what answers
 * @param produces media types of the answer, the preferred one first
 * @param query names of the query parameters it takes
 */
public record Route(
    Method method, String path, Endpoint endpoint, List<String> produces, Set<String> query) {
  /** Media type of almost everything. */
  public static final String JSON = "application/json";

  /** Keeps its own copies. */
  public Route {
    produces = List.copyOf(produces);
    query = Set.copyOf(query);
  }

  /** A route that answers GET with JSON and takes no query parameter. */
  public static Route get(String path, Endpoint endpoint) {
    return new Route(Method.GET, path, endpoint, List.of(JSON), Set.of());
  }

  /** A route that answers POST with JSON. */
  public static Route post(String path, Endpoint endpoint) {
    return new Route(Method.POST, path, endpoint, List.of(JSON), Set.of());
  }

  /** A route that answers PUT with JSON. */
  public static Route put(String path, Endpoint endpoint) {
    return new Route(Method.PUT, path, endpoint, List.of(JSON), Set.of());
  }

  /** The same route, answering in these media types. */
  public Route producing(String... mediaTypes) {
    return new Route(method, path, endpoint, List.of(mediaTypes), query);
  }

  /** The same route, taking these query parameters. */
  public Route taking(String... parameters) {
    return new Route(method, path, endpoint, produces, Set.of(parameters));
  }
}
