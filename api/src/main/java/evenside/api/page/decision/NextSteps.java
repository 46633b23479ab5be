package evenside.api.page.decision;

import static evenside.api.page.Texts.text;

import evenside.api.page.Figures;
import evenside.api.page.Texts;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.StringJoiner;
import tools.jackson.databind.JsonNode;

/** What to do after a decision: only what the decision itself says would meet or settle it. */
final class NextSteps {
  private NextSteps() {}

  /**
   * The steps.
   *
   * @param corrected those of the batteries behind the decision that were corrected since
   */
  static List<DecisionSheet.Step> of(JsonNode decision, List<JsonNode> corrected) {
    List<DecisionSheet.Step> steps = new ArrayList<>();
    boolean urgent =
        decision
            .path("cautions")
            .valueStream()
            .anyMatch(one -> one.path("urgent").asBoolean(false));
    if (urgent) {
      steps.add(new DecisionSheet.Step(text("next.urgent"), text("next.urgent.what")));
    }
    if (!corrected.isEmpty()) {
      StringJoiner days = new StringJoiner(", ");
      corrected.forEach(one -> days.add(Figures.dayOf(one.path("performedAt").asString())));
      steps.add(new DecisionSheet.Step(text("next.corrected"), text("next.corrected.what", days)));
    }
    // Criteria that ask for the same are one step.
    Map<String, StringJoiner> byWhat = new LinkedHashMap<>();
    for (JsonNode finding : leaves(decision.path("finding"))) {
      what(finding)
          .ifPresent(
              what ->
                  byWhat
                      .computeIfAbsent(what, key -> new StringJoiner("; "))
                      .add(finding.path("title").asString()));
    }
    byWhat.forEach((what, about) -> steps.add(new DecisionSheet.Step(about.toString(), what)));
    String last = decision.path("outcome").asString().equals("met") ? "next.met" : "next.discuss";
    steps.add(new DecisionSheet.Step(text(last), text(last + ".what")));
    return steps;
  }

  private static Optional<String> what(JsonNode finding) {
    return switch (finding.path("outcome").asString()) {
      case "not-met" -> Optional.of(notMet(finding));
      case "met", "not-applicable" -> Optional.empty();
      default -> Optional.of(settle(finding));
    };
  }

  private static String notMet(JsonNode finding) {
    String needed = Words.toMeet(finding);
    if (needed.isEmpty()) {
      return Texts.sentence(finding.path("reason").path("text").asString(""));
    }
    // With a leg that is no sound yardstick, that would leave the criterion open.
    String open = "next.open." + finding.at("/toMeet/leftOpenBy").asString("");
    return Texts.has(open) ? needed + " " + text("next.then", text(open)) : needed;
  }

  /** How an undetermined criterion can be settled, by the reason why it is open. */
  private static String settle(JsonNode finding) {
    String key = "next.open." + finding.path("reason").path("code").asString("");
    // What a person says of the knee is a score: it is asked for, not tested.
    String asked = key + ".score";
    if (finding.at("/bound/unit").asString("").equals("{score}") && Texts.has(asked)) {
      key = asked;
    }
    String bound = Words.bound(finding.path("bound"));
    return Texts.has(key)
        ? text(key, bound)
        : text("next.open", bound)
            + " "
            + Texts.sentence(finding.path("reason").path("text").asString(""));
  }

  private static List<JsonNode> leaves(JsonNode finding) {
    if (!finding.has("of")) {
      return List.of(finding);
    }
    return finding.path("of").valueStream().flatMap(one -> leaves(one).stream()).toList();
  }
}
