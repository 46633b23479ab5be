package evenside.readiness.audit;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import evenside.document.Document;
import evenside.readiness.ProvenRecord;
import java.nio.file.Path;
import java.sql.SQLException;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Rows changed behind the back of the service, which no entry of the ledger commits to. */
class RecordAuditTest {
  private static final String CLINIC = ProvenRecord.CLINIC;

  @TempDir private Path folder;
  private ProvenRecord record;

  @BeforeEach
  void open() {
    record = new ProvenRecord(folder);
    record.decided();
    record
        .service
        .sessions()
        .add(
            CLINIC, ProvenRecord.CASE, ProvenRecord.example("session/first-run"), Optional.empty());
  }

  @AfterEach
  void close() {
    record.close();
  }

  private List<String> findings() {
    return RecordAudit.of(record.store, CLINIC).findings();
  }

  @Test
  void soundRecord_holds_andSaysHowMuchWasLookedAt() {
    RecordAudit.Result found = RecordAudit.of(record.store, CLINIC);
    assertThat(found.findings()).isEmpty();
    assertThat(found.counts())
        .containsEntry("revisions of cases", 1)
        .containsEntry("batteries", 1)
        .containsEntry("training entries", 1)
        .containsEntry("decisions", 1);
    assertThat(RecordAudit.of(record.store, "nobody").counts()).containsEntry("decisions", 0);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "update battery set document = X'7B7D' | the battery",
        "update knee_case set document = X'7B7D' | revision 1 of the case case-1",
        "update training_session set document = X'7B7D' | the training entry",
        "update training_session set content = X'7B7D' | the training entry",
        "update training_session set document = X'00' | the training entry",
      })
  void changedRow_isNamed(String statement, String named) throws SQLException {
    record.tamper(statement);
    assertThat(findings()).singleElement().asString().contains(named, "was altered");
  }

  /** With its hash changed too, it still is not what the decision names. */
  @Test
  void batteryBehindADecision_cannotBeChangedWithItsHash() throws SQLException {
    String content = "7B2262617474657279223A7B2278223A317D7D"; // {"battery":{"x":1}}
    String sha256 = Document.sha256("{\"x\":1}".getBytes(UTF_8));
    record.tamper(
        "update battery set document = X'%s', content_sha256 = '%s'".formatted(content, sha256));
    assertThat(findings())
        .singleElement()
        .asString()
        .contains("the battery", "is not what the decision", "was made on");
  }

  @Test
  void decisionWithoutAnEntry_isNamed() throws SQLException {
    String id = "01a21600-0000-7000-8000-000000000001";
    record.tamper(
        "insert into decision select clinic, '"
            + id
            + "', case_id, criteria_set, criteria_version, criteria_sha256, milestone, outcome,"
            + " as_of, decided_at, document, inputs from decision");
    assertThat(findings()).singleElement().asString().contains(id, "has no entry in the ledger");
  }

  /** A search by outcome must find what the decision says. */
  @Test
  void decisionFiledUnderAnotherOutcome_isNamed() throws SQLException {
    record.tamper("update decision set outcome = 'met'");
    assertThat(findings()).singleElement().asString().contains("filed under what it does not say");
  }
}
