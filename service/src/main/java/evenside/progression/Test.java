package evenside.progression;

import evenside.criteria.Truth;

/**
 * One input compared with a value.
 *
 * @param input code of the input
 * @param comparison how
 * @param value with what
 * @param ifUnknown what holds where nothing is known of the input
 */
public record Test(String input, Known.Comparison comparison, Known value, Truth ifUnknown) {

  Truth on(Inputs inputs) {
    Known seen = inputs.value(input);
    if (seen.equals(Known.NOTHING)) {
      return ifUnknown;
    }
    if (seen instanceof Known.Range range && value instanceof Known.Range bound) {
      return comparison.test(range, bound.low());
    }
    boolean equal = seen.equals(value);
    return switch (comparison) {
      case EQUAL -> Truth.of(equal);
      case OTHER -> Truth.of(!equal);
      case ABOVE, AT_LEAST, BELOW, AT_MOST ->
          throw new IllegalArgumentException(input + " is no number to be compared so");
    };
  }

  @Override
  public String toString() {
    return input + " " + comparison.symbol() + " " + value;
  }
}
