package evenside.api.http;

import evenside.api.access.Caller;
import evenside.schemas.StrictJson;
import evenside.schemas.StrictJson.Limits;
import java.io.InputStream;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import java.util.function.Supplier;
import tools.jackson.databind.JsonNode;

/**
 * One request as an endpoint sees it: method, parameters and media types are already checked.
 *
 * @param caller who sent it
 * @param method the method
 * @param path the path as sent
 * @param ids path parameters by name, decoded, not yet checked
 * @param query query parameters by name, decoded, none unknown
 * @param headers all values of a header
 * @param mediaType media type to answer in
 * @param body reads the body; at most once
 * @param stream gives the body as it comes, on a route that takes it so
 */
public record Call(
    Caller caller,
    Method method,
    String path,
    Map<String, String> ids,
    Map<String, String> query,
    Function<String, List<String>> headers,
    String mediaType,
    Supplier<byte[]> body,
    Supplier<InputStream> stream) {
  /**
   * Whose records it may touch.
   *
   * @throws IllegalStateException on a route that is open to anyone and met somebody unknown
   */
  public String clinic() {
    return caller
        .clinic()
        .orElseThrow(() -> new IllegalStateException("an open route touches no clinic's records"));
  }

  /** A path parameter of the route's template. */
  public String id(String name) {
    String value = ids.get(name);
    if (value == null) {
      throw new IllegalArgumentException("the route has no path parameter " + name);
    }
    return value;
  }

  /** A query parameter, if it was sent. */
  public Optional<String> query(String name) {
    return Optional.ofNullable(query.get(name));
  }

  /** All values of a header, in the order sent. */
  public List<String> header(String name) {
    return headers.apply(name);
  }

  /**
   * The body, read strictly.
   *
   * @throws evenside.schemas.NotJson if it is not JSON within the limits
   * @throws evenside.api.problem.ProblemException if it is too large or not what its digest says
   */
  public JsonNode json() {
    byte[] bytes = body.get();
    Digests.verify(header("Content-Digest"), bytes);
    Digests.verify(header("Repr-Digest"), bytes);
    return StrictJson.read(bytes, Limits.REQUEST);
  }
}
