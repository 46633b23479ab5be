package evenside.readiness.recording;

import static org.assertj.core.api.Assertions.assertThat;

import evenside.evidence.BundleVerifier;
import evenside.evidence.Verification;
import evenside.ledger.LedgerAudit;
import evenside.readiness.ProvenRecord;
import evenside.readiness.audit.Recomputation;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The clock of the machine is put back by an hour while decisions are made, and forward again. */
class ClockTest {
  private static final Duration HOUR = Duration.ofHours(1);

  @TempDir private Path folder;

  @Test
  void decisions_acrossAClockPutBackAndForward_areAllThereAndProved() {
    try (ProvenRecord record = new ProvenRecord(folder)) {
      record.putCase(ProvenRecord.CASE);
      record.addBattery(ProvenRecord.CASE);
      List<String> made = new ArrayList<>();
      for (Duration step : List.of(Duration.ZERO, HOUR.negated(), HOUR.plusMinutes(1))) {
        record.now = record.now.plus(step);
        for (int i = 0; i < 3; i++) {
          record.now = record.now.plusMillis(1);
          made.add(record.decide(ProvenRecord.CASE).id());
        }
      }
      assertThat(made).doesNotHaveDuplicates();
      assertThat(found(record)).containsExactlyInAnyOrderElementsOf(made);
      for (String id : made) {
        byte[] bundle =
            record.service.evidence().bundle(ProvenRecord.CLINIC, id, OptionalLong.empty()).bytes();
        Verification verification =
            BundleVerifier.verify(
                bundle,
                List.of(record.verifier()),
                Optional.empty(),
                Optional.of(Recomputation.of(ProvenRecord.CONTRACT)));
        assertThat(verification.failed()).isEmpty();
      }
      assertThat(LedgerAudit.of(record.store, ProvenRecord.CLINIC)).isEmpty();
      record.restart();
      assertThat(record.decide(ProvenRecord.CASE).receipt()).isPresent();
    }
  }

  /** Every decision of the case, two at a time. */
  private static List<String> found(ProvenRecord record) {
    List<String> found = new ArrayList<>();
    Optional<String> after = Optional.empty();
    do {
      Page page =
          record.service.decisions().ofCase(ProvenRecord.CLINIC, ProvenRecord.CASE, after, 2);
      found.addAll(page.ids());
      after = page.next();
    } while (after.isPresent());
    return found;
  }
}
