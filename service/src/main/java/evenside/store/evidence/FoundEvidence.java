package evenside.store.evidence;

import java.time.Instant;
import java.util.UUID;

/**
 * A row of evidence and where it came from.
 *
 * @param batteryId the battery
 * @param performedAt when its tests were done
 * @param row what it is evidence for
 */
public record FoundEvidence(UUID batteryId, Instant performedAt, EvidenceRow row) {}
