package evenside.battery;

import evenside.limb.Side;
import org.jspecify.annotations.Nullable;

/**
 * A test that was meant to be done and was not: neither zero nor failed.
 *
 * @param measure code of the measure
 * @param side the leg, or null for both or none
 * @param reason code of why
 */
public record NotPerformed(String measure, @Nullable Side side, String reason) {}
