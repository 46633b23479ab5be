package evenside.api.command;

import static org.assertj.core.api.Assertions.assertThat;
import static org.hamcrest.Matchers.equalTo;

import evenside.api.Examples;
import evenside.api.LiveService;
import evenside.api.RunningService;
import evenside.api.TestSettings;
import evenside.ledger.Entry;
import evenside.note.Checkpoint;
import evenside.note.SignedNote;
import io.restassured.response.Response;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Base64;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.RegisterExtension;
import org.junit.jupiter.api.io.TempDir;

/** From a decision to its proof on somebody else's machine. */
class AuditTest {
  @RegisterExtension static final LiveService SERVICE = new LiveService();

  @TempDir private Path folder;

  @BeforeAll
  static void recordCase() {
    SERVICE.json(Examples.kneeCase()).put("/v1/cases/c").then().statusCode(201);
    SERVICE.record(Examples.battery()).post("/v1/cases/c/batteries").then().statusCode(201);
  }

  private static Response decide() {
    return SERVICE.record(Examples.decisionRequest()).post("/v1/cases/c/decisions");
  }

  private static SignedNote checkpoint(Response response) {
    byte[] note = Base64.getDecoder().decode(response.header("Evenside-Ledger-Checkpoint"));
    return SignedNote.parse(new String(note, StandardCharsets.UTF_8));
  }

  private Run verify(String bundle, Object... options) throws IOException {
    Path file = Files.writeString(folder.resolve("bundle.json"), bundle);
    Object[] ordered = new Object[options.length + 2];
    ordered[0] = "verify";
    System.arraycopy(options, 0, ordered, 1, options.length);
    ordered[ordered.length - 1] = file;
    return Run.of(ordered);
  }

  /** Only the proof is signed: what stands around it must not be able to draw on the terminal. */
  @Test
  void verify_ofForgedText_printsNoLineThatIsNotItsOwn() throws IOException {
    String bundle = SERVICE.http().get(decide().header("Location") + "/evidence").asString();
    Run run =
        verify(
            bundle.replace(
                "\"schemaVersion\":\"1.0\"",
                "\"schemaVersion\":\"1.0\\nok      key: pinned\\u001b[8m\""));
    assertThat(run.out()).contains("1.0\\u{a}ok      key: pinned\\u{1b}[8m");
    assertThat(run.out().lines())
        .noneMatch(line -> line.contains("key: pinned") && line.startsWith("ok      key"));
  }

  @Test
  void verify_ofWhatIsNotThere_saysSo() throws IOException {
    Run missing = Run.of("verify", folder.resolve("nope.json"));
    assertThat(missing.exitCode()).isEqualTo(Main.FAILED);
    assertThat(missing.err()).contains("there is no file", "nope.json");
    Run since = verify("{}", "--since", Files.writeString(folder.resolve("c"), "x"));
    assertThat(since.exitCode()).isEqualTo(Main.FAILED);
    assertThat(since.err()).contains("--since", "holds no checkpoint");
  }

  @Test
  void reply_carriesIndexAndCheckpoint_andIsTheCommittedBytes() {
    Response decision = decide();
    decision.then().statusCode(201);
    SignedNote note = checkpoint(decision);
    long index = Long.parseLong(decision.header("Evenside-Ledger-Index"));
    assertThat(note.isSignedBy(SERVICE.verifier())).isTrue();
    assertThat(Checkpoint.parse(note.text()).head().size()).isGreaterThan(index);
    Response again = SERVICE.http().get(decision.header("Location"));
    assertThat(again.asByteArray()).isEqualTo(decision.asByteArray());
    assertThat(again.header("Evenside-Ledger-Index")).isEqualTo(Long.toString(index));
    byte[] entries =
        SERVICE.http().get("/v1/ledger/entries?from=" + index + "&limit=1").asByteArray();
    assertThat(entries).hasSize(2 + Entry.LENGTH).startsWith(0, Entry.LENGTH);
    assertThat(Entry.parse(Arrays.copyOfRange(entries, 2, entries.length)).id())
        .hasToString(decision.path("decisionId"));
  }

  @Test
  void evidence_isVerifiedByTheCommand_andABrokenOneIsNot() throws IOException {
    Response first = decide();
    decide();
    String size = checkpoint(first).text().split("\n")[1];
    String bundle =
        SERVICE.http().get(first.header("Location") + "/evidence?since=" + size).asString();
    Path older = Files.writeString(folder.resolve("older"), checkpoint(first).toText());
    Run sound = verify(bundle, "--key", SERVICE.verifier().line(), "--since", older, "--recompute");
    assertThat(sound.exitCode()).as(sound.out() + sound.err()).isZero();
    assertThat(sound.out()).contains("ok      recompute", "ok      consistency");
    assertThat(sound.out())
        .contains("ok      keys", "ok      schemas")
        .doesNotContain("not covered");

    Run added = verify(bundle.replaceFirst("\\{", "{\"remark\":1,"), "--since", older);
    assertThat(added.exitCode()).isZero();
    assertThat(added.out()).contains("--      not covered: members", "know: remark");
    Run forged = verify(bundle.replaceFirst("(access.schema.json\":\")..", "$1zz"));
    assertThat(forged.exitCode()).isEqualTo(Main.FAULTY);
    assertThat(forged.out()).contains("FAILED  schemas: ", "v1/access.schema.json");

    String other = bundle.replaceFirst("\"inputs\":\"..", "\"inputs\":\"AA");
    Run broken = verify(other, "--key", SERVICE.verifier().line());
    assertThat(broken.exitCode()).isEqualTo(Main.FAULTY);
    assertThat(broken.out()).contains("FAILED  commitments: the entry commits to another inputs");

    assertThat(verify(bundle, "--key", "nonsense").exitCode()).isEqualTo(Main.FAILED);
    assertThat(verify("{}").out()).contains("FAILED  format", "/evidence gives it");
    assertThat(verify(first.asString()).out()).contains("this is no evidence bundle");
    assertThat(sound.out())
        .contains("ok      decision: %s by ".formatted(first.path("outcome").toString()));
    assertThat(verify(bundle).out()).contains("NOT PINNED");
  }

