package evenside.api.drawing;

import java.util.ArrayList;
import java.util.List;

/**
 * A linear scale from numbers to places.
 *
 * @param low number at {@code from}
 * @param high number at {@code to}; more than {@code low}
 * @param from first place
 * @param to last place; may lie before the first, as on an upright axis
 */
record Scale(double low, double high, double from, double to) {
  Scale {
    if (!(high > low)) {
      throw new IllegalArgumentException("a scale from " + low + " to " + high + " has no length");
    }
  }

  /** The scale that holds all of these, with room to the left and right. */
  static Scale around(List<Double> values, double from, double to) {
    double low = values.stream().mapToDouble(Double::doubleValue).min().orElse(0);
    double high = values.stream().mapToDouble(Double::doubleValue).max().orElse(1);
    double room = high > low ? (high - low) * 0.18 : Math.max(1, Math.abs(high) * 0.1);
    // Nothing measured here is below zero unless it says so itself.
    double start = low >= 0 ? Math.max(0, low - room) : low - room;
    return new Scale(start, high + room, from, to);
  }

  double at(double value) {
    return from + (value - low) / (high - low) * (to - from);
  }

  /** Round numbers inside the scale, about {@code wanted} of them. */
  List<Double> ticks(int wanted) {
    double raw = (high - low) / wanted;
    double power = Math.pow(10, Math.floor(Math.log10(raw)));
    double step = power * (raw / power > 5 ? 10 : raw / power > 2 ? 5 : raw / power > 1 ? 2 : 1);
    List<Double> ticks = new ArrayList<>();
    for (double k = Math.ceil(low / step - 1e-9); k * step <= high + step * 1e-9; k++) {
      ticks.add(k * step);
    }
    return ticks;
  }
}
