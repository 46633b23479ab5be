package evenside.api.access;

import evenside.api.problem.Problem;
import evenside.api.problem.ProblemType;
import java.util.Collection;
import java.util.EnumSet;
import java.util.Optional;
import java.util.Set;

/**
 * Who sent a request.
 *
 * @param clinic whose records it may touch; absent for somebody unknown, who may touch none
 * @param client name of the program that calls, as it is known to the clinic
 * @param scopes what it may do
 */
public record Caller(Optional<String> clinic, String client, Set<Scope> scopes) {
  /** Somebody unknown: may call only what is open to anyone. */
  public static final Caller UNKNOWN = new Caller(Optional.empty(), "unknown", Set.of());

  /** Keeps its own copy. */
  public Caller {
    scopes = Set.copyOf(scopes);
  }

  /** A known client of a clinic. */
  public static Caller of(String clinic, String client, Set<Scope> scopes) {
    return new Caller(Optional.of(clinic), client, scopes);
  }

  /** A client that may do everything in a clinic and bears its name. */
  public static Caller everything(String clinic) {
    return of(clinic, clinic, EnumSet.allOf(Scope.class));
  }

  /**
   * Goes on if it has one of {@code wanted} at least.
   *
   * @throws evenside.api.problem.ProblemException 403 if it has none of them
   */
  public void demandAny(Collection<Scope> wanted) {
    if (wanted.stream().noneMatch(scopes::contains)) {
      String names = String.join(" or ", wanted.stream().map(Scope::wireName).sorted().toList());
      throw Problem.of(ProblemType.SCOPE_MISSING, "This needs the scope " + names + ".")
          .withHeader(
              "WWW-Authenticate", Authentication.CHALLENGE + ", error=\"insufficient_scope\"")
          .asException();
    }
  }
}
