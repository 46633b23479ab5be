package evenside.api.settings;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Where settings come from, which one wins, and what is refused. Common practice, no source. */
class SettingsTest {
  @TempDir Path folder;

  @Test
  void place_later_wins() throws IOException {
    Path file = file("port = 1\nsmallest-cell=2\n\n# port = 9\nhost=::1");
    Map<String, String> environment =
        Map.of("EVENSIDE_PORT", "3", "EVENSIDE_SMALLEST_CELL", "4", "EVENSIDE_HOST", "");
    Settings settings = Settings.from(Optional.of(file), environment, Map.of("port", "5"));
    assertThat(settings.get(Catalogue.PORT)).isEqualTo(5);
    assertThat(settings.get(Catalogue.SMALLEST_CELL)).isEqualTo(4);
    assertThat(settings.get(Catalogue.HOST)).isEqualTo("::1");
    assertThat(settings.get(Catalogue.DATA)).isEqualTo(Path.of("data"));
    assertThat(settings.lines())
        .contains(
            new Settings.Line("port", "5", "flag --port"),
            new Settings.Line("smallest-cell", "4", "environment EVENSIDE_SMALLEST_CELL"),
            new Settings.Line("host", "::1", file + ":5"),
            new Settings.Line("data", "data", "default"));
  }

  @Test
  void table_hasARowForEverySetting() {
    assertThat(Settings.defaults().table().lines())
        .hasSize(Catalogue.all().size())
        .anySatisfy(line -> assertThat(line).matches("port +8080 +default"))
        .anySatisfy(line -> assertThat(line).matches("database-url +\\(none\\) +default"));
  }

  @Test
  void secret_isNeverShownAndHasNoFlag() throws IOException {
    Path file = file("database-password = hunter2\ndatabase-url = jdbc:postgresql://u:pw@h/d?p=pw");
    Settings settings = Settings.from(Optional.of(file), Map.of(), Map.of());
    assertThat(settings.get(Catalogue.DATABASE_PASSWORD)).isEqualTo("hunter2");
    assertThat(settings.table())
        .doesNotContain("hunter2")
        .doesNotContain("pw")
        .contains("********", "jdbc:postgresql://h/d ");
    assertThat(Catalogue.DATABASE_PASSWORD.flag()).isEmpty();
  }

  static Stream<List<String>> faultyLines() {
    return Stream.of(
        List.of("prot = 1", ":1: unknown setting \"prot\"; did you mean port?"),
        List.of("\n\nnothing-like-it = 1", ":3: unknown setting \"nothing-like-it\""),
        List.of("port", ":1: this line is not \"name = value\""),
        List.of("port = 1\nport = 2", ":2: port is set already in line 1"),
        List.of("port = 65536", "port must be a whole number from 0 to 65535, not \"65536\" ("),
        List.of("demo = yes", "demo must be true or false, not \"yes\" ("),
        List.of("settings = other", ":1: unknown setting \"settings\""));
  }

  @ParameterizedTest
  @MethodSource("faultyLines")
  void line_faulty_isRefusedWithItsNumber(List<String> lineAndFault) throws IOException {
    Path file = file(lineAndFault.get(0));
    assertThatThrownBy(() -> Settings.from(Optional.of(file), Map.of(), Map.of()))
        .isInstanceOf(BadSettings.class)
        .hasMessageContaining(lineAndFault.get(1))
        .hasMessageContaining(file + ":");
  }

  @Test
  void faults_areNamedTogether() throws IOException {
    Path file = file("prot = 1\nport = http");
    assertThatThrownBy(
            () -> Settings.from(Optional.of(file), Map.of("EVENSIDE_DEMO", "x"), Map.of()))
        .message()
        .contains("prot", "http", "environment EVENSIDE_DEMO")
        .hasLineCount(3);
  }

  @Test
  void file_missingOrNotText_isRefused() throws IOException {
    assertThatThrownBy(() -> Settings.from(Optional.of(folder.resolve("no")), Map.of(), Map.of()))
        .hasMessageContaining("there is no settings file");
    Path file = Files.write(folder.resolve("latin"), new byte[] {(byte) 0xE9, '=', '1'});
    assertThatThrownBy(() -> Settings.from(Optional.of(file), Map.of(), Map.of()))
        .hasMessageContaining("is not UTF-8");
  }

  @Test
  void variable_mistyped_isPointedOut() {
    Map<String, String> environment =
        Map.of("EVENSIDE_DATABSE_URL", "x", "EVENSIDE_SETTINGS", "f", "HOME", "h");
    Settings settings = Settings.from(Optional.empty(), environment, Map.of());
    assertThat(settings.strangeVariables()).containsExactly("EVENSIDE_DATABSE_URL");
    assertThat(settings.table()).endsWith("not settings, without effect: EVENSIDE_DATABSE_URL");
  }

  @ParameterizedTest
  @ValueSource(ints = {0, 65_535})
  void number_onItsBound_isTaken(int port) {
    Settings settings = Settings.defaults().with(Catalogue.PORT, Integer.toString(port));
    assertThat(settings.get(Catalogue.PORT)).isEqualTo(port);
  }

  @Test
  void names_areEachDeclaredOnce() {
    assertThat(Catalogue.all().stream().map(Setting::name))
        .doesNotHaveDuplicates()
        .allMatch(name -> name.matches("[a-z]+(-[a-z]+)*"));
    assertThat(Catalogue.all()).allMatch(setting -> setting.meaning().endsWith("."));
  }

  private Path file(String text) throws IOException {
    return Files.writeString(folder.resolve("evenside.properties"), text);
  }
}
