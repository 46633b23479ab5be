package evenside.api.command;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.LocalDate;
import java.time.ZoneOffset;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Keys of clients from the command line. */
class KeysCommandTest {
  @TempDir Path folder;

  private Run issue(Object... more) {
    Object[] args = {
      "keys", "issue", "--data", folder, "--clinic", "north", "--client", "gym", "--scope"
    };
    Object[] all = java.util.Arrays.copyOf(args, args.length + more.length);
    System.arraycopy(more, 0, all, args.length, more.length);
    return Run.of(all);
  }

  @Test
  void key_isIssuedListedAndRevoked() {
    Run issued = issue("records:write,decisions:read", "--scope", "audit:read");
    assertThat(issued.exitCode()).as(issued.err()).isEqualTo(Main.OK);
    String token = issued.out().strip();
    assertThat(token).matches("evk_[0-9a-f]{16}_[A-Za-z0-9_-]{43}");
    String id = token.substring(4, 20);
    LocalDate end = LocalDate.now(ZoneOffset.UTC).plusYears(1);
    assertThat(issued.err())
        .contains("key " + id + " of client gym of clinic north, until " + end)
        .doesNotContain(token);
    Run listed = Run.of("keys", "list", "--data", folder);
    assertThat(listed.out())
        .contains(id, "north", "gym", end.toString(), "never", "live")
        .contains("audit:read,decisions:read,records:write")
        .doesNotContain(token.substring(21));
    assertThat(Run.of("keys", "list", "--data", folder, "--clinic", "south").out().lines())
        .hasSize(1);
    Run revoked = Run.of("keys", "revoke", "--data", folder, id);
    assertThat(revoked.out()).contains("revoked key " + id + " of client gym of clinic north");
    assertThat(Run.of("keys", "list", "--data", folder).out()).contains("revoked");
  }

  @Test
  void key_third_isRefusedInOneSentence() {
    issue("records:write");
    issue("records:write", "--expires", LocalDate.now(ZoneOffset.UTC));
    Run third = issue("records:write");
    assertThat(third.exitCode()).isEqualTo(Main.FAILED);
    assertThat(third.err()).startsWith("evenside: the client gym has 2 live keys already");
    assertThat(third.out()).isEmpty();
  }

  @Test
  void request_faulty_isRefusedAndMakesNothing() {
    assertThat(issue("records:erase").err())
        .contains("--scope takes any of records:write, decisions:read", "not records:erase")
        .contains("Usage: evenside keys issue");
    Run tomorrow = issue("records:write", "--expires", "tomorrow");
    assertThat(tomorrow.exitCode()).isEqualTo(Main.FAILED);
    assertThat(tomorrow.err())
        .contains("'--expires'", "as 2027-03-31, not tomorrow")
        .doesNotContain("java.time");
    assertThat(
            Run.of(
                    "keys",
                    "issue",
                    "--data",
                    folder,
                    "--clinic",
                    "demo",
                    "--client",
                    "gym",
                    "--scope",
                    "records:write")
                .err())
        .contains("the invented clinic's name");
    assertThat(Run.of("keys", "list", "--data", folder.resolve("none")).err())
        .startsWith("evenside: there is no data folder");
    assertThat(folder).isEmptyDirectory();
    assertThat(issue("records:write", "--expires", "2001-01-01").err())
        .startsWith("evenside: a key ends after now");
    assertThat(Run.of("keys", "revoke", "--data", folder, "0".repeat(16)).err())
        .startsWith("evenside: there is no key");
  }

  @Test
  void help_tellsTheTwoKindsOfKeysApart() {
    assertThat(Run.of("keys").out()).contains("issue", "list", "revoke", "ledger-key");
    assertThat(Run.of("ledger-key").out()).contains("create", "rotate", "show");
  }
}
