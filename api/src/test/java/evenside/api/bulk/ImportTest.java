package evenside.api.bulk;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import evenside.api.Examples;
import evenside.api.LinesService;
import evenside.api.command.Main;
import evenside.api.command.Run;
import evenside.note.SigningKey;
import evenside.store.database.StoreSettings;
import java.net.URI;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tools.jackson.databind.JsonNode;

/** A file of lines from another program is taken over. */
class ImportTest {
  @TempDir private Path folder;

  private Path file(List<?> lines) throws Exception {
    return Files.writeString(folder.resolve("lines.ndjson"), LinesService.ndjson(lines));
  }

  private static List<Object> cases(int count) {
    return new ArrayList<>(
        IntStream.range(0, count)
            .mapToObj(i -> LinesService.line("case", "case-" + i, Examples.kneeCase()))
            .toList());
  }

  private static BulkClient client(URI url) {
    return new BulkClient(url, Optional.empty(), Duration.ofMillis(10));
  }

  @Test
  void importIntoADataFolder_showsProgress_andKeepsWhatWasRefused() throws Exception {
    List<Object> lines = new ArrayList<>(LinesService.history(0, 3));
    lines.add(
        4, "{\"kind\":\"battery\",\"caseId\":\"knee-0\",\"body\":{\"schemaVersion\":\"1.0\"}}");
    lines.add("no json");
    Path file = file(lines);
    Path data = folder.resolve("data");

    Run run = Run.of("import", file, "--data", data);

    assertThat(run.exitCode()).as(run.err()).isEqualTo(Main.FAULTY);
    assertThat(run.out()).contains("11 lines: 9 stored, 2 refused,", "lines/s", "refused.ndjson");
    List<JsonNode> refused =
        LinesService.trees(Files.readString(folder.resolve("lines.ndjson.refused.ndjson")));
    assertThat(refused).hasSize(2);
    assertThat(refused.get(0).path("line").asInt()).isEqualTo(5);
    assertThat(refused.get(0).at("/problem/faults/0/pointer").asString()).startsWith("#/");
    assertThat(refused.get(0).at("/sent/kind").asString()).isEqualTo("battery");
    assertThat(refused.get(1).path("sent").asString()).isEqualTo("no json");
    assertThat(Run.of("audit", "--data", data).exitCode()).isZero();
    assertThat(folder.resolve("lines.ndjson.progress")).doesNotExist();
  }

  @Test
  void importThatWasBrokenOff_goesOnWhereItStopped() throws Exception {
    Path file = file(cases(1200));
    try (LinesService service =
        new LinesService(folder, StoreSettings.inFolder(folder), SigningKey.generate(), false)) {
      Importer broken =
          new Importer(
              file,
              client(service.url()),
              progress -> {
                throw new IllegalStateException("pulled the plug");
              });
      assertThatThrownBy(broken::run).hasMessage("pulled the plug");
      List<Importer.Progress> told = new ArrayList<>();
      Importer.Progress end = new Importer(file, client(service.url()), told::add).run();
      assertThat(end).isEqualTo(new Importer.Progress(500, 700, 700, 0));
      assertThat(told).hasSizeGreaterThan(1);
      assertThat(service.service.cases().get("local", "case-0")).isNotNull();
      assertThat(service.service.cases().get("local", "case-1199")).isNotNull();

      assertThatThrownBy(broken::run).hasMessage("pulled the plug");
      List<Object> changed = cases(1200);
      changed.set(3, "changed");
      Path other = file(changed);
      assertThatThrownBy(new Importer(other, client(service.url()), p -> {})::run)
          .hasMessageContaining("the file was changed");
    }
  }

  /** In a folder that others may write in, a link could lead anywhere. */
  @Test
  void refusedLines_areNotWrittenThroughALink() throws Exception {
    Path file = file(List.of("no json"));
    Path other = Files.writeString(folder.resolve("other"), "as it was");
    Files.createSymbolicLink(folder.resolve("lines.ndjson.refused.ndjson"), other);
    Run run = Run.of("import", file, "--data", folder.resolve("data"));
    assertThat(run.exitCode()).isEqualTo(Main.FAILED);
    assertThat(other).hasContent("as it was");
  }

  @Test
  void serviceThatIsNotThere_isNamed_andNothingIsNoted() throws Exception {
    Path file = file(cases(1));
    Importer importer =
        new Importer(
            file,
            new BulkClient(
                URI.create("http://127.0.0.1:1/"), Optional.empty(), Duration.ofMillis(1)),
            progress -> {});
    assertThatThrownBy(importer::run)
        .isInstanceOf(BulkClient.Unreachable.class)
        .hasMessageContaining("http://127.0.0.1:1/v1/bulk does not answer");
    assertThat(folder.resolve("lines.ndjson.progress")).doesNotExist();
  }

  /** A mistyped name made a record and a key before it was found out. */
  @Test
  void fileThatIsNotThere_isNamed_andNoRecordIsMade() throws Exception {
    Path data = folder.resolve("untouched");
    Run missing = Run.of("import", folder.resolve("nope"), "--data", data);
    assertThat(missing.exitCode()).isEqualTo(2);
    assertThat(missing.err()).contains("there is no file", "nope");
    assertThat(Run.of("import", folder, "--data", data).err()).contains("is a folder");
    assertThat(data).doesNotExist();
  }

  @Test
  void targetMustBeNamed_once() throws Exception {
    Path file = file(cases(1));
    assertThat(Run.of("import", file).err()).contains("--to");
    assertThat(Run.of("import", file, "--to", "http://x", "--data", folder).exitCode())
        .isEqualTo(Main.FAILED);
  }
}
