package evenside.api.resource;

import java.util.function.BooleanSupplier;

/**
 * Something without which the service is not ready.
 *
 * @param fault what to say where it does not hold; a sentence without names or versions, as anyone
 *     may read it
 * @param holds asks now; a failure counts as no
 */
public record Check(String fault, BooleanSupplier holds) {
  boolean fails() {
    try {
      return !holds.getAsBoolean();
    } catch (RuntimeException unknown) {
      return true;
    }
  }
}
