package evenside.api.http;

/** Answers the calls of one route. */
@FunctionalInterface
public interface Endpoint {
  /**
   * Answers one call.
   *
   * @throws RuntimeException any failure; {@link evenside.api.problem.Problems} makes a problem of
   *     it
   */
  Reply answer(Call call);
}
