package evenside.readiness;

import static java.nio.charset.StandardCharsets.UTF_8;

import evenside.document.Document;
import evenside.ledger.Ledger;
import evenside.ledger.LedgerSettings;
import evenside.note.SigningKey;
import evenside.note.VerifierKey;
import evenside.readiness.recording.IdempotencyKey;
import evenside.readiness.recording.Recorded;
import evenside.schemas.Contract;
import evenside.schemas.StrictJson;
import evenside.store.Store;
import evenside.store.database.StoreSettings;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Instant;
import java.time.InstantSource;
import java.util.List;
import java.util.Optional;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ObjectNode;

/** A service with a ledger over H2, and an invented case with one battery and one decision. */
public final class ProvenRecord implements AutoCloseable {
  public static final String CLINIC = "clinic-a";
  public static final String CASE = "case-1";
  public static final Contract CONTRACT = Contract.published();

  public final Path folder;
  private final StoreSettings where;
  public final SigningKey key;
  public Instant now = Instant.parse("2026-11-20T10:00:00Z");
  public Store store;
  public Ledger ledger;
  public ReadinessService service;

  public ProvenRecord(Path folder) {
    this(folder, StoreSettings.inFolder(folder), SigningKey.generate());
  }

  /** The same on another database, or one of several that share a key and a database. */
  public ProvenRecord(Path folder, StoreSettings where, SigningKey key) {
    this.folder = folder;
    this.where = where;
    this.key = key;
    start();
  }

  private void start() {
    InstantSource clock = () -> now;
    store = Store.open(where);
    LedgerSettings settings = new LedgerSettings(folder, LedgerSettings.DEFAULT_NAME, List.of(key));
    ledger = Ledger.open(store, settings, clock);
    service = ReadinessService.of(CONTRACT, store, ledger, clock);
  }

  public void restart() {
    close();
    start();
  }

  /** Changes rows behind the back of the service, which is closed for it. */
  public void tamper(String statement) throws SQLException {
    close();
    try (Connection connection =
            DriverManager.getConnection(where.url(), where.user(), where.password());
        Statement changing = connection.createStatement()) {
      if (changing.executeUpdate(statement) == 0) {
        throw new AssertionError("changed nothing: " + statement);
      }
    }
    start();
  }

  public VerifierKey verifier() {
    return key.verifier(LedgerSettings.DEFAULT_NAME + "/" + CLINIC);
  }

  public static ObjectNode example(String name) {
    try {
      Path file = Path.of("../schemas/examples/valid").resolve(name + ".json");
      return (ObjectNode) StrictJson.read(Files.readAllBytes(file), StrictJson.Limits.OWN);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  public static JsonNode json(String text) {
    return StrictJson.read(text.replace('\'', '"').getBytes(UTF_8), StrictJson.Limits.OWN);
  }

  public static JsonNode json(Document document) {
    return StrictJson.read(document.bytes(), StrictJson.Limits.OWN);
  }

  public void putCase(String caseId) {
    service.cases().put(CLINIC, caseId, kneeCase(), Optional.empty());
  }

  private static ObjectNode kneeCase() {
    return example("case/minimal");
  }

  /** The example battery, on a case whose operated side it fits. */
  public Recorded addBattery(String caseId) {
    return service.batteries().add(CLINIC, caseId, battery(), Optional.empty());
  }

  public static ObjectNode battery() {
    ObjectNode battery = example("battery/strength-and-hops");
    battery.remove("recordId");
    battery.set("operatedSide", kneeCase().path("operatedSide"));
    return battery;
  }

  public Recorded decide(String caseId) {
    return decide(caseId, Optional.empty());
  }

  public Recorded decide(String caseId, Optional<IdempotencyKey> key) {
    JsonNode request =
        json(
            "{'schemaVersion':'1.0','criteriaSet':{'id':'delaware-oslo','version':'2020.1'},"
                + "'asOf':'2026-11-20'}");
    return service.decisions().decide(CLINIC, caseId, request, key);
  }

  /** A case with a battery, decided on. */
  public Recorded decided() {
    putCase(CASE);
    addBattery(CASE);
    return decide(CASE);
  }

  /** Records a clinician's statement on a decision. */
  public Recorded determine(String decisionId, String statement, String reason) {
    return service
        .determinations()
        .add(
            CLINIC, "gym-software", decisionId, determination(statement, reason), Optional.empty());
  }

  public static JsonNode determination(String statement, String reason) {
    ObjectNode json = example("determination/not-cleared");
    json.put("statement", statement);
    if (!reason.isEmpty()) {
      json.put("reason", reason);
    }
    return json;
  }

  @Override
  public void close() {
    ledger.close();
    store.close();
  }
}