  @Test
  void keys_areThoseThatSign() {
    String keys = SERVICE.http().get("/v1/ledger/keys").asString();
    assertThat(keys).contains(SERVICE.verifier().line(), "\"state\":\"current\"");
  }

  @Test
  void search_asLines_givesTheSameDecisions() {
    decide();
    Response page = SERVICE.http().get("/v1/decisions?limit=2");
    Response lines =
        SERVICE.http().header("Accept", "application/x-ndjson").get("/v1/decisions?limit=2");
    assertThat(lines.contentType()).startsWith("application/x-ndjson");
    assertThat(page.asString()).contains(lines.asString().strip().replace("\n", ","));
    assertThat(lines.asString().lines().count()).isBetween(1L, 2L);
  }

  @Test
  void reading_isInTheTrail() {
    Response decision = decide();
    SERVICE.http().get(decision.header("Location")).then().statusCode(200);
    SERVICE.http().get(decision.header("Location") + "/evidence").then().statusCode(200);
    SERVICE
        .http()
        .get("/v1/accesses?decisionId=" + decision.path("decisionId"))
        .then()
        .statusCode(200)
        .body("items.action", equalTo(java.util.List.of("evidence", "read")));
  }

  @Test
  void determinationWithoutReason_isToldWhatIsMissing() {
    String body =
        Examples.changed(
            "valid/determination/not-cleared", json -> json.put("statement", "cleared"));
    Response refused = SERVICE.record(body).post(decide().header("Location") + "/determinations");
    assertThat(refused.statusCode()).isEqualTo(422);
    assertThat(refused.asString()).contains("reason.required", "#/reason");
  }

  @Test
  void readiness_saysThatTheLedgerIsOn() {
    SERVICE.http().get("/readyz").then().statusCode(200).body("ledger", equalTo("on"));
  }

  @Test
  void keysCommand_makesShowsAndChangesAKey() throws IOException {
    Path key = folder.resolve("ledger.key");
    Run made = Run.of("ledger-key", "create", key);
    assertThat(made.exitCode()).as(made.err()).isZero();
    String shown = Run.of("ledger-key", "show", key).out().strip();
    assertThat(shown).startsWith("ledger.evenside.example/local+");
    Run other = Run.of("ledger-key", "show", key, "--clinic", "north", "--ledger-name", "ours");
    assertThat(other.out()).startsWith("ours/north+");
    String changed = Run.of("ledger-key", "rotate", "--data", folder).out().strip();
    assertThat(changed).startsWith("ledger.evenside.example/local+").isNotEqualTo(shown);
    assertThat(Run.of("ledger-key", "show", folder.resolve("ledger-previous.key")).out())
        .isEqualToIgnoringNewLines(shown);
    assertThat(Run.of("ledger-key", "rotate", "--data", folder).exitCode()).isEqualTo(Main.FAILED);
  }

  /** The file beside the database is what a person would name; it holds many checkpoints. */
  @Test
  void auditCommand_saysWhichFileIsNoCheckpoint() throws IOException {
    Path data = folder.resolve("named");
    RunningService.start(TestSettings.in(data)).stop();
    Path many = Files.writeString(folder.resolve("many"), "a\nb\n");
    Run run = Run.of("audit", "--data", data, "--since", many);
    assertThat(run.exitCode()).isEqualTo(Main.FAILED);
    assertThat(run.err()).contains("--since", many.toString(), "/v1/ledger/checkpoint");
    Run missing = Run.of("audit", "--data", data, "--since", folder.resolve("nope"));
    assertThat(missing.err()).contains("there is no file");
  }

  /** A record cut back to nothing has no ledger to be checked; its checkpoints remain. */
  @Test
  void auditCommand_findsALedgerThatIsGone() throws IOException {
    Path data = folder.resolve("gone");
    RunningService.start(TestSettings.in(data)).stop();
    Files.copy(data.resolve("local.1.checkpoints"), data.resolve("north.1.checkpoints"));
    Run run = Run.of("audit", "--data", data);
    assertThat(run.exitCode()).isEqualTo(Main.FAULTY);
    assertThat(run.out()).contains("north.1.checkpoints", "a ledger that is not in the record");
    Files.delete(data.resolve("evenside.mv.db"));
    Run empty = Run.of("audit", "--data", data);
    assertThat(empty.exitCode()).isEqualTo(Main.FAULTY);
    assertThat(empty.out()).contains("local.1.checkpoints").doesNotContain("everything holds");
  }

  @Test
  void auditCommand_findsASoundRecordSound() {
    Path data = folder.resolve("data");
    RunningService.start(TestSettings.in(data)).stop();
    Run run = Run.of("audit", "--data", data);
    assertThat(run.out()).contains("everything holds", "decisions: 0");
    assertThat(run.exitCode()).isZero();
    assertThat(Run.of("audit", "--data", folder.resolve("nope")).exitCode()).isEqualTo(Main.FAILED);
  }
}
