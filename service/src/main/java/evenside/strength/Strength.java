package evenside.strength;

import evenside.quantity.Decimals;
import java.util.OptionalDouble;

/** Numbers made from peak torque. */
public final class Strength {
  private Strength() {}

  /**
   * Torque per body mass.
   *
   * <p>Shape: {@code torque / mass}.
   *
   * <p>Unit: N.m and kg; result in N.m/kg.
   *
   * <p>Not computable: never, for a mass above zero.
   *
   * <p>Error: none published that we know for the quotient.
   *
   * <p>Source: Gokeler (2017), Knee Surg Sports Traumatol Arthrosc 25:192–199 (above 3.0 N.m/kg).
   *
   * @throws IllegalArgumentException if the mass is not above zero
   */
  public static double perBodyMass(double torque, double mass) {
    if (!(mass > 0)) {
      throw new IllegalArgumentException("body mass " + mass + " is not above zero");
    }
    return Decimals.exact(torque / mass);
  }

  /**
   * Torque from a force across the shank.
   *
   * <p>Shape: {@code force * lever arm}.
   *
   * <p>Unit: N and cm; result in N.m.
   *
   * <p>Not computable: without the lever arm; a force by itself is no torque.
   *
   * <p>Error: for a hand-held dynamometer against a fixed one, 19.4 ± 53.2 N.m (PMC6449009).
   *
   * <p>Source: definition of torque.
   *
   * @throws IllegalArgumentException if the lever arm is not above zero
   */
  public static double torque(double force, double leverArmCm) {
    if (!(leverArmCm > 0)) {
      throw new IllegalArgumentException("lever arm " + leverArmCm + " cm is not above zero");
    }
    return Decimals.intermediate(force * leverArmCm / 100);
  }

  /**
   * Hamstring to quadriceps ratio of one leg; which muscle actions and speeds make a pair is said
   * by {@link HamstringQuadriceps}.
   *
   * <p>Shape: {@code 100 * flexion / extension}.
   *
   * <p>Unit: N.m and N.m; result in percent.
   *
   * <p>Not computable: extension torque zero.
   *
   * <p>Error: none published that we know.
   *
   * <p>Source: Kellis (2022), J Sport Health Sci, doi 10.1016/j.jshs.2022.01.002.
   *
   * <p>Differs: many papers print the ratio as a fraction; functional and mixed ratios take other
   * modes and speeds. It rises when the quadriceps are weak, so it never stands in for quadriceps
   * strength.
   */
  public static OptionalDouble hamstringToQuadriceps(double flexion, double extension) {
    return extension > 0
        ? OptionalDouble.of(Decimals.exact(100 * flexion / extension))
        : OptionalDouble.empty();
  }
}
