package evenside.assessment;

import evenside.battery.Battery;
import evenside.battery.Result;
import evenside.strength.Consistency;
import java.util.ArrayList;
import java.util.List;

/**
 * How alike the repetitions of one strength result are.
 *
 * @param result the result as sent
 * @param consistency of its repetitions that count
 */
public record Repetitions(Result result, Consistency consistency) {

  /** Of every strength result with two repetitions or more that count. */
  static List<Repetitions> of(Battery battery) {
    List<Repetitions> all = new ArrayList<>();
    for (Result result : battery.results()) {
      String unit = result.measure().unit();
      if (unit.equals("N.m") || unit.equals("N")) {
        Consistency.of(result.valid())
            .ifPresent(consistency -> all.add(new Repetitions(result, consistency)));
      }
    }
    return all;
  }
}
