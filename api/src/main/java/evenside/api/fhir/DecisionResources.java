package evenside.api.fhir;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * A decision as a GuidanceResponse by our Device, a DetectedIssue for each urgent caution, and the
 * Provenance with the ledger's signed head.
 *
 * <p>Never an assessment by a person: a ClinicalImpression is written for a clinician's own
 * determination only ({@link DeterminationResources}).
 */
public final class DecisionResources {
  private final Codes codes;
  private final FindingParameters parameters = new FindingParameters();

  /** Writes in these codes. */
  public DecisionResources(Codes codes) {
    this.codes = codes;
  }

  /**
   * A decision with what it rests on.
   *
   * @param decision the decision as recorded
   * @param criteria the criteria set it was made by
   * @param subject reference of the person
   */
  public record Made(JsonNode decision, JsonNode criteria, String subject) {
    String id() {
      return decision.path("decisionId").asString();
    }

    String decidedAt() {
      return decision.path("decidedAt").asString();
    }

    private List<ObjectNode> reports() {
      List<ObjectNode> reports = new ArrayList<>();
      for (JsonNode battery : decision.path("batteries")) {
        reports.add(Fhir.reference("DiagnosticReport", battery.path("batteryId").asString()));
      }
      return reports;
    }
  }

  /**
   * Its place in the ledger.
   *
   * @param index index of its entry
   * @param checkpoint a signed head that covers it, as text
   */
  public record LedgerPlace(long index, String checkpoint) {}

  /** GuidanceResponse, DetectedIssues, Provenance, Device, in this order. */
  public List<ObjectNode> of(Made made, Optional<LedgerPlace> place) {
    List<ObjectNode> all = new ArrayList<>(List.of(guidance(made)));
    all.addAll(issues(made));
    all.add(provenance(made, place));
    all.add(Devices.service(made.decision().path("engineVersion").asString()));
    return all;
  }

  private ObjectNode guidance(Made made) {
    JsonNode decision = made.decision();
    ObjectNode json = Fhir.resource("GuidanceResponse", made.id());
    json.putArray("contained").add(parameters.of(decision));
    json.set("requestIdentifier", Fhir.identifier("decision", made.id()));
    json.putArray("identifier").add(Fhir.identifier("decision", made.id()));
    json.put("moduleCanonical", CriteriaResources.canonical("PlanDefinition", made.criteria()));
    boolean open = decision.path("outcome").asString().equals("undetermined");
    json.put("status", open ? "data-required" : "success");
    json.set("subject", Visit.person(made.subject()));
    json.put("occurrenceDateTime", made.decidedAt());
    json.set("performer", Devices.reference());
    if (!made.reports().isEmpty()) {
      json.putArray("reasonReference").addAll(made.reports());
    }
    json.putArray("note").addObject().put("text", decision.path("summary").asString());
    json.putObject("outputParameters").put("reference", "#" + FindingParameters.ID);
    if (open) {
      addRequirements(json, made);
    }
    return json;
  }

  private void addRequirements(ObjectNode json, Made made) {
    List<String> ids =
        made.decision().path("undetermined").valueStream().map(JsonNode::asString).toList();
    List<String> measures = CriteriaResources.measures(made.criteria(), ids);
    if (!measures.isEmpty()) {
      ArrayNode requirements = json.putArray("dataRequirement");
      for (String measure : measures) {
        ObjectNode filter = Fhir.object().put("path", "code");
        filter.set("code", codes.measure(measure).path("coding"));
        requirements.addObject().put("type", "Observation").putArray("codeFilter").add(filter);
      }
    }
  }

  private List<ObjectNode> issues(Made made) {
    List<ObjectNode> issues = new ArrayList<>();
    for (JsonNode caution : made.decision().path("cautions")) {
      if (caution.path("urgent").asBoolean(false)) {
        issues.add(issue(made, caution, issues.size()));
      }
    }
    return issues;
  }

  private ObjectNode issue(Made made, JsonNode caution, int number) {
    ObjectNode json = Fhir.resource("DetectedIssue", made.id() + "-issue-" + number);
    json.put("status", "final");
    json.set("code", codes.caution(caution.path("code").asString()));
    json.put("severity", "high");
    json.set("patient", Visit.person(made.subject()));
    json.put("identifiedDateTime", made.decidedAt());
    json.set("author", Devices.reference());
    json.put("detail", caution.path("text").asString());
    ObjectNode evidence = json.putArray("evidence").addObject();
    evidence.putArray("detail").add(Fhir.reference("GuidanceResponse", made.id()));
    return json;
  }

  private ObjectNode provenance(Made made, Optional<LedgerPlace> place) {
    JsonNode decision = made.decision();
    ObjectNode json = Fhir.resource("Provenance", made.id());
    json.putArray("target").add(Fhir.reference("GuidanceResponse", made.id()));
    json.put("occurredDateTime", made.decidedAt()).put("recorded", made.decidedAt());
    json.putArray("policy").add(CriteriaResources.address("PlanDefinition", made.criteria()));
    json.set("activity", codes.external("operation-create"));
    ObjectNode agent = json.putArray("agent").addObject();
    agent.set("type", codes.external("agent-assembler"));
    agent.set("who", Devices.reference());
    ArrayNode entities = json.putArray("entity");
    made.reports().forEach(report -> addEntity(entities, "source", report));
    addHash(entities, "case-sha256", decision.path("caseSha256"));
    addHash(entities, "inputs-sha256", decision.path("inputsSha256"));
    addHash(entities, "criteria-set-sha256", decision.at("/criteriaSet/sha256"));
    place.ifPresent(in -> addLedger(json, entities, made, in));
    return json;
  }

  private static void addEntity(ArrayNode entities, String role, ObjectNode what) {
    entities.addObject().put("role", role).set("what", what);
  }

  private static void addHash(ArrayNode entities, String kind, JsonNode sha256) {
    addEntity(entities, "source", Fhir.logical(kind, sha256.asString()));
  }

  private void addLedger(ObjectNode json, ArrayNode entities, Made made, LedgerPlace place) {
    addEntity(entities, "derivation", Fhir.logical("ledger-index", Long.toString(place.index())));
    ObjectNode signature = json.putArray("signature").addObject();
    signature.putArray("type").add(codes.externalCoding("signature-source"));
    signature.put("when", made.decidedAt());
    signature.set("who", Devices.reference());
    signature.put("sigFormat", "text/plain");
    signature.put("data", FhirBytes.base64(place.checkpoint()));
  }
}
