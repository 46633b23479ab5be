package evenside.readiness.cases;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import evenside.evidence.BundleVerifier;
import evenside.evidence.Verification;
import evenside.ledger.LedgerAudit;
import evenside.readiness.ProvenRecord;
import evenside.readiness.recording.IdempotencyKey;
import evenside.readiness.recording.Recorded;
import evenside.readiness.recording.Refusal;
import evenside.readiness.recording.Refused;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tools.jackson.databind.node.ObjectNode;

/** Erased means gone from the API and from the file, and provably on purpose. */
class ErasuresTest {
  private static final String CANARY = "canary-7f3e-subject";

  @TempDir private Path folder;

  @Test
  void erasedCase_isGone_andTheRestOfTheLedgerHolds() throws Exception {
    try (ProvenRecord record = new ProvenRecord(folder)) {
      ObjectNode kneeCase = ProvenRecord.example("case/minimal").put("subject", CANARY);
      record.service.cases().put(ProvenRecord.CLINIC, "gone", kneeCase, Optional.empty());
      Recorded battery = record.addBattery("gone");
      Recorded decision = record.decide("gone");
      record.determine(decision.id(), "deferred", "Wait: " + CANARY);
      Recorded other = record.decided();
      assertThat(canaries()).isPositive();

      Recorded erasure = erase(record, "gone");

      assertThat(erasure.receipt()).isPresent();
      assertThat(ProvenRecord.json(erasure.document()).path("entries")).hasSize(2);
      assertThat(canaries()).as("in the files, while the service runs").isZero();
      assertRefused(Refusal.NOT_FOUND, () -> record.service.cases().get("clinic-a", "gone"));
      assertRefused(
          Refusal.NOT_FOUND, () -> record.service.batteries().get("clinic-a", battery.id()));
      assertRefused(
          Refusal.ERASED, () -> record.service.decisions().get("clinic-a", decision.id()));
      assertRefused(
          Refusal.ERASED, () -> record.service.determinations().of("clinic-a", decision.id()));
      assertThat(LedgerAudit.of(record.store, ProvenRecord.CLINIC)).isEmpty();

      record.restart();
      assertThat(record.service.ready()).isTrue();
      assertThat(verify(record, decision).failed()).isEmpty();
      assertThat(verify(record, decision).checks())
          .extracting(Verification.Check::name)
          .contains("erasure")
          .doesNotContain("commitments");
      assertThat(verify(record, other).holds()).isTrue();
      assertThat(record.decide(ProvenRecord.CASE).receipt()).isPresent();
    }
  }

  @Test
  void erasingTwice_orWhatIsNotThere_isRefused() {
    try (ProvenRecord record = new ProvenRecord(folder)) {
      record.decided();
      erase(record, ProvenRecord.CASE);
      assertRefused(Refusal.NOT_FOUND, () -> erase(record, ProvenRecord.CASE));
      assertRefused(Refusal.NOT_FOUND, () -> record.decide(ProvenRecord.CASE));
    }
  }

  @Test
  void repeatedRequest_isAnsweredWithTheFirstErasure() {
    try (ProvenRecord record = new ProvenRecord(folder)) {
      record.decided();
      Optional<IdempotencyKey> key = Optional.of(new IdempotencyKey("k", "f"));
      Recorded first = record.service.erasures().erase("clinic-a", request(ProvenRecord.CASE), key);
      Recorded again = record.service.erasures().erase("clinic-a", request(ProvenRecord.CASE), key);
      assertThat(again.novelty()).isEqualTo(Recorded.Novelty.REPLAYED);
      assertThat(again.document()).isEqualTo(first.document());
      assertThat(record.service.erasures().list("clinic-a", Optional.empty(), 10).items())
          .containsExactly(first.document());
    }
  }

  private static Recorded erase(ProvenRecord record, String caseId) {
    return record.service.erasures().erase("clinic-a", request(caseId), Optional.empty());
  }

  private static ObjectNode request(String caseId) {
    return ProvenRecord.example("erasure-request/everything").put("caseId", caseId);
  }

  private static Verification verify(ProvenRecord record, Recorded decision) {
    byte[] bundle =
        record.service.evidence().bundle("clinic-a", decision.id(), OptionalLong.empty()).bytes();
    return BundleVerifier.verify(
        bundle, List.of(record.verifier()), Optional.empty(), Optional.empty());
  }

  private static void assertRefused(Refusal why, Runnable request) {
    assertThatThrownBy(request::run)
        .isInstanceOf(Refused.class)
        .extracting(e -> ((Refused) e).refusal())
        .isEqualTo(why);
  }

  /** How many files of the folder hold the canary. */
  private long canaries() throws Exception {
    long found = 0;
    try (var files = Files.list(folder)) {
      for (Path file : files.toList()) {
        String text = new String(Files.readAllBytes(file), StandardCharsets.ISO_8859_1);
        found += text.contains(CANARY) ? 1 : 0;
      }
    }
    return found;
  }
}
