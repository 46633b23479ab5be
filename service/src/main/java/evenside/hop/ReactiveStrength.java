package evenside.hop;

import evenside.quantity.Decimals;

/**
 * Reactive strength of a drop jump, in its two published definitions. They are two measures: a
 * number of one says nothing beside a number of the other.
 */
public final class ReactiveStrength {
  private ReactiveStrength() {}

  /**
   * Reactive strength index: jump height per contact time.
   *
   * <p>Shape: {@code height / contact}.
   *
   * <p>Unit: cm and s; result in m/s.
   *
   * <p>Not computable: never, for a contact time above zero.
   *
   * <p>Error: none published that we know for one leg.
   *
   * <p>Source: drop jumps after reconstruction (2022), PMC9750644 (.29 and .39 m/s).
   *
   * <p>Differs: {@link #ratio}; a modified index divides the height of a countermovement jump by
   * the time to take-off and is another number again.
   *
   * @throws IllegalArgumentException if the contact time is not above zero
   */
  public static double index(double heightCm, double contactSeconds) {
    return Decimals.intermediate(heightCm / 100 / positive(contactSeconds));
  }

  /**
   * Reactive strength ratio: flight time per contact time.
   *
   * <p>Shape: {@code flight / contact}.
   *
   * <p>Unit: s and s; result without unit.
   *
   * <p>Not computable: never, for a contact time above zero.
   *
   * <p>Error: none published that we know.
   *
   * <p>Source: common practice of the drop-jump literature, no source.
   *
   * <p>Differs: {@link #index}.
   *
   * @throws IllegalArgumentException if the contact time is not above zero
   */
  public static double ratio(double flightSeconds, double contactSeconds) {
    return Decimals.intermediate(flightSeconds / positive(contactSeconds));
  }

  private static double positive(double contactSeconds) {
    if (!(contactSeconds > 0)) {
      throw new IllegalArgumentException("contact time " + contactSeconds + " s is not above zero");
    }
    return contactSeconds;
  }
}
