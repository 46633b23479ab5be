package evenside.readiness;

import evenside.example.Clinic;
import evenside.example.TestDay;
import evenside.store.Store;
import evenside.store.database.StoreSettings;
import java.nio.file.Path;
import java.time.Instant;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.concurrent.atomic.AtomicReference;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/** A clinic's service on a real H2 file, with a clock that the test sets. */
final class Office implements AutoCloseable {
  static final String CLINIC = "local";

  private static final AtomicInteger CASES = new AtomicInteger();

  final AtomicReference<Instant> now = new AtomicReference<>(Clinic.NOW);
  final Store store;
  final ReadinessService service;

  private Office(Store store) {
    this.store = store;
    this.service = ReadinessService.of(Clinic.CONTRACT, store, now::get);
  }

  static Office in(Path folder) {
    return new Office(Store.open(StoreSettings.inFolder(folder)));
  }

  /** Puts a person under a new case id, and gives the id. */
  String newCase(ObjectNode person) {
    String caseId = "k-" + CASES.incrementAndGet();
    put(caseId, person);
    return caseId;
  }

  Recorded put(String caseId, JsonNode person) {
    return service.cases().put(CLINIC, caseId, person, Optional.empty());
  }

  Recorded add(String caseId, TestDay day) {
    return service.batteries().add(CLINIC, caseId, day.json(), Optional.empty());
  }

  Recorded decide(String caseId, JsonNode request) {
    return service.decisions().decide(CLINIC, caseId, request, Optional.empty());
  }

  /** Decides by a set named {@code id/version}, as of a date. */
  JsonNode decide(String caseId, String set, String asOf) {
    return Clinic.read(decide(caseId, request(set).put("asOf", asOf)).document());
  }

  static ObjectNode request(String set) {
    ObjectNode json = JsonNodeFactory.instance.objectNode().put("schemaVersion", "1.0");
    String[] parts = set.split("/", 2);
    json.putObject("criteriaSet").put("id", parts[0]).put("version", parts[1]);
    return json;
  }

  @Override
  public void close() {
    store.close();
  }
}
