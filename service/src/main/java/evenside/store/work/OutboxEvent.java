package evenside.store.work;

import java.time.Instant;
import java.util.UUID;

/**
 * A decision that a clinic's receiver is still to be told of.
 *
 * @param clinic whose it is
 * @param id identifier of the event, the same at every attempt
 * @param position order of the events of a clinic; numbers may be missing
 * @param caseId the case
 * @param decisionId the decision
 * @param decidedAt when it was made
 * @param attempts how often it was taken to be sent
 */
public record OutboxEvent(
    String clinic,
    UUID id,
    long position,
    String caseId,
    UUID decisionId,
    Instant decidedAt,
    int attempts) {}
