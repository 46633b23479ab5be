package evenside.questionnaire;

import evenside.questionnaire.Outcome.Count;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * One filled-in questionnaire.
 *
 * @param instrument which one
 * @param rule for missing items
 * @param answers item number to the answer as it enters the score; items not there are missing
 * @param reported measure to the score that the sender reports
 */
public record Sheet(
    Instrument instrument,
    MissingRule rule,
    Map<String, Double> answers,
    Map<String, Double> reported) {
  public Sheet {
    answers = Map.copyOf(answers);
    reported = Map.copyOf(reported);
  }

  /**
   * What it says about each score. A score none of whose items is answered counts as not asked: it
   * stands here only if it is reported.
   */
  public List<Outcome> outcomes() {
    List<Outcome> outcomes = new ArrayList<>();
    for (ScoreRule score : instrument.scores()) {
      Optional<Outcome> computed = computed(score);
      Double sent = reported.get(score.measure());
      if (computed.isPresent()) {
        outcomes.add(computed.get());
      } else if (sent != null) {
        outcomes.add(new Outcome.Scored(score.measure(), sent, null));
      }
    }
    return outcomes;
  }

  /** What the answers give for one score; empty if none of its items is answered. */
  public Optional<Outcome> computed(ScoreRule score) {
    List<Answer> given = new ArrayList<>();
    for (Item item : score.items()) {
      Double answer = answers.get(item.number());
      if (answer != null) {
        given.add(new Answer(item, answer));
      }
    }
    if (given.isEmpty()) {
      return Optional.empty();
    }
    String measure = score.measure();
    Count count = new Count(given.size(), rule.needed(measure), score.items().size());
    return Optional.of(
        count.enough()
            ? new Outcome.Scored(measure, score.formula().score(given), count)
            : new Outcome.NotScorable(measure, count));
  }
}
