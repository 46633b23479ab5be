package evenside.battery;

import org.jspecify.annotations.Nullable;

/**
 * One attempt at a test.
 *
 * @param value the number, or null if an invalid attempt gave none
 * @param invalidReason code of why it does not count, or null if it counts
 * @param flightTime s in the air, or null where none was sent
 * @param contactTime s on the ground before the jump, or null where none was sent
 */
public record Trial(
    @Nullable Double value,
    @Nullable String invalidReason,
    @Nullable Double flightTime,
    @Nullable Double contactTime) {
  /** An attempt at a test that is not a jump. */
  public Trial(@Nullable Double value, @Nullable String invalidReason) {
    this(value, invalidReason, null, null);
  }

  public boolean counts() {
    return invalidReason == null && value != null;
  }
}
