package evenside.schemas;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ObjectNode;

class ContractTest {

  private static final Contract CONTRACT = Contract.published();

  @Test
  void kinds_are_all_schemas_but_the_common_parts() {
    assertThat(CONTRACT.kinds()).containsAll(Corpus.INPUT_KINDS).doesNotContain("common");
    assertThat(CONTRACT.schemaVersion()).isEqualTo("1.0");
  }

  @Test
  void served_bytes_are_the_bytes_of_the_files() throws IOException {
    for (String path : CONTRACT.files()) {
      assertThat(CONTRACT.file(path)).hasValue(Files.readAllBytes(Corpus.FOLDER.resolve(path)));
    }
    for (String kind : CONTRACT.kinds()) {
      String name = kind + ".schema.json";
      assertThat(CONTRACT.schema(kind)).isEqualTo(bytes("v1/" + name));
      assertThat(CONTRACT.bundle(kind)).isEqualTo(bytes("bundles/1.0/" + name));
    }
    assertThat(CONTRACT.criteriaSet("delaware-oslo", "2016.1"))
        .hasValue(bytes("criteria/delaware-oslo/2016.1.json"));
  }

  @Test
  void every_schema_is_identified_by_base_version_and_name() {
    for (String kind : CONTRACT.kinds()) {
      JsonNode schema = StrictJson.read(CONTRACT.schema(kind), StrictJson.Limits.OWN);
      assertThat(schema.path("$id").asString())
          .isEqualTo("https://evenside.example/schemas/1.0/" + kind + ".schema.json");
      assertThat(schema.path("$schema").asString())
          .isEqualTo("https://json-schema.org/draft/2020-12/schema");
    }
  }

  @Test
  void criteria_sets_are_all_that_lie_in_the_folder() {
    long files = CONTRACT.files().stream().filter(path -> path.startsWith("criteria/")).count();
    assertThat(CONTRACT.criteriaSets()).hasSize((int) files).isNotEmpty();
  }

  @Test
  void instruments_are_all_that_lie_in_the_folder() {
    long files = CONTRACT.files().stream().filter(path -> path.startsWith("instruments/")).count();
    assertThat(CONTRACT.instruments()).hasSize((int) files).hasSizeGreaterThan(10);
  }

  @Test
  void what_is_not_there_is_refused_by_name() {
    JsonNode any = Corpus.everything("case").document();
    assertThatThrownBy(() -> CONTRACT.validate("common", any))
        .hasMessageContaining("no kind common");
    assertThatThrownBy(() -> CONTRACT.schema("knee")).hasMessageContaining("v1/knee.schema.json");
    assertThatThrownBy(() -> CONTRACT.catalogue("knees"))
        .hasMessageContaining("no catalogue knees");
    assertThat(CONTRACT.criteriaSet("delaware-oslo", "../../v1/case.schema")).isEmpty();
    assertThat(CONTRACT.file("schemas.lock")).isEmpty();
  }

  @Test
  void trees_and_bytes_are_copies() {
    ((ObjectNode) CONTRACT.catalogue("measures")).removeAll();
    ((ObjectNode) CONTRACT.criteriaSets().get(0)).removeAll();
    CONTRACT.schema("case")[0] = 0;
    assertThat(CONTRACT.catalogue("measures").isEmpty()).isFalse();
    assertThat(CONTRACT.criteriaSets().get(0).isEmpty()).isFalse();
    assertThat(CONTRACT.schema("case")[0]).isEqualTo((byte) '{');
  }

  @Test
  void reference_to_what_is_not_there_is_never_fetched() {
    JsonNode schema =
        read("{\"$id\":\"https://evenside.example/x\",\"$ref\":\"https://evenside.example/y\"}");
    assertThatThrownBy(
            () ->
                new SchemaSet(Map.of("https://evenside.example/x", schema))
                    .errors("https://evenside.example/x", schema))
        .hasMessageContaining("evenside.example/x");
  }

  @Test
  void one_contract_serves_many_threads() throws InterruptedException, ExecutionException {
    List<Corpus.Sample> samples = Corpus.invalid();
    List<List<Fault>> alone =
        samples.stream().map(one -> CONTRACT.validate(one.kind(), one.document())).toList();
    ExecutorService threads = Executors.newFixedThreadPool(8);
    try {
      List<Future<Boolean>> runs =
          IntStream.range(0, 800)
              .map(i -> i % samples.size())
              .mapToObj(
                  i ->
                      threads.submit(
                          () ->
                              CONTRACT
                                  .validate(samples.get(i).kind(), samples.get(i).document())
                                  .equals(alone.get(i))))
              .toList();
      for (Future<Boolean> run : runs) {
        assertThat(run.get()).isTrue();
      }
    } finally {
      threads.shutdownNow();
    }
  }

  @Test
  void folder_with_a_broken_criteria_set_is_refused(@TempDir Path folder) throws IOException {
    copyPublished(folder);
    Path set = folder.resolve("criteria/delaware-oslo/2016.1.json");
    Files.writeString(set, Files.readString(set).replace("\"milestone\"", "\"millstone\""));
    assertThatThrownBy(() -> Contract.in(folder))
        .isInstanceOf(IllegalStateException.class)
        .hasMessageContaining("criteria/delaware-oslo/2016.1.json")
        .hasMessageContaining("milestone");
  }

  @Test
  void folder_with_a_criteria_set_under_another_name_is_refused(@TempDir Path folder)
      throws IOException {
    copyPublished(folder);
    Path set = folder.resolve("criteria/delaware-oslo/2016.1.json");
    Files.move(set, set.resolveSibling("2017.json"));
    assertThatThrownBy(() -> Contract.in(folder))
        .hasMessageContaining("must be named after its id and version");
  }

  @Test
  void folder_with_an_instrument_under_another_name_is_refused(@TempDir Path folder)
      throws IOException {
    copyPublished(folder);
    Path instrument = folder.resolve("instruments/lefs.json");
    Files.move(instrument, instrument.resolveSibling("fels.json"));
    assertThatThrownBy(() -> Contract.in(folder))
        .hasMessageContaining("instruments/fels.json must be named after its code");
  }

  @Test
  void folder_with_a_broken_instrument_is_refused(@TempDir Path folder) throws IOException {
    copyPublished(folder);
    Path instrument = folder.resolve("instruments/lefs.json");
    Files.writeString(instrument, Files.readString(instrument).replace("\"sum\"", "\"some\""));
    assertThatThrownBy(() -> Contract.in(folder))
        .isInstanceOf(IllegalStateException.class)
        .hasMessageContaining("instruments/lefs.json")
        .hasMessageContaining("formula");
  }

  private static void copyPublished(Path folder) throws IOException {
    for (String path : CONTRACT.files()) {
      Path file = folder.resolve(path);
      Files.createDirectories(file.getParent());
      Files.write(file, CONTRACT.file(path).orElseThrow());
    }
  }

  private static byte[] bytes(String path) throws IOException {
    return Files.readAllBytes(Corpus.FOLDER.resolve(path));
  }

  private static JsonNode read(String text) {
    return StrictJson.read(
        text.getBytes(java.nio.charset.StandardCharsets.UTF_8), StrictJson.Limits.REQUEST);
  }
}
