package evenside.readiness;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;

import evenside.example.Clinic;
import evenside.example.TestDay;
import evenside.readiness.recording.Recorded;
import evenside.readiness.recording.Refusal;
import evenside.readiness.recording.Refused;
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
public final class Office implements AutoCloseable {
  public static final String CLINIC = "local";

  private static final AtomicInteger CASES = new AtomicInteger();

  public final AtomicReference<Instant> now = new AtomicReference<>(Clinic.NOW);
  public final Store store;
  public final ReadinessService service;

  private Office(Store store) {
    this.store = store;
    this.service = ReadinessService.of(Clinic.CONTRACT, store, now::get);
  }

  public static Office in(Path folder) {
    return new Office(Store.open(StoreSettings.inFolder(folder)));
  }

  /** Puts a person under a new case id, and gives the id. */
  public String newCase(ObjectNode person) {
    String caseId = "k-" + CASES.incrementAndGet();
    put(caseId, person);
    return caseId;
  }

  public Recorded put(String caseId, JsonNode person) {
    return service.cases().put(CLINIC, caseId, person, Optional.empty());
  }

  public Recorded add(String caseId, TestDay day) {
    return service.batteries().add(CLINIC, caseId, day.json(), Optional.empty());
  }

  public Recorded decide(String caseId, JsonNode request) {
    return service.decisions().decide(CLINIC, caseId, request, Optional.empty());
  }

  /** Decides by a set named {@code id/version}, as of a date. */
  public JsonNode decide(String caseId, String set, String asOf) {
    return Clinic.read(decide(caseId, request(set).put("asOf", asOf)).document());
  }

  public static ObjectNode request(String set) {
    ObjectNode json = JsonNodeFactory.instance.objectNode().put("schemaVersion", "1.0");
    String[] parts = set.split("/", 2);
    json.putObject("criteriaSet").put("id", parts[0]).put("version", parts[1]);
    return json;
  }

  /** What a use case is refused with. */
  public static Refused refused(Refusal refusal, Runnable useCase) {
    Refused[] caught = new Refused[1];
    assertThatExceptionOfType(Refused.class)
        .isThrownBy(useCase::run)
        .satisfies(refused -> caught[0] = refused)
        .satisfies(refused -> assertThat(refused.refusal()).isEqualTo(refusal));
    return caught[0];
  }

  @Override
  public void close() {
    store.close();
  }
}
