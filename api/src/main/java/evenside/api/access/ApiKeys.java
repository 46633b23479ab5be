package evenside.api.access;

import evenside.clients.ClientKey;
import evenside.clients.ClientKeys;
import java.time.Duration;
import java.time.Instant;
import java.time.InstantSource;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;

/**
 * Keys that this service issued. What the store says of one holds for five seconds, so that a
 * client that sends many requests does not cost a look into the store for each; so long may a
 * revoked one go on.
 */
public final class ApiKeys implements TokenKind {
  private static final Duration BELIEVED = Duration.ofSeconds(5);

  private final ClientKeys keys;
  private final InstantSource clock;
  private final Remembered<ClientKey> remembered;

  /** The keys in a store. */
  public ApiKeys(ClientKeys keys, InstantSource clock) {
    this.keys = keys;
    this.clock = clock;
    this.remembered = new Remembered<>(clock);
  }

  @Override
  public Optional<Caller> caller(String token) {
    return remembered
        .get(token)
        .or(() -> look(token))
        .filter(key -> key.isLive(clock.instant()))
        .map(ApiKeys::caller);
  }

  private Optional<ClientKey> look(String token) {
    Instant now = clock.instant();
    Optional<ClientKey> found = keys.find(token);
    found
        .filter(key -> key.isLive(now))
        .ifPresent(
            key -> {
              keys.noteUse(key);
              remembered.put(token, key, now.plus(BELIEVED));
            });
    return found;
  }

  private static Caller caller(ClientKey key) {
    Set<Scope> scopes =
        key.scopes().stream().flatMap(name -> Scope.of(name).stream()).collect(Collectors.toSet());
    return Caller.of(key.clinic(), key.client(), scopes);
  }
}
