package evenside.battery;

import org.jspecify.annotations.Nullable;

/**
 * One attempt at a test.
 *
 * @param value the number, or null if an invalid attempt gave none
 * @param invalidReason code of why it does not count, or null if it counts
 */
public record Trial(@Nullable Double value, @Nullable String invalidReason) {
  public boolean counts() {
    return invalidReason == null && value != null;
  }
}
