package evenside.measure;

import evenside.quantity.Quantity;
import evenside.signs.EffusionGrade;

/** What was seen: a number, a grade, or a yes/no fact. */
public sealed interface Value {
  /** A number with its unit. */
  record Amount(Quantity quantity) implements Value {
    public static Amount of(double value, String unit) {
      return new Amount(new Quantity(value, unit));
    }

    @Override
    public String toString() {
      return quantity.toString();
    }
  }

  /** An effusion grade. */
  record Grade(EffusionGrade grade) implements Value {
    @Override
    public String toString() {
      return grade.code();
    }
  }

  /** A fact stated by a clinician. */
  record Fact(boolean holds) implements Value {
    @Override
    public String toString() {
      return holds ? "yes" : "no";
    }
  }
}
