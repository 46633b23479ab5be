package evenside.api.resource;

import evenside.api.fhir.BatteryResources;
import evenside.api.fhir.Codes;
import evenside.api.fhir.CriteriaResources;
import evenside.api.fhir.DecisionResources;
import evenside.api.fhir.DecisionResources.LedgerPlace;
import evenside.api.fhir.DeterminationResources;
import evenside.api.fhir.PlanResources;
import evenside.api.fhir.SessionResources;
import evenside.api.fhir.Visit;
import evenside.document.Document;
import evenside.readiness.ReadinessService;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ObjectNode;

/** Stored documents, each with what its FHIR form needs beside it, as lists of resources. */
final class FhirDocuments {
  private final ReadinessService service;
  private final BatteryResources batteries;
  private final DecisionResources decisions;
  private final CriteriaResources criteria;
  private final SessionResources sessions;
  private final PlanResources plans;
  private final DeterminationResources determinations;

  FhirDocuments(ReadinessService service, Codes codes) {
    this.service = service;
    this.batteries = new BatteryResources(codes);
    this.decisions = new DecisionResources(codes);
    this.criteria = new CriteriaResources(service.desk().contract(), codes);
    this.sessions = new SessionResources(codes);
    this.plans = new PlanResources(codes);
    this.determinations = new DeterminationResources(codes);
  }

  /** DiagnosticReport with its Observations. */
  List<ObjectNode> battery(String clinic, String batteryId) {
    Document kept = service.batteries().get(clinic, batteryId);
    JsonNode json = Trees.of(kept);
    JsonNode results = service.batteries().results(kept);
    return batteries.of(new Visit(json, results, subject(clinic, json)));
  }

  /** GuidanceResponse, DetectedIssues, Provenance and Device. */
  List<ObjectNode> decision(String clinic, String decisionId) {
    JsonNode decision = Trees.of(service.decisions().get(clinic, decisionId));
    JsonNode named = decision.path("criteriaSet");
    String id = named.path("id").asString();
    Document set = service.criteriaSets().get(clinic, id, named.path("version").asString());
    Optional<LedgerPlace> place =
        service
            .decisions()
            .receipt(clinic, decisionId)
            .map(receipt -> new LedgerPlace(receipt.index(), receipt.checkpoint()));
    String subject = subject(clinic, decision);
    return decisions.of(new DecisionResources.Made(decision, Trees.of(set), subject), place);
  }

  /** The same with the batteries and entries it looked at, its criteria set and determinations. */
  List<ObjectNode> wholeDecision(String clinic, String decisionId) {
    JsonNode decision = Trees.of(service.decisions().get(clinic, decisionId));
    List<ObjectNode> all = new ArrayList<>(decision(clinic, decisionId));
    for (JsonNode battery : decision.path("batteries")) {
      all.addAll(battery(clinic, battery.path("batteryId").asString()));
    }
    for (JsonNode session : decision.path("sessions")) {
      all.addAll(session(clinic, session.path("sessionId").asString()));
    }
    JsonNode set = decision.path("criteriaSet");
    all.addAll(criteriaSet(clinic, set.path("id").asString(), set.path("version").asString()));
    service
        .determinations()
        .of(clinic, decisionId)
        .forEach(one -> all.add(determination(clinic, Trees.of(one))));
    return all;
  }

  /** Procedure with its Observations. */
  List<ObjectNode> session(String clinic, String sessionId) {
    JsonNode json = Trees.of(service.sessions().get(clinic, sessionId));
    return sessions.of(json, subject(clinic, json));
  }

  /** CarePlan with its Goal. */
  List<ObjectNode> plan(String clinic, String planId) {
    JsonNode json = Trees.of(service.plans().get(clinic, planId));
    return plans.adopted(json, subject(clinic, json));
  }

  /** CarePlan that is proposed, with its Goals. */
  List<ObjectNode> proposal(String clinic, Document proposed) {
    JsonNode json = Trees.of(proposed);
    return plans.proposed(json, subject(clinic, json));
  }

  /** PlanDefinition and Library. */
  List<ObjectNode> criteriaSet(String clinic, String id, String version) {
    Document set = service.criteriaSets().get(clinic, id, version);
    return criteria.of(Trees.of(set), set.bytes(), set.sha256());
  }

  /** ClinicalImpression. */
  List<ObjectNode> determination(String clinic, String determinationId) {
    return List.of(
        determination(clinic, Trees.of(service.determinations().get(clinic, determinationId))));
  }

  private ObjectNode determination(String clinic, JsonNode json) {
    return determinations.of(json, subject(clinic, json));
  }

  /** Reference of the person a record is about. */
  private String subject(String clinic, JsonNode record) {
    return Trees.of(service.cases().get(clinic, record.path("caseId").asString()))
        .at("/case/subject")
        .asString();
  }
}
