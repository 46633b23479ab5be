package evenside.readiness.training;

import static org.assertj.core.api.Assertions.catchThrowableOfType;

import evenside.document.Document;
import evenside.readiness.ReadinessService;
import evenside.readiness.computing.AdviceQuestion;
import evenside.readiness.recording.Refused;
import evenside.schemas.Contract;
import evenside.schemas.Fault;
import evenside.schemas.StrictJson;
import evenside.store.OpenStore;
import java.time.Instant;
import java.time.InstantSource;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.extension.RegisterExtension;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/** Tests of the training record over a real store: each has a clinic of its own with two cases. */
abstract class TrainingRecord {
  static final Contract CONTRACT = Contract.published();

  @RegisterExtension static final OpenStore OPEN = OpenStore.onH2();

  static ReadinessService service;
  private static int clinics;

  final String clinic = "clinic-" + clinics++;

  @BeforeAll
  static void open() {
    InstantSource clock = InstantSource.fixed(Instant.parse("2026-11-02T12:00:00Z"));
    service = ReadinessService.of(CONTRACT, OPEN.store(), clock);
  }

  @BeforeEach
  void person() {
    put("k-1");
    put("k-2");
  }

  /** Records the case: operated on 17 November 2025. */
  void put(String caseId) {
    ObjectNode json = JsonNodeFactory.instance.objectNode();
    json.put("schemaVersion", "1.0").put("subject", "P-1").put("surgeryDate", "2025-11-17");
    json.put("operatedSide", "left").put("graft", "patellar-tendon").put("otherKnee", "none");
    json.put("sex", "female").put("birthYear", 1999);
    service.cases().put(clinic, caseId, json, Optional.empty());
  }

  JsonNode post(ObjectNode json) {
    return post("k-1", json);
  }

  JsonNode post(String caseId, ObjectNode json) {
    return tree(service.sessions().add(clinic, caseId, json, Optional.empty()).document());
  }

  static JsonNode tree(Document document) {
    return StrictJson.read(document.bytes(), StrictJson.Limits.OWN);
  }

  JsonNode advice(String caseId) {
    return tree(service.sessions().advice(clinic, caseId, AdviceQuestion.TODAY));
  }

  /** What is found wrong with an entry. */
  List<Fault> refused(ObjectNode json) {
    return catchThrowableOfType(Refused.class, () -> post(json)).faults();
  }
}
