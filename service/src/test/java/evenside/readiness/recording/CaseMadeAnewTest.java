package evenside.readiness.recording;

import static org.assertj.core.api.Assertions.assertThat;

import evenside.ledger.LedgerAudit;
import evenside.note.SigningKey;
import evenside.readiness.ProvenRecord;
import evenside.readiness.ReadinessService;
import evenside.store.PostgresServer;
import evenside.store.database.StoreSettings;
import java.nio.file.Path;
import java.time.InstantSource;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicInteger;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/**
 * A case that is erased, and made anew under the same name, while a decision on the old one is
 * computed. Nothing of the old case may come back with the decision (decision 38 of the developers'
 * map). By two replicas, as one of them erases only when nobody reads.
 */
@Timeout(120)
class CaseMadeAnewTest {
  private static final String CLINIC = ProvenRecord.CLINIC;
  private static final String CASE = ProvenRecord.CASE;

  private static final SigningKey KEY = SigningKey.generate();

  private static PostgresServer server;

  @TempDir private Path folder;
  @TempDir private Path otherFolder;
  private ProvenRecord record;

  /** Another replica, which does not wait for the readers of the first. */
  private ProvenRecord other;

  @BeforeAll
  static void start() {
    server = PostgresServer.start();
  }

  @AfterAll
  static void stop() {
    server.close();
  }

  @BeforeEach
  void open() {
    StoreSettings where = server.settings().allowingWeakDurability();
    record = new ProvenRecord(folder, where, KEY);
    other = new ProvenRecord(otherFolder, where, KEY);
    record.putCase(CASE);
    record.addBattery(CASE);
  }

  @AfterEach
  void close() {
    erase();
    other.close();
    record.close();
  }

  @Test
  void decision_onTheOldCase_isComputedOnTheNewOne() {
    JsonNode decision = decidedWhile(ProvenRecord.example("case/minimal").put("birthYear", 1990));
    assertThat(decision.path("batteries")).isEmpty();
    assertThat(decision.path("outcome").asString()).isEqualTo("undetermined");
    assertThat(LedgerAudit.of(record.store, CLINIC)).isEmpty();
  }

  @Test
  void decision_onTheOldCase_isComputedOnTheNewOne_alsoIfTheyAreAlike() {
    JsonNode decision = decidedWhile(ProvenRecord.example("case/minimal"));
    assertThat(decision.path("batteries")).isEmpty();
    assertThat(decision.path("outcome").asString()).isEqualTo("undetermined");
    assertThat(LedgerAudit.of(record.store, CLINIC)).isEmpty();
  }

  /**
   * Decides, and makes the case anew after the old one was read and before its decision is kept.
   */
  private JsonNode decidedWhile(ObjectNode anew) {
    AtomicInteger looks = new AtomicInteger();
    InstantSource clock =
        () -> {
          looks.incrementAndGet();
          return record.now;
        };
    ReadinessService service =
        ReadinessService.of(ProvenRecord.CONTRACT, record.store, record.ledger, clock);
    // The clock is looked at to check the request, and again when the computation begins.
    Watched request =
        new Watched(
            "asOf",
            () -> {
              if (looks.get() == 2) {
                looks.incrementAndGet();
                erase();
                other.now = other.now.plusSeconds(1);
                other.service.cases().put(CLINIC, CASE, anew, Optional.empty());
              }
            });
    request.put("schemaVersion", "1.0").put("milestone", "return-to-competition");
    request.put("asOf", "2026-11-20");
    Recorded decided = service.decisions().decide(CLINIC, CASE, request, Optional.empty());
    assertThat(looks.get()).as("the case was made anew meanwhile").isGreaterThan(2);
    return ProvenRecord.json(service.decisions().get(CLINIC, decided.id()));
  }

  private void erase() {
    ObjectNode request = ProvenRecord.example("erasure-request/everything").put("caseId", CASE);
    other.service.erasures().erase(CLINIC, request, Optional.empty());
  }

  /** A document that tells when a member of it is read. */
  private static final class Watched extends ObjectNode {
    private static final long serialVersionUID = 1;
    private final String member;
    private final transient Runnable read;

    Watched(String member, Runnable read) {
      super(JsonNodeFactory.instance);
      this.member = member;
      this.read = read;
    }

    @Override
    public JsonNode path(String name) {
      if (name.equals(member)) {
        read.run();
      }
      return super.path(name);
    }
  }
}
