package evenside.store.clients;

import java.time.Instant;
import java.time.LocalDate;
import java.util.Optional;

/**
 * A key of a clinic's client.
 *
 * @param id names the key and is no secret; 16 hexadecimal digits
 * @param clinic whose records it opens
 * @param client name of the program that has it
 * @param number counts the keys of that client, from 1
 * @param secretSha256 SHA-256 of the secret, hexadecimal
 * @param scopes what it allows, with spaces between
 * @param issuedAt since when it is
 * @param expiresAt until when it may be used
 * @param revokedAt since when it may not be used any more, if it was revoked
 * @param lastUsedOn the last day (UTC) on which it was used, if it was
 */
public record StoredClientKey(
    String id,
    String clinic,
    String client,
    int number,
    String secretSha256,
    String scopes,
    Instant issuedAt,
    Instant expiresAt,
    Optional<Instant> revokedAt,
    Optional<LocalDate> lastUsedOn) {}
