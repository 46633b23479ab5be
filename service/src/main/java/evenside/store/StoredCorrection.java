package evenside.store;

import java.time.Instant;
import java.util.UUID;

/**
 * A battery that takes the place of another.
 *
 * @param batteryId the new battery
 * @param replaces the one it corrects
 * @param correctedAt when
 */
public record StoredCorrection(UUID batteryId, UUID replaces, Instant correctedAt) {}
