package evenside.api;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import evenside.api.command.Main;
import evenside.api.command.Run;
import evenside.api.server.HostRule;
import evenside.api.settings.BadSettings;
import evenside.api.settings.Settings;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * What would let strangers in does not start, and says what to set instead. OWASP API8:2023,
 * security misconfiguration.
 */
class EntranceTest {
  private static final String TOKENS =
      " token-issuer=https://i token-audience=a token-keys=/k token-clients=/c";

  @TempDir static Path folder;

  /** Settings as {@code name=value}, separated by spaces. */
  private static Entrance entrance(String text) {
    Map<String, String> flags = new HashMap<>();
    for (String one : text.strip().split("\\s+")) {
      if (!one.isEmpty()) {
        flags.put(one.split("=", 2)[0], one.split("=", 2)[1]);
      }
    }
    String password = flags.remove("tls-key-store-password");
    Map<String, String> environment =
        password == null ? Map.of() : Map.of("EVENSIDE_TLS_KEY_STORE_PASSWORD", password);
    return Entrance.of(Settings.from(Optional.empty(), environment, flags));
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      textBlock =
          """
          host=0.0.0.0 | set authentication = true
          host=0.0.0.0 | set tls-key-store and tls-key-store-password, or tls-ends-in-front = true
          host=:: | can be reached from other machines
          host=192.0.2.7 | set authentication = true
          host=clinic.example | set authentication = true
          host=127.0.0.1.evil.example | set authentication = true
          host=0.0.0.0 authentication=true | set tls-key-store
          host=0.0.0.0 tls-ends-in-front=true | set authentication = true
          host=0.0.0.0 authentication=false tls-ends-in-front=true | set authentication = true
          host=0.0.0.0 authentication=true tls-key-store=/none | the key store /none cannot be read
          tls-key-store=/none tls-ends-in-front=true | contradict each other
          demo=true authentication=true | demo is open to everyone on this machine
          demo=true database-url=jdbc:postgresql://localhost/x | leave out database-url
          demo=true host=0.0.0.0 | set authentication = true
          authentication=true token-issuer=https://i | access tokens need token-audience, token-keys, token-clients too
          authentication=true token-keys=http://keys.example/ token-issuer=i token-audience=a token-clients=/c | a URL of keys is https
          """)
  void combination_unsafe_isRefused(String settings, String why) {
    assertThatThrownBy(() -> entrance(settings))
        .isInstanceOf(BadSettings.class)
        .hasMessageContaining(why);
  }

  @Test
  void tokens_withoutAuthentication_areRefused() {
    assertThatThrownBy(() -> entrance(TOKENS)).hasMessageContaining("authentication = true");
    assertThat(entrance("authentication=true" + TOKENS).trusted()).isPresent();
  }

  @Test
  void faults_areToldAllAtOnce() {
    assertThatThrownBy(() -> entrance("host=0.0.0.0 token-issuer=i"))
        .satisfies(e -> assertThat(e.getMessage().lines()).hasSize(3));
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "",
        "host=::1",
        "host=localhost",
        "authentication=true",
        "demo=true",
        "host=0.0.0.0 authentication=true tls-ends-in-front=true"
      })
  void combination_safe_isTaken(String settings) {
    Entrance entrance = entrance(settings);
    assertThat(entrance.authenticated()).isEqualTo(settings.contains("authentication=true"));
    assertThat(entrance.front().tls()).isEmpty();
  }

  @Test
  void hosts_withoutAuthentication_areThisMachinesAlone() {
    assertThat(entrance("host-names=clinic.example").front().hosts()).isEqualTo(HostRule.LOOPBACK);
    HostRule named = entrance("authentication=true host-names=Clinic.example,b").front().hosts();
    assertThat(named.names())
        .isEqualTo(Set.of("clinic.example", "b", "localhost", "127.0.0.1", "[::1]"));
    assertThat(entrance("authentication=true").front().hosts().names()).isEmpty();
  }

  @Test
  void service_unsafe_endsWithAReasonAndLeavesNothing() {
    Run run = Run.of("serve", "--host", "0.0.0.0", "--data", folder.resolve("none"));
    assertThat(run.exitCode()).isEqualTo(Main.FAILED);
    assertThat(run.err()).startsWith("evenside: host = 0.0.0.0 can be reached").hasLineCount(2);
    assertThat(folder.resolve("none")).doesNotExist();
  }

  @Test
  void tokens_withAFaultyFile_stopTheStart() {
    Run run =
        Run.of(
            "serve",
            "--port=0",
            "--data=" + folder.resolve("data"),
            "--authentication",
            "--token-issuer=i",
            "--token-audience=a",
            "--token-keys=" + folder.resolve("no-keys.json"),
            "--token-clients=" + folder.resolve("no-clients.json"));
    assertThat(run.exitCode()).isEqualTo(Main.FAILED);
    assertThat(run.err()).contains("cannot use", "no-keys.json");
  }
}
