package evenside.readiness.audit;

import static org.assertj.core.api.Assertions.assertThat;

import evenside.document.CanonicalJson;
import evenside.evidence.BundleVerifier;
import evenside.evidence.PublishedFiles;
import evenside.evidence.Verification;
import evenside.note.SigningKey;
import evenside.readiness.ProvenRecord;
import evenside.readiness.recording.Recorded;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.function.Consumer;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import tools.jackson.databind.node.ObjectNode;

/** What no entry of the ledger commits to is held against what is known, or named. */
class UncommittedTest {
  private static final String HASHES = "/schemaHashes";
  private static final PublishedFiles PUBLISHED =
      PublishedFiles.of(ProvenRecord.CONTRACT, evenside.decision.Engine.VERSION);
  private static final PublishedFiles OF_ANOTHER_RELEASE =
      new PublishedFiles(PUBLISHED.schemaVersion(), "99.0", PUBLISHED.sha256());

  private static ProvenRecord record;
  private static ObjectNode sound;

  @BeforeAll
  static void open(@TempDir Path folder) throws Exception {
    record = new ProvenRecord(Files.createDirectory(folder.resolve("data")));
    Recorded decision = record.decided();
    record.determine(decision.id(), "deferred", "Looked at again next week.");
    sound =
        (ObjectNode)
            ProvenRecord.json(
                record
                    .service
                    .evidence()
                    .bundle(ProvenRecord.CLINIC, decision.id(), OptionalLong.empty()));
  }

  @AfterAll
  static void close() {
    record.close();
  }

  private static Verification verify(PublishedFiles published, Consumer<ObjectNode> change) {
    ObjectNode bundle = sound.deepCopy();
    change.accept(bundle);
    return BundleVerifier.verify(
        CanonicalJson.bytes(bundle),
        List.of(record.verifier()),
        Optional.empty(),
        Optional.empty(),
        Optional.of(published));
  }

  private static void fails(String check, Consumer<ObjectNode> change) {
    Verification verification = verify(PUBLISHED, change);
    assertThat(verification.failed().map(Verification.Check::name)).contains(check);
    assertThat(verification.notCovered()).isEmpty();
  }

  @Test
  void soundBundle_isCoveredWholly() {
    Verification verification = verify(PUBLISHED, bundle -> {});
    assertThat(verification.holds()).isTrue();
    assertThat(verification.checks())
        .extracting(Verification.Check::name)
        .endsWith("determinations", "keys", "schemas");
    assertThat(verification.notCovered()).isEmpty();
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "v1/decision.schema.json",
        "catalogue/measures.json",
        "progressions/acl-progression/0.1.json",
        "instruments/acl-rsi.json"
      })
  void hashThatIsNotAsPublished_isFoundOut(String file) {
    assertThat(sound.at(HASHES).has(file)).isTrue();
    fails("schemas", bundle -> bundle.withObject(HASHES).put(file, "0".repeat(64)));
    fails("schemas", bundle -> bundle.withObject(HASHES).put(file, 1));
    fails("schemas", bundle -> bundle.withObject(HASHES).remove(file));
    fails("schemas", bundle -> bundle.withObject(HASHES).put(file + ".bak", "0".repeat(64)));
  }

  /** A catalogue grows with a release; a schema or a version of a progression never changes. */
  @Test
  void hashOfAnotherRelease_isNamed_andNoneOfAFileThatNeverChangesIsLetPass() {
    String measures = "catalogue/measures.json";
    Verification grown =
        verify(
            OF_ANOTHER_RELEASE, bundle -> bundle.withObject(HASHES).put(measures, "0".repeat(64)));
    assertThat(grown.holds()).isTrue();
    assertThat(grown.notCovered()).singleElement().asString().endsWith(measures);
    Verification forged =
        verify(
            OF_ANOTHER_RELEASE,
            bundle -> bundle.withObject(HASHES).put("v1/decision.schema.json", "0".repeat(64)));
    assertThat(forged.failed().orElseThrow().detail()).contains("v1/decision.schema.json");
  }

  @Test
  void otherSchemaVersion_isNotCovered() {
    Verification verification = verify(PUBLISHED, bundle -> bundle.put("schemaVersion", "1.9"));
    assertThat(verification.holds()).isTrue();
    assertThat(verification.notCovered())
        .singleElement()
        .asString()
        .startsWith("schemaVersion and schemaHashes")
        .contains("1.9");
  }

  @Test
  void keyThatSigned_mustBeListed_andAnotherIsNamed() {
    fails("keys", bundle -> bundle.putArray("keys"));
    fails("keys", bundle -> bundle.withArray("keys").add("no key"));
    String other = SigningKey.generate().verifier(record.verifier().name()).line();
    fails("keys", bundle -> bundle.putArray("keys").add(other));
    Verification further = verify(PUBLISHED, bundle -> bundle.withArray("keys").add(other));
    assertThat(further.holds()).isTrue();
    assertThat(further.notCovered()).singleElement().asString().contains("did not sign", other);
  }

  @Test
  void membersThatNobodyKnows_areNamed() {
    Verification verification =
        verify(
            PUBLISHED,
            bundle -> {
              bundle.put("note", "cleared by hand");
              bundle.withObject("/determinations/0").put("remark", 1);
            });
    assertThat(verification.holds()).isTrue();
    assertThat(verification.notCovered())
        .containsExactly("members that this program does not know: note, determinations/0/remark");
  }

  @Test
  void proofThatNothingIsHeldAgainst_isNamed() {
    Verification verification =
        verify(
            PUBLISHED, bundle -> bundle.putObject("consistency").put("from", 1).putArray("hashes"));
    assertThat(verification.notCovered()).singleElement().asString().startsWith("consistency");
  }
}
