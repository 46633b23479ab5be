package evenside.intake;

import evenside.questionnaire.Instruments;
import evenside.questionnaire.Item;
import evenside.questionnaire.ScoreRule;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import tools.jackson.databind.JsonNode;

/**
 * A test is either done or not done: what stands under {@code notPerformed} has no result in the
 * same battery. How a test was done is not asked, since {@code notPerformed} does not say it.
 */
final class NotPerformedRules {
  private static final String NOT_PERFORMED = "notPerformed";
  private static final String QUESTIONNAIRE = "questionnaire";

  private final Instruments instruments;
  private final RuleFaults faults;

  NotPerformedRules(Instruments instruments, RuleFaults faults) {
    this.instruments = instruments;
    this.faults = faults;
  }

  /** A result, by its measure and leg, which is empty where the measure has none. */
  private record Done(String measure, String side, String pointer) {
    boolean contradicts(JsonNode missing) {
      String leg = missing.path("side").asString("");
      return measure.equals(missing.path("measure").asString(""))
          && (leg.isEmpty() || side.isEmpty() || leg.equals(side));
    }
  }

  void check(JsonNode results) {
    List<Done> done = done(results);
    JsonNode missing = results.path(NOT_PERFORMED);
    for (int i = 0; i < missing.size(); i++) {
      JsonNode one = missing.path(i);
      String pointer = "/results/" + NOT_PERFORMED + "/" + i;
      done.stream()
          .filter(result -> result.contradicts(one))
          .findFirst()
          .ifPresent(result -> add(pointer, result));
    }
  }

  private void add(String pointer, Done result) {
    faults.add(
        pointer,
        RuleCode.NOT_PERFORMED_CONTRADICTS_RESULT,
        "this test and side has a result at "
            + faults.named(result.pointer())
            + "; if it was done, in whatever way, leave it out here, and if it was not, leave the"
            + " result out");
  }

  private List<Done> done(JsonNode results) {
    List<Done> done = new ArrayList<>();
    for (Map.Entry<String, JsonNode> family : results.properties()) {
      for (int i = 0; i < family.getValue().size(); i++) {
        String pointer = "/results/" + family.getKey() + "/" + i;
        JsonNode result = family.getValue().path(i);
        if (family.getKey().equals(QUESTIONNAIRE)) {
          scores(result).forEach(measure -> done.add(new Done(measure, "", pointer)));
        } else if (!family.getKey().equals(NOT_PERFORMED)) {
          String side = result.path("side").asString("");
          done.add(new Done(result.path("measure").asString(""), side, pointer));
        }
      }
    }
    return done;
  }

  /** What a questionnaire was asked for: each score that is reported or has an answer. */
  private List<String> scores(JsonNode sheet) {
    List<String> measures = new ArrayList<>(texts(sheet.path("scores"), "measure"));
    Set<String> answered = texts(sheet.path("responses"), "item");
    Optional.ofNullable(sheet.path("instrument").asString(null))
        .flatMap(instruments::find)
        .ifPresent(
            instrument ->
                instrument.scores().stream()
                    .filter(score -> isAnswered(score, answered))
                    .map(ScoreRule::measure)
                    .forEach(measures::add));
    return measures;
  }

  private static boolean isAnswered(ScoreRule score, Set<String> answered) {
    return score.items().stream().map(Item::number).anyMatch(answered::contains);
  }

  private static Set<String> texts(JsonNode list, String member) {
    return list.valueStream().map(one -> one.path(member).asString("")).collect(Collectors.toSet());
  }
}
