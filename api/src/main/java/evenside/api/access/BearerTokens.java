package evenside.api.access;

import evenside.api.problem.Problem;
import evenside.api.problem.ProblemType;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.function.Consumer;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Authentication by {@code Authorization: Bearer} (RFC 6750, section 2.1), and in no other place of
 * a request. Whatever is wrong with a token, the answer is the same.
 */
public final class BearerTokens implements Authentication {
  /** The longest token that is looked at, in characters. */
  static final int LONGEST = 8 * 1024;

  private static final Pattern BEARER =
      Pattern.compile("bearer +([A-Za-z0-9._~+/-]+=*)", Pattern.CASE_INSENSITIVE);

  private final List<TokenKind> kinds;
  private final Consumer<String> firstUse;
  private final Set<String> used = ConcurrentHashMap.newKeySet();

  /**
   * Takes tokens of several kinds.
   *
   * @param kinds asked in this order
   * @param firstUse told of each clinic once, before its first request is answered
   */
  public BearerTokens(List<TokenKind> kinds, Consumer<String> firstUse) {
    this.kinds = List.copyOf(kinds);
    this.firstUse = firstUse;
  }

  @Override
  public Caller caller(List<String> authorization) {
    Caller caller =
        token(authorization).flatMap(this::ask).orElseThrow(() -> refused(authorization));
    caller
        .clinic()
        .filter(clinic -> !used.contains(clinic))
        .ifPresent(
            clinic -> {
              firstUse.accept(clinic);
              used.add(clinic);
            });
    return caller;
  }

  private Optional<Caller> ask(String token) {
    return kinds.stream().flatMap(kind -> kind.caller(token).stream()).findFirst();
  }

  private static Optional<String> token(List<String> authorization) {
    if (authorization.size() != 1 || authorization.get(0).length() > LONGEST) {
      return Optional.empty();
    }
    Matcher bearer = BEARER.matcher(authorization.get(0).strip());
    return bearer.matches() ? Optional.of(bearer.group(1)) : Optional.empty();
  }

  private static RuntimeException refused(List<String> authorization) {
    String error = authorization.isEmpty() ? "" : ", error=\"invalid_token\"";
    return Problem.of(
            ProblemType.UNAUTHENTICATED, "There is no bearer token that is accepted here.")
        .withHeader("WWW-Authenticate", CHALLENGE + error)
        .asException();
  }
}
