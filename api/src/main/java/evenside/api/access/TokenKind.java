package evenside.api.access;

import java.util.Optional;

/** One kind of bearer token. Safe for use by many threads. */
@FunctionalInterface
public interface TokenKind {
  /** Whose token it is; empty if it is none of this kind, or may not be used now. */
  Optional<Caller> caller(String token);
}
