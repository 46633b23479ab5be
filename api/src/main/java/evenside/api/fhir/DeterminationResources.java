package evenside.api.fhir;

import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/** What a clinician said on a decision, as the clinician's own ClinicalImpression. */
public final class DeterminationResources {
  private final Codes codes;

  /** Writes in these codes. */
  public DeterminationResources(Codes codes) {
    this.codes = codes;
  }

  /**
   * One determination.
   *
   * @param document the determination record
   * @param subject reference of the person
   */
  public ObjectNode of(JsonNode document, String subject) {
    JsonNode said = document.path("determination");
    String id = document.path("determinationId").asString();
    String recordedAt = document.path("recordedAt").asString();
    ObjectNode json = Fhir.resource("ClinicalImpression", id);
    json.putArray("identifier").add(Fhir.identifier("determination", id));
    json.put("status", "completed");
    json.set("code", codes.term("statement", said.path("statement").asString()));
    json.set("subject", Visit.person(subject));
    json.put("effectiveDateTime", said.path("determinedAt").asString(recordedAt));
    json.put("date", recordedAt);
    ObjectNode assessor =
        Fhir.logical("Practitioner", "clinician", said.at("/clinician/reference").asString());
    json.set("assessor", assessor.put("display", said.at("/clinician/role").asString()));
    if (said.has("reason")) {
      json.put("summary", said.path("reason").asString());
    }
    json.putArray("supportingInfo")
        .add(Fhir.reference("GuidanceResponse", document.path("decisionId").asString()));
    addNotes(json, document, said);
    return json;
  }

  private static void addNotes(ObjectNode json, JsonNode document, JsonNode said) {
    ArrayNode notes = json.putArray("note");
    said.path("restrictions")
        .forEach(text -> notes.addObject().put("text", "Restriction: " + text.asString()));
    boolean differs = document.path("differs").asBoolean(false);
    String outcome = document.path("outcome").asString();
    notes
        .addObject()
        .put(
            "text",
            "Outcome of the decision: "
                + outcome
                + (differs ? "; the statement differs from it." : "."));
  }
}
