package evenside.readiness;

import evenside.document.Document;
import evenside.ledger.Ledger;
import evenside.readiness.recording.Refused;
import evenside.readiness.recovery.Wanted;
import evenside.schemas.Contract;
import evenside.schemas.StrictJson;
import evenside.store.Store;
import evenside.store.database.StoreSettings;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/** An invented clinic on a real store, which follows invented people for months. */
public final class Rehab implements AutoCloseable {
  public static final String CLINIC = "local";
  public static final Contract CONTRACT = Contract.published();

  public final Store store;
  public final ReadinessService service;

  private Rehab(Store store, int smallestCell) {
    this.store = store;
    Instant now = Instant.parse("2026-11-20T12:00:00Z");
    this.service = ReadinessService.of(CONTRACT, store, Ledger.off(store), () -> now, smallestCell);
  }

  public static Rehab in(Path folder) {
    return in(folder, Cohorts.SMALLEST_CELL);
  }

  public static Rehab in(Path folder, int smallestCell) {
    return new Rehab(Store.open(StoreSettings.inFolder(folder)), smallestCell);
  }

  /** A woman of 26 with a hamstring graft, left side. */
  public static ObjectNode person(LocalDate surgery) {
    ObjectNode json = JsonNodeFactory.instance.objectNode();
    json.put("schemaVersion", "1.0").put("subject", "S-1");
    json.put("surgeryDate", surgery.toString()).put("operatedSide", "left");
    json.put("graft", "hamstring-tendon").put("otherKnee", "none");
    json.put("sex", "female").put("birthYear", surgery.getYear() - 26);
    return json;
  }

  public String put(String caseId, ObjectNode person) {
    service.cases().put(CLINIC, caseId, person, Optional.empty());
    return caseId;
  }

  /** Records a battery, and gives its id. */
  public String test(String caseId, Tests tests) {
    try {
      return service.batteries().add(CLINIC, caseId, tests.json(), Optional.empty()).id();
    } catch (Refused refused) {
      throw new AssertionError("the invented tests have faults: " + refused.faults(), refused);
    }
  }

  /** Records an entry of the training record. */
  public void train(String caseId, LocalDate day, String training) {
    String entry =
        """
        {"schemaVersion": "1.0", "performedAt": "%sT17:00:00+01:00", "operatedSide": "left",
         "entry": {"training": %s}}
        """
            .formatted(day, training);
    JsonNode json = StrictJson.read(entry.getBytes(StandardCharsets.UTF_8), StrictJson.Limits.OWN);
    service.sessions().add(CLINIC, caseId, json, Optional.empty());
  }

  public JsonNode decide(String caseId, String set, LocalDate asOf) {
    ObjectNode request = JsonNodeFactory.instance.objectNode().put("schemaVersion", "1.0");
    String[] parts = set.split("/", 2);
    request.putObject("criteriaSet").put("id", parts[0]).put("version", parts[1]);
    request.put("asOf", asOf.toString());
    return read(service.decisions().decide(CLINIC, caseId, request, Optional.empty()).document());
  }

  /** Records a clinician's determination on a decision. */
  public void determine(String decisionId, String statement) {
    ObjectNode json = JsonNodeFactory.instance.objectNode().put("schemaVersion", "1.0");
    json.put("statement", statement).put("reason", "As the person and the clinic agreed.");
    json.putObject("clinician").put("reference", "pt-1").put("role", "physiotherapist");
    service.determinations().add(CLINIC, "gym-software", decisionId, json, Optional.empty());
  }

  public JsonNode progress(String caseId, LocalDate asOf) {
    return valid(
        "progress",
        service
            .recovery()
            .progress(
                CLINIC, caseId, new Wanted(Optional.empty(), Optional.empty(), Optional.of(asOf))));
  }

  public JsonNode plan(String caseId, String set, LocalDate asOf) {
    return valid("plan", service.recovery().plan(CLINIC, caseId, wanted(set, asOf)));
  }

  public static Wanted wanted(String set, LocalDate asOf) {
    return new Wanted(Optional.empty(), Optional.of(set), Optional.of(asOf));
  }

  /** The answer as a tree, after a check against its published schema. */
  public static JsonNode valid(String kind, Document document) {
    JsonNode json = read(document);
    List<?> faults = CONTRACT.validate(kind, json);
    if (!faults.isEmpty()) {
      throw new AssertionError(kind + " breaks its own schema: " + faults);
    }
    return json;
  }

  public static JsonNode read(Document document) {
    return StrictJson.read(document.bytes(), StrictJson.Limits.OWN);
  }

  @Override
  public void close() {
    store.close();
  }
}
