package evenside.readiness.audit;

import static evenside.readiness.audit.Tampered.cut;
import static evenside.readiness.audit.Tampered.flipped;
import static evenside.readiness.audit.Tampered.line;
import static evenside.readiness.audit.Tampered.otherSignature;
import static evenside.readiness.audit.Tampered.replaced;
import static evenside.readiness.audit.Tampered.root;
import static evenside.readiness.audit.Tampered.without;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import evenside.evidence.BundleVerifier;
import evenside.evidence.Recompute;
import evenside.evidence.Verification;
import evenside.note.SigningKey;
import evenside.note.VerifierKey;
import evenside.readiness.ProvenRecord;
import evenside.readiness.ReadinessService;
import evenside.readiness.recording.Recorded;
import evenside.readiness.recording.Refusal;
import evenside.readiness.recording.Refused;
import evenside.store.Store;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * The proof of a decision holds offline, and each way to break it is found by the check that is
 * there for it; by the Java verifier, and by the one in Python that shares nothing with it.
 */
class EvidenceTest {
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

  private ObjectNode bundle() {
    Recorded decision = record.decided();
    record.determine(decision.id(), "deferred", "Looked at again next week.");
    return (ObjectNode)
        ProvenRecord.json(
            record
                .service
                .evidence()
                .bundle(ProvenRecord.CLINIC, decision.id(), OptionalLong.empty()));
  }

  private Verification verify(JsonNode bundle) {
    return verify(bundle, List.of(record.verifier()));
  }

  private static Verification verify(JsonNode bundle, List<VerifierKey> keys) {
    return BundleVerifier.verify(bytes(bundle), keys, Optional.empty(), Optional.of(AGAIN));
  }

  private static byte[] bytes(JsonNode bundle) {
    return evenside.document.CanonicalJson.bytes(bundle);
  }

  @Test
  void soundBundle_passesEveryCheck_inOrder() {
    Verification verification = verify(bundle());
    assertThat(verification.checks())
        .extracting(Verification.Check::name)
        .containsExactly(
            "format",
            "key",
            "entry",
            "inclusion",
            "commitments",
            "documents",
            "decision",
            "determinations",
            "keys",
            "recompute");
    assertThat(verification.failed()).isEmpty();
    assertThat(verification.checks())
        .filteredOn(check -> check.name().equals("decision"))
        .singleElement()
        .satisfies(
            check ->
                assertThat(check.detail())
                    .matches(
                        "(met|not-met|undetermined) by delaware-oslo/2020.1, on the case case-1"
                            + " as of 2026-11-20, decided at 2026-11-20T.*Z"));
    // Whoever made the bundle may have left one out, and nothing in it could show that.
    assertThat(verification.checks())
        .filteredOn(check -> check.name().equals("determinations"))
        .singleElement()
        .satisfies(check -> assertThat(check.detail()).contains("1 in the bundle", "no others"));
  }

  @Test
  void bundle_followsItsSchema() {
    ObjectNode bundle = bundle();
    assertThat(ProvenRecord.CONTRACT.validate("evidence", bundle)).isEmpty();
  }

  @Test
  void keyThatIsNotPinned_isTakenFromTheBundle_andSaidSo() {
    Verification verification = verify(bundle(), List.of());
    assertThat(verification.holds()).isTrue();
    assertThat(verification.checks().get(1).detail()).contains("NOT PINNED");
  }

  /** Each way to break a bundle, with the check that must find it. */
  private Map<String, ObjectNode> broken(ObjectNode sound) {
    Map<String, ObjectNode> broken = new LinkedHashMap<>();
    broken.put("format: other", sound.deepCopy().put("format", "evidence/2"));
    broken.put("format: no proof", without(sound, "proof"));
    broken.put("key: another root", replaced(sound, "proof", line(sound, -3), root()));
    broken.put("key: another signature", sound.deepCopy().put("proof", otherSignature(sound)));
    broken.put("entry: cut", sound.deepCopy().put("leaf", cut(sound, "leaf")));
    broken.put("entry: another layout", flipped(sound, "leaf", 0));
    broken.put("entry: another type", flipped(sound, "leaf", 1));
    broken.put("inclusion: another time", flipped(sound, "leaf", 9));
    broken.put("inclusion: another id", flipped(sound, "leaf", 20));
    broken.put("inclusion: another commitment", flipped(sound, "leaf", 80));
    broken.put("inclusion: another index", sound.deepCopy().put("index", 1));
    broken.put("commitments: another decision", flipped(sound, "decision", 100));
    broken.put("commitments: another salt", flipped(sound, "decisionSalt", 3));
    broken.put("commitments: other inputs", flipped(sound, "inputs", 100));
    broken.put("commitments: inputs' salt", flipped(sound, "inputsSalt", 3));
    broken.put("commitments: another set", flipped(sound, "criteriaSet", 100));
    broken.put("documents: engine", sound.deepCopy().put("engineVersion", "0.9"));
    broken.put("erasure: no documents", without(sound, "decision"));
    ObjectNode statement = sound.deepCopy();
    ObjectNode first = (ObjectNode) statement.path("determinations").path(0);
    first.set("determination", flipped(first, "determination", 50).path("determination"));
    broken.put("determinations: another statement", statement);
    ObjectNode twice = sound.deepCopy();
    twice.withArray("determinations").add(sound.path("determinations").path(0));
    broken.put("determinations: one of them twice", twice);
    broken.put("format: determinations no list", sound.deepCopy().put("determinations", "none"));
    broken.put(
        "format: proof cut",
        sound.deepCopy().put("proof", sound.path("proof").asString().split("\n\n", 2)[0]));
    return broken;
  }

