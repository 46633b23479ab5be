package evenside.api.page.decision;

import static evenside.api.page.Texts.text;

import evenside.api.page.Texts;
import java.util.ArrayList;
import java.util.List;
import tools.jackson.databind.JsonNode;

/** What to do after a decision: only what the decision itself says would meet or settle it. */
final class NextSteps {
  private NextSteps() {}

  static List<DecisionSheet.Step> of(JsonNode decision) {
    List<DecisionSheet.Step> steps = new ArrayList<>();
    boolean urgent =
        decision
            .path("cautions")
            .valueStream()
            .anyMatch(one -> one.path("urgent").asBoolean(false));
    if (urgent) {
      steps.add(new DecisionSheet.Step(text("next.urgent"), text("next.urgent.what")));
    }
    leaves(decision.path("finding"))
        .forEach(
            finding -> {
              String title = finding.path("title").asString();
              switch (finding.path("outcome").asString()) {
                case "not-met" -> steps.add(new DecisionSheet.Step(title, notMet(finding)));
                case "met", "not-applicable" -> {}
                default -> steps.add(new DecisionSheet.Step(title, settle(finding)));
              }
            });
    String last = decision.path("outcome").asString().equals("met") ? "next.met" : "next.discuss";
    steps.add(new DecisionSheet.Step(text(last), text(last + ".what")));
    return steps;
  }

  private static String notMet(JsonNode finding) {
    String needed = Words.toMeet(finding);
    return needed.isEmpty()
        ? Texts.sentence(finding.path("reason").path("text").asString(""))
        : needed;
  }

  /** How an undetermined criterion can be settled, by the reason why it is open. */
  private static String settle(JsonNode finding) {
    String reason = Texts.sentence(finding.path("reason").path("text").asString(""));
    String key = "next.open." + finding.path("reason").path("code").asString("");
    String what =
        Texts.has(key)
            ? text(key, Words.bound(finding.path("bound")))
            : text("next.open", Words.bound(finding.path("bound")));
    return what + " " + reason;
  }

  private static List<JsonNode> leaves(JsonNode finding) {
    if (!finding.has("of")) {
      return List.of(finding);
    }
    return finding.path("of").valueStream().flatMap(one -> leaves(one).stream()).toList();
  }
}
