package evenside.readiness;

import evenside.schemas.Contract;
import evenside.schemas.Fault;
import evenside.schemas.StrictJson;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.time.InstantSource;
import java.util.List;
import tools.jackson.databind.JsonNode;

/** Invented visits with nothing but questionnaires, and the desk that takes them. */
final class OneVisit {
  static final InstantSource CLOCK = InstantSource.fixed(Instant.parse("2026-10-01T12:00:00Z"));

  private OneVisit() {}

  static Desk desk(Contract contract) {
    return Desk.of(contract, CLOCK);
  }

  /** A battery of one day in September 2026; sheets are members of a JSON array. */
  static String battery(int day, String sheets) {
    return """
        {"schemaVersion": "1.0", "performedAt": "2026-09-%02dT10:00:00+02:00",
         "operatedSide": "left", "results": {"questionnaire": [%s]}}"""
        .formatted(day, sheets);
  }

  /** A request for one criteria set, {@code id/version}, on these batteries. */
  static JsonNode request(String set, String... batteries) {
    String[] name = set.split("/");
    return json(
        """
        {"schemaVersion": "1.0", "asOf": "2026-10-01",
         "case": %s, "batteries": [%s], "criteriaSets": [{"id": "%s", "version": "%s"}]}"""
            .formatted(kneeCase(), String.join(",", batteries), name[0], name[1]));
  }

  /** A left knee, operated ten months before the clock's day. */
  static JsonNode kneeCase() {
    return json(
        """
        {"schemaVersion": "1.0", "subject": "S-1", "surgeryDate": "2025-12-01",
         "operatedSide": "left", "graft": "hamstring-tendon", "otherKnee": "none",
         "sex": "female", "birthYear": 2001}""");
  }

  static JsonNode json(String text) {
    return StrictJson.read(text.getBytes(StandardCharsets.UTF_8), StrictJson.Limits.REQUEST);
  }

  static JsonNode json(byte[] bytes) {
    return StrictJson.read(bytes, StrictJson.Limits.OWN);
  }

  /** Answers 1, 2, 3 … in order; {@code -} leaves one out. */
  static String responses(String answers) {
    StringBuilder responses = new StringBuilder();
    String[] all = answers.split(" ");
    for (int i = 0; i < all.length; i++) {
      if (!all[i].equals("-")) {
        responses.append(responses.isEmpty() ? "" : ",");
        responses.append("{\"item\": \"%d\", \"answer\": %s}".formatted(i + 1, all[i]));
      }
    }
    return "[" + responses + "]";
  }

  static List<String> placesAndCodes(List<Fault> faults) {
    return faults.stream().map(fault -> fault.pointer() + " " + fault.code()).toList();
  }
}
