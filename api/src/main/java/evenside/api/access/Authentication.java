package evenside.api.access;

import java.util.List;

/** Tells who sent a request. */
@FunctionalInterface
public interface Authentication {
  /** The {@code WWW-Authenticate} value that asks for a token (RFC 6750, section 3). */
  String CHALLENGE = "Bearer realm=\"evenside\"";

  /**
   * The sender of a request.
   *
   * @param authorization all values of its {@code Authorization} header
   * @throws evenside.api.problem.ProblemException 401 if it is nobody known
   */
  Caller caller(List<String> authorization);

  /** Asks for no credentials: everybody is one client of {@code clinic} and may do everything. */
  static Authentication none(String clinic) {
    Caller everybody = Caller.everything(clinic);
    return authorization -> everybody;
  }
}