  @Test
  void brokenBundle_isRefused_byTheCheckThatIsThereForIt() {
    ObjectNode sound = bundle();
    broken(sound)
        .forEach(
            (what, bundle) ->
                assertThat(verify(bundle).failed().map(Verification.Check::name))
                    .as(what)
                    .contains(what.substring(0, what.indexOf(':'))));
  }

  @Test
  void otherKey_isRefused() {
    VerifierKey other = SigningKey.generate().verifier(record.verifier().name());
    assertThat(verify(bundle(), List.of(other)).failed().orElseThrow().name()).isEqualTo("key");
  }

  @Test
  void everyByteOfTheEntryTurned_isRefused() {
    ObjectNode sound = bundle();
    for (int at = 0; at < 138; at++) {
      assertThat(verify(flipped(sound, "leaf", at)).holds()).as("byte %d", at).isFalse();
    }
  }

  @Test
  void decisionThatTheComputationDoesNotGive_isRefusedByRecompute() {
    ObjectNode sound = bundle();
    Recompute wrong = (inputs, set, id, at) -> new byte[] {1};
    Verification verification =
        BundleVerifier.verify(
            bytes(sound), List.of(record.verifier()), Optional.empty(), Optional.of(wrong));
    assertThat(verification.failed().orElseThrow().name()).isEqualTo("recompute");
  }

  @Test
  void otherClinic_getsNothing() {
    Recorded decision = record.decided();
    assertThatThrownBy(
            () -> record.service.evidence().bundle("clinic-b", decision.id(), OptionalLong.empty()))
        .isInstanceOf(Refused.class)
        .extracting(e -> ((Refused) e).refusal())
        .isEqualTo(Refusal.NOT_FOUND);
  }

  @Test
  void decisionFromATimeWithoutLedger_hasNoEvidence_andSaysWhy() throws Exception {
    record.decided();
    try (Store store =
        Store.open(evenside.store.database.StoreSettings.inFolder(folder.resolve("other")))) {
      ReadinessService off = ReadinessService.of(ProvenRecord.CONTRACT, store, () -> record.now);
      off.cases().put("local", "k", ProvenRecord.example("case/minimal"), Optional.empty());
      Recorded decision =
          off.decisions()
              .decide(
                  "local",
                  "k",
                  ProvenRecord.json("{'schemaVersion':'1.0','milestone':'start-running'}"),
                  Optional.empty());
      assertThat(decision.receipt()).isEmpty();
      assertThatThrownBy(() -> off.evidence().bundle("local", decision.id(), OptionalLong.empty()))
          .hasMessageContaining("while the ledger was off");
      JsonNode request = ProvenRecord.example("replay-request/as-it-was");
      assertThat(off.replays().replay("local", decision.id(), request).toString())
          .contains("\"identical\":true");
    }
  }

  /** The second verifier, where this machine has Python 3. */
  @Test
  void pythonVerifier_agrees_onSoundAndBrokenBundles() throws Exception {
    Assumptions.assumeTrue(hasPython(), "no python3 here");
    ObjectNode sound = bundle();
    List<String> files = new ArrayList<>();
    List<String> wanted = new ArrayList<>();
    write("sound", sound, files);
    wanted.add("ok");
    broken(sound)
        .forEach(
            (what, bundle) -> {
              write(what.replaceAll("[^a-z]", "-"), bundle, files);
              wanted.add(what.substring(0, what.indexOf(':') + 1));
            });
    List<String> command =
        new ArrayList<>(
            List.of("python3", "-B", "verify_bundle.py", "--key", record.verifier().line()));
    command.addAll(files);
    Process python =
        new ProcessBuilder(command)
            .directory(Path.of("src/test/python").toFile())
            .redirectErrorStream(true)
            .start();
    String out = new String(python.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    assertThat(python.waitFor(60, TimeUnit.SECONDS)).isTrue();
    List<String> lines = out.lines().toList();
    assertThat(lines).as(out).hasSameSizeAs(wanted);
    for (int i = 0; i < lines.size(); i++) {
      assertThat(lines.get(i)).startsWith(files.get(i) + ": " + wanted.get(i));
    }
    assertThat(python.exitValue()).isEqualTo(1);
  }

  private void write(String name, JsonNode bundle, List<String> files) {
    try {
      Path file = folder.resolve(name + ".json");
      files.add(Files.write(file, bytes(bundle)).toString());
    } catch (java.io.IOException e) {
      throw new java.io.UncheckedIOException(e);
    }
  }

  private static boolean hasPython() throws InterruptedException {
    try {
      return new ProcessBuilder("python3", "--version").start().waitFor() == 0;
    } catch (java.io.IOException none) {
      return false;
    }
  }
}
