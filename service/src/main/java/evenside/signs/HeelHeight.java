package evenside.signs;

import evenside.quantity.Decimals;
import java.util.OptionalDouble;

/**
 * Extension deficit from the difference in heel height, lying face down.
 *
 * <p>Shape: {@code arcsin(difference / shank length)}.
 *
 * <p>Unit: both in cm; result in degrees; positive means the operated knee straightens less.
 *
 * <p>Not computable: a difference of the length of the shank or more.
 *
 * <p>Error: none published that we know.
 *
 * <p>Source: geometry.
 *
 * <p>Differs: a rule of thumb equates 1 cm with about 1.2° (from memory); by geometry it is 1.15°
 * to 1.36° for shanks of 50 to 42 cm.
 */
public final class HeelHeight {
  private HeelHeight() {}

  /** The angle in degrees, or empty if the difference is no sine of an angle. */
  public static OptionalDouble extensionLoss(double differenceCm, double shankCm) {
    double sine = differenceCm / shankCm;
    return Math.abs(sine) < 1
        ? OptionalDouble.of(Decimals.exact(Math.toDegrees(Math.asin(sine))))
        : OptionalDouble.empty();
  }
}
