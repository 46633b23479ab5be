package evenside.readiness.audit;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import evenside.document.CanonicalJson;
import evenside.evidence.BundleVerifier;
import evenside.evidence.Recompute;
import evenside.evidence.Verification;
import evenside.note.Checkpoint;
import evenside.note.SignedNote;
import evenside.readiness.ProvenRecord;
import evenside.readiness.recording.Recorded;
import evenside.readiness.recording.Refused;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tools.jackson.databind.JsonNode;

/** Evidence beside a checkpoint that its reader has kept: nothing before it was changed since. */
class OlderCheckpointTest {
  private static final Recompute AGAIN = Recomputation.of(ProvenRecord.CONTRACT);

  @TempDir private Path folder;
  private ProvenRecord record;

  @BeforeEach
  void open() throws Exception {
    record = new ProvenRecord(Files.createDirectory(folder.resolve("data")));
  }

  @AfterEach
  void close() {
    record.close();
  }

  @Test
  void olderCheckpoint_isExtended_orAnotherLedgersIsRefused() {
    Recorded decision = record.decided();
    SignedNote older = SignedNote.parse(decision.receipt().orElseThrow().checkpoint());
    record.decide(ProvenRecord.CASE);
    record.decide(ProvenRecord.CASE);
    byte[] bundle =
        record
            .service
            .evidence()
            .bundle(ProvenRecord.CLINIC, decision.id(), OptionalLong.of(3))
            .bytes();
    assertThat(check(bundle, older).holds()).isTrue();
    var forged =
        new evenside.note.Checkpoint(
            record.verifier().name(),
            new evenside.merkle.TreeHead(3, evenside.merkle.Hash.sha256(new byte[1])));
    assertThat(check(bundle, forged.sign(List.of(record.key))).failed().orElseThrow().name())
        .isEqualTo("consistency");
    assertThatThrownBy(
            () ->
                record
                    .service
                    .evidence()
                    .bundle(ProvenRecord.CLINIC, decision.id(), OptionalLong.of(99)))
        .isInstanceOf(Refused.class)
        .hasMessageContaining("cannot extend one of 99");
  }

  /** The newest checkpoint that a client holds may not be in the table yet. */
  @Test
  void bundle_extendsACheckpoint_thatWasGivenOutAMomentAgo() {
    Recorded older = record.decided();
    record.service.evidence().bundle(ProvenRecord.CLINIC, older.id(), OptionalLong.empty());
    String kept = record.decide(ProvenRecord.CASE).receipt().orElseThrow().checkpoint();
    SignedNote note = SignedNote.parse(kept);
    long size = Checkpoint.parse(note.text()).head().size();
    JsonNode bundle =
        ProvenRecord.json(
            record
                .service
                .evidence()
                .bundle(ProvenRecord.CLINIC, older.id(), OptionalLong.of(size)));
    assertThat(
            BundleVerifier.verify(
                    CanonicalJson.bytes(bundle),
                    List.of(record.verifier()),
                    Optional.of(note),
                    Optional.of(AGAIN))
                .failed())
        .isEmpty();
  }

  /** An auditor who forgot to ask for the proof must not read that the past was changed. */
  @Test
  void olderCheckpoint_withoutAProofInTheBundle_accusesNobody() {
    Recorded decision = record.decided();
    SignedNote older = SignedNote.parse(decision.receipt().orElseThrow().checkpoint());
    byte[] early = withoutSince(decision);
    Recorded last = record.decide(ProvenRecord.CASE);
    SignedNote newer = SignedNote.parse(last.receipt().orElseThrow().checkpoint());
    byte[] late = withoutSince(last);
    assertThat(check(late, older).failed().orElseThrow().detail())
        .isEqualTo("the bundle has no proof from size 3 on; fetch it again with ?since=3");
    assertThat(check(early, newer).failed().orElseThrow().detail())
        .contains("from before the checkpoint of size", "fetch it again with ?since=");
    assertThat(check(late, newer).holds()).isTrue();
  }

  private byte[] withoutSince(Recorded decision) {
    return record
        .service
        .evidence()
        .bundle(ProvenRecord.CLINIC, decision.id(), OptionalLong.empty())
        .bytes();
  }

  private Verification check(byte[] bundle, SignedNote older) {
    return BundleVerifier.verify(
        bundle, List.of(record.verifier()), Optional.of(older), Optional.empty());
  }
}
