package evenside.progression;

import evenside.criteria.Truth;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;

/**
 * Holds if one of the alternatives holds; an alternative holds if all its tests do.
 *
 * @param alternatives at least one, each with at least one test
 */
public record Condition(List<List<Test>> alternatives) {
  public Condition {
    alternatives = alternatives.stream().map(List::copyOf).toList();
  }

  Truth on(Inputs inputs) {
    Truth any = Truth.NOT_MET;
    for (List<Test> tests : alternatives) {
      any = any.or(on(tests, inputs));
    }
    return any;
  }

  private static Truth on(List<Test> tests, Inputs inputs) {
    Truth all = Truth.MET;
    for (Test test : tests) {
      all = all.and(test.on(inputs));
    }
    return all;
  }

  /** The tests whose answer could still turn the condition: unknown ones of open alternatives. */
  List<Test> open(Inputs inputs) {
    List<Test> open = new ArrayList<>();
    for (List<Test> tests : alternatives) {
      if (on(tests, inputs) == Truth.UNDETERMINED) {
        tests.stream().filter(test -> test.on(inputs) == Truth.UNDETERMINED).forEach(open::add);
      }
    }
    return open;
  }

  /** The tests that fail. */
  List<Test> failing(Inputs inputs) {
    return tests().filter(test -> test.on(inputs) == Truth.NOT_MET).toList();
  }

  /** The inputs of the alternatives that hold; all inputs where none does. */
  List<String> looksAt(Inputs inputs) {
    List<List<Test>> met =
        alternatives.stream().filter(tests -> on(tests, inputs) == Truth.MET).toList();
    return (met.isEmpty() ? alternatives : met)
        .stream().flatMap(List::stream).map(Test::input).distinct().toList();
  }

  public Stream<Test> tests() {
    return alternatives.stream().flatMap(List::stream);
  }
}
