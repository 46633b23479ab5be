package evenside.store;

import java.time.Instant;
import java.util.UUID;

/**
 * An entry of a training record as it was sent, without what was answered.
 *
 * @param id id given by the service
 * @param caseId the case
 * @param contentSha256 hash of the content as sent, hexadecimal
 * @param performedAt when it was
 * @param content canonical bytes of what was sent
 */
@SuppressWarnings("ArrayRecordComponent") // Never compared.
public record SentEntry(
    UUID id, String caseId, String contentSha256, Instant performedAt, byte[] content) {}
