package evenside.clients;

import evenside.store.clients.StoredClientKey;
import java.time.Instant;
import java.time.LocalDate;
import java.util.Optional;
import java.util.Set;

/**
 * What is known of a key.
 *
 * @param id names it and is no secret
 * @param clinic whose records it opens
 * @param client name of the program that has it
 * @param scopes what it allows
 * @param issuedAt since when it is
 * @param expiresAt until when it may be used
 * @param revokedAt when it was revoked, if it was
 * @param lastUsedOn the last day (UTC) on which it was used, if it was
 */
public record ClientKey(
    String id,
    String clinic,
    String client,
    Set<String> scopes,
    Instant issuedAt,
    Instant expiresAt,
    Optional<Instant> revokedAt,
    Optional<LocalDate> lastUsedOn) {
  static ClientKey of(StoredClientKey stored) {
    return new ClientKey(
        stored.id(),
        stored.clinic(),
        stored.client(),
        Set.of(stored.scopes().split(" ")),
        stored.issuedAt(),
        stored.expiresAt(),
        stored.revokedAt(),
        stored.lastUsedOn());
  }

  /** Whether it may be used at that time. */
  public boolean isLive(Instant at) {
    return revokedAt.isEmpty() && at.isBefore(expiresAt);
  }
}
