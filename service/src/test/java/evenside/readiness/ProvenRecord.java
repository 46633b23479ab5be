package evenside.readiness;

import static java.nio.charset.StandardCharsets.UTF_8;

import evenside.document.Document;
import evenside.ledger.Ledger;
import evenside.ledger.LedgerSettings;
import evenside.note.SigningKey;
import evenside.note.VerifierKey;
import evenside.schemas.Contract;
import evenside.schemas.StrictJson;
import evenside.store.Store;
import evenside.store.database.StoreSettings;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.InstantSource;
import java.util.List;
import java.util.Optional;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ObjectNode;

/** A service with a ledger over H2, and an invented case with one battery and one decision. */
final class ProvenRecord implements AutoCloseable {
  static final String CLINIC = "clinic-a";
  static final String CASE = "case-1";
  static final Contract CONTRACT = Contract.published();

  final Path folder;
  private final StoreSettings where;
  final SigningKey key;
  Instant now = Instant.parse("2026-11-20T10:00:00Z");
  Store store;
  Ledger ledger;
  ReadinessService service;

  ProvenRecord(Path folder) {
    this(folder, StoreSettings.inFolder(folder), SigningKey.generate());
  }

  /** The same on another database, or one of several that share a key and a database. */
  ProvenRecord(Path folder, StoreSettings where, SigningKey key) {
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

  void restart() {
    close();
    start();
  }

  VerifierKey verifier() {
    return key.verifier(LedgerSettings.DEFAULT_NAME + "/" + CLINIC);
  }

  static ObjectNode example(String name) {
    try {
      Path file = Path.of("../schemas/examples/valid").resolve(name + ".json");
      return (ObjectNode) StrictJson.read(Files.readAllBytes(file), StrictJson.Limits.OWN);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  static JsonNode json(String text) {
    return StrictJson.read(text.replace('\'', '"').getBytes(UTF_8), StrictJson.Limits.OWN);
  }

  static JsonNode json(Document document) {
    return StrictJson.read(document.bytes(), StrictJson.Limits.OWN);
  }

  void putCase(String caseId) {
    service.cases().put(CLINIC, caseId, kneeCase(), Optional.empty());
  }

  private static ObjectNode kneeCase() {
    return example("case/minimal");
  }

  /** The example battery, on a case whose operated side it fits. */
  Recorded addBattery(String caseId) {
    return service.batteries().add(CLINIC, caseId, battery(), Optional.empty());
  }

  static ObjectNode battery() {
    ObjectNode battery = example("battery/strength-and-hops");
    battery.remove("recordId");
    battery.set("operatedSide", kneeCase().path("operatedSide"));
    return battery;
  }

  Recorded decide(String caseId) {
    return decide(caseId, Optional.empty());
  }

  Recorded decide(String caseId, Optional<IdempotencyKey> key) {
    JsonNode request =
        json(
            "{'schemaVersion':'1.0','criteriaSet':{'id':'delaware-oslo','version':'2020.1'},"
                + "'asOf':'2026-11-20'}");
    return service.decisions().decide(CLINIC, caseId, request, key);
  }

  /** A case with a battery, decided on. */
  Recorded decided() {
    putCase(CASE);
    addBattery(CASE);
    return decide(CASE);
  }

  /** Records a clinician's statement on a decision. */
  Recorded determine(String decisionId, String statement, String reason) {
    return service
        .determinations()
        .add(CLINIC, decisionId, determination(statement, reason), Optional.empty());
  }

  static JsonNode determination(String statement, String reason) {
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
