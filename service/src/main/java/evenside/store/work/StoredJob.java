package evenside.store.work;

import java.time.Instant;
import java.util.UUID;

/**
 * Bulk work that goes on after the reply.
 *
 * @param clinic whose it is
 * @param id the service's id
 * @param client who sent it
 * @param scopes what the client was allowed when it sent it, names between spaces
 * @param receivedAt when its last line had come
 * @param expiresAt when it is removed, results included
 * @param lines how many lines it has
 */
public record StoredJob(
    String clinic,
    UUID id,
    String client,
    String scopes,
    Instant receivedAt,
    Instant expiresAt,
    int lines) {}
