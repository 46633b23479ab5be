package evenside.clients;

import evenside.store.Store;
import evenside.store.clients.StoredClientKey;
import evenside.store.database.StoreConflict;
import java.security.SecureRandom;
import java.time.Duration;
import java.time.Instant;
import java.time.InstantSource;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.Collection;
import java.util.List;
import java.util.Optional;
import java.util.TreeSet;
import java.util.regex.Pattern;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * The keys of all clients of all clinics. A key carries its clinic, its client, what it allows and
 * when it ends. Its secret is shown once, when it is issued; the store has only the SHA-256. A
 * client has two live keys at most: the second lets it change over. Safe for use by many threads.
 */
public final class ClientKeys {
  private static final Logger LOG = LoggerFactory.getLogger(ClientKeys.class);

  /** Most keys of one client that may be used at the same time. */
  public static final int MOST_LIVE = 2;

  /** The longest a key may live. */
  public static final Duration LONGEST_LIFE = Duration.ofDays(731);

  private static final Pattern CLINIC = Pattern.compile("[a-z0-9][a-z0-9_-]{0,63}");
  private static final Pattern CLIENT = Pattern.compile("[A-Za-z0-9][A-Za-z0-9._:-]{0,63}");
  private static final Pattern SCOPE = Pattern.compile("[a-z]{1,20}:[a-z]{1,20}");

  private final Store store;
  private final InstantSource clock;
  private final SecureRandom random = new SecureRandom();

  /** The keys in a store. */
  public ClientKeys(Store store, InstantSource clock) {
    this.store = store;
    this.clock = clock;
  }

  /**
   * Whether a clinic can have this name.
   *
   * @return what is wrong with it; empty if it can
   */
  public static Optional<String> faultOfClinic(String clinic) {
    return CLINIC.matcher(clinic).matches()
        ? Optional.empty()
        : Optional.of(
            "a clinic is named by 1 to 64 lower-case letters, digits, '-' and '_',"
                + " the first a letter or digit");
  }

  /**
   * Whether a client can have this name.
   *
   * @return what is wrong with it; empty if it can
   */
  public static Optional<String> faultOfClient(String client) {
    return CLIENT.matcher(client).matches()
        ? Optional.empty()
        : Optional.of(
            "a client is named by 1 to 64 letters, digits, '.', '_', ':' and '-',"
                + " the first a letter or digit");
  }

  /**
   * Issues a key.
   *
   * @param scopes what it allows, one at least, each by its name on the wire
   * @param expiresAt until when; after now, and at most {@link #LONGEST_LIFE} from now
   * @throws ClientRefusal if a name cannot be, or the client has {@link #MOST_LIVE} live keys
   * @throws evenside.store.database.StoreConflict if another was issued to the client at the same
   *     time
   */
  public IssuedKey issue(
      String clinic, String client, Collection<String> scopes, Instant expiresAt) {
    Instant now = clock.instant();
    check(clinic, client, scopes);
    if (!expiresAt.isAfter(now) || expiresAt.isAfter(now.plus(LONGEST_LIFE))) {
      throw new ClientRefusal(
          "a key ends after now and within "
              + LONGEST_LIFE.toDays()
              + " days, not at "
              + expiresAt);
    }
    KeyToken token = KeyToken.random(random);
    ClientKey key =
        store.write(
            writing -> {
              List<StoredClientKey> ofClient =
                  writing.clientKeys().of(clinic).stream()
                      .filter(one -> one.client().equals(client))
                      .toList();
              demandRoom(ofClient, client, now);
              StoredClientKey stored =
                  new StoredClientKey(
                      token.id(),
                      clinic,
                      client,
                      ofClient.size() + 1,
                      token.secretSha256(),
                      String.join(" ", new TreeSet<>(scopes)),
                      now,
                      expiresAt,
                      Optional.empty(),
                      Optional.empty());
              writing.clientKeys().insert(stored);
              return ClientKey.of(stored);
            });
    return new IssuedKey(key, token.text());
  }

  private static void check(String clinic, String client, Collection<String> scopes) {
    faultOfClinic(clinic)
        .or(() -> faultOfClient(client))
        .ifPresent(
            fault -> {
              throw new ClientRefusal(fault);
            });
    if (scopes.isEmpty() || !scopes.stream().allMatch(scope -> SCOPE.matcher(scope).matches())) {
      throw new ClientRefusal("a key needs at least one scope, such as records:write");
    }
  }

  private static void demandRoom(List<StoredClientKey> ofClient, String client, Instant now) {
    List<String> live =
        ofClient.stream()
            .map(ClientKey::of)
            .filter(key -> key.isLive(now))
            .map(ClientKey::id)
            .toList();
    if (live.size() >= MOST_LIVE) {
      throw new ClientRefusal(
          "the client %s has %d live keys already (%s): revoke one first"
              .formatted(client, live.size(), String.join(", ", live)));
    }
  }

  /** All keys of all clinics, or those of one, ended ones too. */
  public List<ClientKey> list(Optional<String> clinic) {
    return store
        .read(
            reading ->
                clinic
                    .map(name -> reading.clientKeys().of(name))
                    .orElseGet(() -> reading.clientKeys().all()))
        .stream()
        .map(ClientKey::of)
        .toList();
  }

  /**
   * Revokes a key: it can be used no more. Revoking it again changes nothing.
   *
   * @return the key, revoked
   * @throws ClientRefusal if there is no such key
   */
  public ClientKey revoke(String id) {
    Instant now = clock.instant();
    return store.write(
        writing -> {
          if (writing.clientKeys().key(id).isEmpty()) {
            throw new ClientRefusal("there is no key " + id);
          }
          writing.clientKeys().revoke(id, now);
          return ClientKey.of(writing.clientKeys().key(id).orElseThrow());
        });
  }

  /** The key that a token is, live or not; empty if it is none. */
  public Optional<ClientKey> find(String token) {
    return KeyToken.parse(token)
        .flatMap(
            parsed ->
                store
                    .read(reading -> reading.clientKeys().key(parsed.id()))
                    .filter(stored -> parsed.hasSecret(stored.secretSha256())))
        .map(ClientKey::of);
  }

  /** Notes that a key was used today; a second time on the same day does nothing. */
  public void noteUse(ClientKey key) {
    LocalDate today = clock.instant().atOffset(ZoneOffset.UTC).toLocalDate();
    if (key.lastUsedOn().equals(Optional.of(today))) {
      return;
    }
    try {
      store.note(
          writing -> {
            writing.clientKeys().used(key.id(), today);
            return today;
          });
    } catch (StoreConflict another) {
      // Another request of the same client notes the same at this moment; that is as good.
      LOG.debug("use of key {} is noted by another request", key.id());
    }
  }
}
