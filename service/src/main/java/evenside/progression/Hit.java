package evenside.progression;

import java.time.LocalDate;
import java.util.List;

/**
 * A rule that holds, and what it looked at.
 *
 * @param progression the one it is of
 * @param rule the rule
 * @param outcome what follows; hold for a step up whose conditions are not all met
 * @param counted false if that is only shown beside
 * @param text in words
 * @param inputs what it looked at
 * @param session the session judged
 * @param day its day
 */
public record Hit(
    Progression progression,
    Rule rule,
    Outcome outcome,
    boolean counted,
    String text,
    List<Seen> inputs,
    String session,
    LocalDate day) {
  public Hit {
    inputs = List.copyOf(inputs);
  }

  /**
   * An input as it was seen.
   *
   * @param input its code
   * @param value what is known of it
   * @param sessions entries it comes from
   */
  public record Seen(String input, Known value, List<String> sessions) {
    public Seen {
      sessions = List.copyOf(sessions);
    }
  }

  static Hit of(Progression progression, Rule rule, boolean counted, Inputs inputs, Bout bout) {
    return of(progression, rule, rule.outcome(), counted, rule.text(), inputs, bout);
  }

  /** A step up that is not called for: what failed. */
  static Hit notCalledFor(
      Progression progression, Rule rule, boolean counted, Inputs inputs, Bout bout) {
    List<String> failing = rule.when().failing(inputs).stream().map(Test::toString).toList();
    String text = "No step up yet. Conditions not met: " + String.join(", ", failing);
    return of(progression, rule, Outcome.HOLD, counted, text + ".", inputs, bout);
  }

  private static Hit of(
      Progression progression,
      Rule rule,
      Outcome outcome,
      boolean counted,
      String text,
      Inputs inputs,
      Bout bout) {
    List<Seen> seen =
        rule.when().looksAt(inputs).stream()
            .map(input -> new Seen(input, inputs.value(input), inputs.sessions(input)))
            .toList();
    return new Hit(
        progression, rule, outcome, counted, text, seen, bout.session().id(), bout.day());
  }
}
