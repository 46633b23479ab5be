package evenside.hop;

import evenside.quantity.Decimals;

/**
 * Height of a jump from the time in the air.
 *
 * <p>Shape: {@code g * t * t / 8}, g 9.81 m/s².
 *
 * <p>Unit: s; result in cm.
 *
 * <p>Not computable: never, for a time above zero.
 *
 * <p>Error: none published that we know for one leg; a step of 1 ms at 0.5 s is 1.2 mm.
 *
 * <p>Source: Linthorne (2001), Am J Phys, doi 10.1119/1.1397460.
 *
 * <p>Differs: height from the impulse counts from take-off too but needs no equal body shape at
 * landing; height from standing includes the heel rise. Up to 15 cm between equations on one jump
 * were published, so heights of different methods are never compared.
 */
public final class JumpHeight {
  /** Standard value used by the jump literature, m/s². */
  public static final double GRAVITY = 9.81;

  private JumpHeight() {}

  /**
   * Height in cm.
   *
   * @throws IllegalArgumentException if the time is not above zero
   */
  public static double fromFlightTime(double seconds) {
    if (!(seconds > 0)) {
      throw new IllegalArgumentException("flight time " + seconds + " s is not above zero");
    }
    return Decimals.intermediate(100 * GRAVITY * seconds * seconds / 8);
  }
}
