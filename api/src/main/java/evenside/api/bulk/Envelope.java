package evenside.api.bulk;

import evenside.api.problem.Problem;
import evenside.api.problem.ProblemType;
import evenside.api.resource.Ids;
import evenside.schemas.Fault;
import evenside.schemas.StrictJson;
import evenside.schemas.StrictJson.Limits;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import tools.jackson.core.JsonPointer;
import tools.jackson.databind.JsonNode;

/**
 * What a line says: what is to be recorded, and on what.
 *
 * @param kind what it is
 * @param target the case, or the decision that a determination is on
 * @param key idempotency key; absent means that the line's own content is its key
 * @param body the document, as a request of its own would have it
 */
record Envelope(LineKind kind, String target, Optional<String> key, JsonNode body) {
  private static final Limits LIMITS = Limits.REQUEST.withMaxBytes(LineReader.MAX_BYTES);
  private static final List<String> MEMBERS =
      List.of("kind", "caseId", "decisionId", "idempotencyKey", "body");
  private static final int MAX_KEY = 128;

  /**
   * Reads a line.
   *
   * @throws evenside.schemas.NotJson if it is not JSON
   * @throws evenside.api.problem.ProblemException if it is no envelope, with every fault
   */
  static Envelope read(Line line) {
    if (line.tooLong()) {
      throw Problem.of(
              ProblemType.CONTENT_TOO_LARGE,
              "A line may have " + LineReader.MAX_BYTES + " bytes at most.")
          .asException();
    }
    JsonNode json = StrictJson.read(line.bytes(), LIMITS);
    List<Fault> faults = new ArrayList<>();
    if (!json.isObject()) {
      faults.add(Fault.at(JsonPointer.empty(), "type.wrong", "a line must be a JSON object"));
      throw refused(faults);
    }
    for (String name : json.propertyNames()) {
      if (!MEMBERS.contains(name)) {
        faults.add(
            Fault.at(at(name), "member.unknown", "a line has no such member")
                .withLimit(String.join(", ", MEMBERS)));
      }
    }
    Optional<LineKind> kind = LineKind.of(text(json, "kind", faults).orElse(""));
    if (kind.isEmpty() && json.path("kind").isString()) {
      faults.add(
          Fault.at(at("kind"), "value.not-allowed", "this kind is not taken in bulk")
              .withLimit(LineKind.names()));
    }
    String target = kind.map(known -> target(json, known, faults)).orElse("");
    Optional<String> key = key(json, faults);
    if (!json.path("body").isObject()) {
      faults.add(
          json.has("body")
              ? Fault.at(at("body"), "type.wrong", "the body must be an object")
              : missing("body"));
    }
    if (!faults.isEmpty() || kind.isEmpty()) {
      throw refused(faults);
    }
    return new Envelope(kind.get(), target, key, json.path("body"));
  }

  private static String target(JsonNode json, LineKind kind, List<Fault> faults) {
    String name = kind.targetMember();
    String other = name.equals("caseId") ? "decisionId" : "caseId";
    if (json.has(other)) {
      faults.add(
          Fault.at(at(other), "member.unknown", "a line of this kind has no such member")
              .withLimit(name));
    }
    String id = text(json, name, faults).orElse("");
    boolean fits = name.equals("caseId") ? Ids.isCaseId(id) : Ids.isUuid(id);
    if (!fits && json.path(name).isString()) {
      faults.add(
          Fault.at(at(name), "text.wrong-form", "this cannot be the id of a record")
              .withLimit(
                  name.equals("caseId")
                      ? "1 to 64 letters, digits, '.', '_', ':', '-', the first a letter or digit"
                      : "a UUID in lower case"));
    }
    return id;
  }

  private static Optional<String> key(JsonNode json, List<Fault> faults) {
    if (!json.has("idempotencyKey")) {
      return Optional.empty();
    }
    String key = json.path("idempotencyKey").asString("");
    boolean visible = key.chars().allMatch(c -> c > ' ' && c <= '~');
    if (key.isEmpty() || key.length() > MAX_KEY || !visible) {
      faults.add(
          Fault.at(
                  at("idempotencyKey"),
                  "text.wrong-form",
                  "a key has visible ASCII characters only")
              .withLimit("1 to " + MAX_KEY + " characters"));
    }
    return Optional.of(key);
  }

  private static Optional<String> text(JsonNode json, String name, List<Fault> faults) {
    JsonNode value = json.path(name);
    if (value.isString()) {
      return Optional.of(value.asString());
    }
    faults.add(
        json.has(name) ? Fault.at(at(name), "type.wrong", "this must be a string") : missing(name));
    return Optional.empty();
  }

  private static Fault missing(String name) {
    return Fault.at(at(name), "member.missing", "a line needs this member");
  }

  private static JsonPointer at(String name) {
    return JsonPointer.empty().appendProperty(name);
  }

  private static RuntimeException refused(List<Fault> faults) {
    List<Fault> ordered = faults.stream().sorted(Fault.ORDER).toList();
    return Problem.withFaults(
            ProblemType.INVALID_DOCUMENT,
            "The line is not a bulk line; nothing was stored.",
            ordered,
            false)
        .asException();
  }
}
