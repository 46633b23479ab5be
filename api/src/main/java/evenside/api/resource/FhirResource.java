package evenside.api.resource;

import evenside.api.fhir.Codes;
import evenside.api.fhir.Devices;
import evenside.api.fhir.Fhir;
import evenside.api.fhir.ObservationImport;
import evenside.api.fhir.ObservationImport.Expected;
import evenside.api.fhir.ObservationImport.Imported;
import evenside.api.http.Cache;
import evenside.api.http.Call;
import evenside.api.http.Reply;
import evenside.api.problem.Problems;
import evenside.readiness.ReadinessService;
import evenside.readiness.recording.Recorded;
import evenside.readiness.recording.Refusal;
import evenside.readiness.recording.Refused;
import java.util.List;
import java.util.Optional;
import java.util.regex.Pattern;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * The FHIR R4 form of what is recorded: a Bundle in the place of each document, every resource of
 * it by type and id, and Observations taken as a battery.
 */
public final class FhirResource {
  private static final Pattern RECORD =
      Pattern.compile("[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}");
  private static final Pattern SET = Pattern.compile("([a-z0-9-]+)-([0-9][0-9.]*)");
  private static final int RECORD_LENGTH = 36;

  private final ReadinessService service;
  private final AccessTrail accesses;
  private final Codes codes;
  private final FhirDocuments documents;
  private final ObservationImport observations;
  private final String schemaVersion;

  /** Over the use cases. */
  public FhirResource(ReadinessService service, AccessTrail accesses, Codes codes) {
    this.service = service;
    this.accesses = accesses;
    this.codes = codes;
    this.documents = new FhirDocuments(service, codes);
    this.observations = new ObservationImport(codes);
    this.schemaVersion = service.desk().contract().schemaVersion();
  }

  /** A decision with all it rests on. */
  public Reply decision(Call call) {
    String id = Ids.uuid(call, "decisionId");
    Reply reply = bundle(documents.wholeDecision(call.clinic(), id));
    accesses.note(call, "read", id);
    return reply;
  }

  /** A battery. */
  public Reply battery(Call call) {
    if (call.query("indices").isPresent()) {
      throw Parameters.bad(
          "indices", "nothing in this form, which has the limb symmetry index only");
    }
    return bundle(documents.battery(call.clinic(), Ids.uuid(call, "batteryId")));
  }

  /** An entry of the training record. */
  public Reply session(Call call) {
    return bundle(documents.session(call.clinic(), Ids.uuid(call, "sessionId")));
  }

  /** An adopted plan. */
  public Reply plan(Call call) {
    return bundle(documents.plan(call.clinic(), Ids.uuid(call, "planId")));
  }

  /** A plan the service proposes. */
  public Reply proposal(Call call) {
    String caseId = Ids.caseId(call);
    var proposed = service.recovery().plan(call.clinic(), caseId, Queries.wanted(call));
    byte[] body = Fhir.bytes(Fhir.bundle(documents.proposal(call.clinic(), proposed)));
    return new Reply(200, Fhir.MEDIA_TYPE, body, java.util.Map.of()).cached(Cache.NONE);
  }

  /** A criteria set. */
  public Reply criteriaSet(Call call) {
    String id = Ids.code(call, "id");
    return bundle(documents.criteriaSet(call.clinic(), id, Ids.version(call)));
  }

  /** A determination. */
  public Reply determination(Call call) {
    return bundle(documents.determination(call.clinic(), Ids.uuid(call, "determinationId")));
  }

  /** Every local code system. */
  public Reply codeSystems(Call call) {
    return Reply.of(Fhir.bytes(Fhir.bundle(codes.systems())), Fhir.MEDIA_TYPE).cached(Cache.PUBLIC);
  }

  /** One local code system. */
  public Reply codeSystem(Call call) {
    ObjectNode found =
        codes.systems().stream()
            .filter(system -> system.path("id").asString().equals(call.id("id")))
            .findFirst()
            .orElseThrow(Problems.NOTHING_HERE::asException);
    return Reply.of(Fhir.bytes(found), Fhir.MEDIA_TYPE).cached(Cache.PUBLIC);
  }

  /** One resource by type and id. */
  public Reply one(Call call) {
    String address = call.id("type") + "/" + call.id("id");
    ObjectNode found =
        around(call.clinic(), call.id("type"), call.id("id")).stream()
            .filter(resource -> Fhir.address(resource).equals(address))
            .findFirst()
            .orElseThrow(Problems.NOTHING_HERE::asException);
    if (List.of("GuidanceResponse", "Provenance", "DetectedIssue").contains(call.id("type"))) {
      accesses.note(call, "read", call.id("id").substring(0, RECORD_LENGTH));
    }
    return reply(found);
  }

  /** The resources among which the one of this type and id must be. */
  private List<ObjectNode> around(String clinic, String type, String id) {
    return switch (type) {
      case "Device" -> List.of(Devices.service(service.desk().engineVersion()));
      case "PlanDefinition", "Library" -> ofSet(clinic, id);
      case "DiagnosticReport" -> documents.battery(clinic, record(id));
      case "Observation" ->
          id.contains("-session-")
              ? documents.session(clinic, record(id))
              : documents.battery(clinic, record(id));
      case "Procedure" -> documents.session(clinic, record(id));
      case "CarePlan", "Goal" -> documents.plan(clinic, record(id));
      case "ClinicalImpression" -> documents.determination(clinic, record(id));
      case "GuidanceResponse", "Provenance", "DetectedIssue" ->
          documents.decision(clinic, record(id));
      default -> List.of();
    };
  }

  private List<ObjectNode> ofSet(String clinic, String id) {
    var name = SET.matcher(id);
    if (!name.matches()) {
      throw Problems.NOTHING_HERE.asException();
    }
    return documents.criteriaSet(clinic, name.group(1), name.group(2));
  }

  /** Ids of our resources begin with that of the record they are of. */
  private static String record(String id) {
    String record = id.substring(0, Math.min(id.length(), RECORD_LENGTH));
    if (!RECORD.matcher(record).matches()) {
      throw Problems.NOTHING_HERE.asException();
    }
    return record;
  }

  /** Records Observations as a battery. */
  public Reply takeObservations(Call call) {
    String caseId = Ids.caseId(call);
    String key = Idempotency.read(call);
    JsonNode payload = call.json();
    JsonNode kneeCase = Trees.of(service.cases().get(call.clinic(), caseId)).path("case");
    Expected expected =
        new Expected(kneeCase.path("subject").asString(), kneeCase.path("operatedSide").asString());
    Imported imported = observations.read(payload, expected, schemaVersion);
    Recorded recorded = record(call, caseId, key, payload, imported);
    Reply document =
        Reply.of(recorded.document())
            .cached(Cache.PRIVATE)
            .describedBy(schemaVersion, "battery-record");
    return Idempotency.reply(recorded, "/v1/batteries/", document);
  }

  private Recorded record(
      Call call, String caseId, String key, JsonNode payload, Imported imported) {
    try {
      return service
          .batteries()
          .add(
              call.clinic(),
              caseId,
              imported.battery(),
              Optional.of(Idempotency.of(key, call, payload)));
    } catch (Refused refused) {
      if (refused.refusal() == Refusal.INVALID) {
        throw imported.refusal(refused.faults()).asException();
      }
      throw refused;
    }
  }

  private static Reply bundle(List<ObjectNode> resources) {
    return reply(Fhir.bundle(resources));
  }

  private static Reply reply(ObjectNode resource) {
    return Reply.of(Fhir.bytes(resource), Fhir.MEDIA_TYPE).cached(Cache.PRIVATE);
  }
}
