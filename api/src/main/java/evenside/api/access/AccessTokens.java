package evenside.api.access;

import java.math.BigDecimal;
import java.time.Duration;
import java.time.Instant;
import java.time.InstantSource;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import tools.jackson.databind.JsonNode;

/**
 * Access tokens of one authorization server (JWT profile, RFC 9068). We are the resource server and
 * issue none. The token names its client; the clinic of that client is the operator's to say.
 * {@code jku}, {@code jwk} and {@code x5u} in a token are not looked at: keys come from the
 * settings alone.
 */
public final class AccessTokens implements TokenKind {
  private static final Logger LOG = LoggerFactory.getLogger(AccessTokens.class);

  private static final Duration SKEW = Duration.ofSeconds(60);
  private static final Duration OLDEST_KEYS = Duration.ofMinutes(10);
  private static final Duration OLDEST_CLIENTS = Duration.ofMinutes(1);
  private static final Set<String> TYPES = Set.of("at+jwt", "application/at+jwt");
  private static final List<String> TEXTS = List.of("sub", "client_id", "jti");

  private final String issuer;
  private final String audience;
  private final Refreshed<VerificationKeys> keys;
  private final Refreshed<ClientMap> clients;
  private final InstantSource clock;
  private final Remembered<Believed> believed;

  /**
   * A token that held.
   *
   * @param keys the keys it held by; after a change of them it is looked at again
   */
  private record Believed(String clientId, Set<Scope> scopes, VerificationKeys keys) {}

  private AccessTokens(Trusted trusted, Refreshed<VerificationKeys> keys, InstantSource clock) {
    this.issuer = trusted.issuer();
    this.audience = trusted.audience();
    this.keys = keys;
    this.clients = Refreshed.demanding(trusted.clients(), ClientMap::parse, OLDEST_CLIENTS, clock);
    this.clock = clock;
    this.believed = new Remembered<>(clock);
  }

  /**
   * Whose tokens are taken.
   *
   * @param issuer the server, exactly as it stands in {@code iss}
   * @param audience our name, which must be in {@code aud}
   * @param keys its JWK set
   * @param clients the clinic of each client
   */
  public record Trusted(String issuer, String audience, Source keys, Source clients) {}

  /**
   * Tokens of a server. Files must be right now; a URL that does not answer is asked again later,
   * and until then no token holds.
   *
   * @throws IllegalArgumentException if a file cannot be used
   */
  public static AccessTokens of(Trusted trusted, InstantSource clock) {
    Source source = trusted.keys();
    Refreshed<VerificationKeys> keys =
        source instanceof Source.Url
            ? Refreshed.hoping(
                source, VerificationKeys::parse, OLDEST_KEYS, clock, VerificationKeys.NONE)
            : Refreshed.demanding(source, VerificationKeys::parse, OLDEST_KEYS, clock);
    return new AccessTokens(trusted, keys, clock);
  }

  @Override
  public Optional<Caller> caller(String token) {
    VerificationKeys now = keys.get();
    return believed
        .get(token)
        .filter(one -> one.keys() == now)
        .or(() -> verify(token))
        .flatMap(this::caller);
  }

  private Optional<Caller> caller(Believed token) {
    return clients
        .get()
        .of(token.clientId())
        .or(() -> clients.again().of(token.clientId()))
        .map(member -> Caller.of(member.clinic(), member.client(), token.scopes()));
  }

  private Optional<Believed> verify(String token) {
    Optional<Jws> parsed = Jws.parse(token);
    if (parsed.isEmpty()) {
      return Optional.empty();
    }
    Jws jws = parsed.get();
    Optional<String> fault = faultOfHeader(jws.header()).or(() -> faultOfClaims(jws.payload()));
    VerificationKeys by = keys.get();
    Optional<VerificationKey> key = by.of(jws.keyId());
    if (fault.isEmpty() && key.isEmpty()) {
      by = keys.again();
      key = by.of(jws.keyId());
    }
    boolean signed = fault.isEmpty() && key.isPresent() && key.get().signed(jws);
    if (!signed) {
      // For the operator: the caller is not told which it was.
      LOG.debug("access token refused: {}", fault.orElse("kid or signature"));
      return Optional.empty();
    }
    Believed held = new Believed(Jws.text(jws.payload(), "client_id"), scopes(jws), by);
    believed.put(token, held, expiry(jws.payload()).plus(SKEW));
    return Optional.of(held);
  }

  private static Optional<String> faultOfHeader(JsonNode header) {
    String type = Jws.text(header, "typ").toLowerCase(Locale.ROOT);
    if (!TYPES.contains(type)) {
      return Optional.of("typ");
    }
    // An extension that we must understand; we understand none.
    return header.has("crit") ? Optional.of("crit") : Optional.empty();
  }

  private Optional<String> faultOfClaims(JsonNode claims) {
    Instant now = clock.instant();
    if (!Jws.text(claims, "iss").equals(issuer)) {
      return Optional.of("iss");
    }
    if (!hasAudience(claims.path("aud"))) {
      return Optional.of("aud");
    }
    if (!isTime(claims.path("exp")) || !now.isBefore(expiry(claims).plus(SKEW))) {
      return Optional.of("exp");
    }
    if (!isTime(claims.path("iat")) || isAhead(claims.path("iat"), now)) {
      return Optional.of("iat");
    }
    boolean begins = claims.has("nbf");
    if (begins && (!isTime(claims.path("nbf")) || isAhead(claims.path("nbf"), now))) {
      return Optional.of("nbf");
    }
    return TEXTS.stream().filter(name -> Jws.text(claims, name).isEmpty()).findFirst();
  }

  private boolean hasAudience(JsonNode aud) {
    if (aud.isString()) {
      return aud.asString().equals(audience);
    }
    return aud.isArray()
        && aud.valueStream().anyMatch(one -> one.isString() && one.asString().equals(audience));
  }

  /** A count of seconds that a clock can show: up to the year 9999. */
  private static boolean isTime(JsonNode date) {
    return date.isNumber()
        && date.decimalValue().signum() >= 0
        && date.decimalValue().compareTo(BigDecimal.valueOf(253_402_300_799L)) <= 0;
  }

  private static boolean isAhead(JsonNode date, Instant now) {
    return instant(date).isAfter(now.plus(SKEW));
  }

  private static Instant expiry(JsonNode claims) {
    return instant(claims.path("exp"));
  }

  private static Instant instant(JsonNode date) {
    return Instant.ofEpochSecond(date.decimalValue().longValue());
  }

  /** Of the names in {@code scope} those that are ours; absent, none. */
  private static Set<Scope> scopes(Jws jws) {
    return Arrays.stream(Jws.text(jws.payload(), "scope").split(" "))
        .flatMap(name -> Scope.of(name).stream())
        .collect(Collectors.toSet());
  }
}
