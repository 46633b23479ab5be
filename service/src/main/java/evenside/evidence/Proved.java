package evenside.evidence;

import tools.jackson.databind.JsonNode;

/** What a proof is of, for those who have no other program to read it with. */
final class Proved {
  private Proved() {}

  static String inWords(JsonNode decision) {
    return "%s by %s/%s, on the case %s as of %s, decided at %s"
        .formatted(
            text(decision, "/outcome"),
            text(decision, "/criteriaSet/id"),
            text(decision, "/criteriaSet/version"),
            text(decision, "/caseId"),
            text(decision, "/asOf"),
            text(decision, "/decidedAt"));
  }

  private static String text(JsonNode decision, String pointer) {
    return decision.at(pointer).asString("");
  }
}
