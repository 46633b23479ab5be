package evenside.schemas;

import static org.assertj.core.api.Assertions.assertThat;

import com.networknt.schema.Error;
import evenside.schemas.Corpus.Sample;
import java.io.IOException;
import java.nio.file.Files;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.FieldSource;
import tools.jackson.databind.JsonNode;

/** A bundle is the modular schema in one file: same rules, same verdicts, no outside reference. */
class BundleTest {

  private static final Contract CONTRACT = Contract.published();
  private static final SchemaSet MODULAR = new SchemaSet(Publish.schemas(Corpus.FOLDER));

  @Test
  void bundles_are_made_from_the_modular_files() throws IOException {
    for (Map.Entry<String, byte[]> made : Publish.bundles(Corpus.FOLDER).entrySet()) {
      assertThat(Files.readAllBytes(Corpus.FOLDER.resolve(made.getKey())))
          .as(made.getKey())
          .isEqualTo(made.getValue());
    }
  }

  @Test
  void bundle_refers_to_nothing_outside() {
    for (String kind : CONTRACT.kinds()) {
      JsonNode bundle = bundle(kind);
      Set<String> inside =
          bundle.findValues("$id").stream().map(JsonNode::asString).collect(Collectors.toSet());
      for (JsonNode reference : bundle.findValues("$ref")) {
        String target = reference.asString().split("#", 2)[0];
        assertThat(target.isEmpty() || inside.contains(id(target)))
            .as(reference.asString())
            .isTrue();
      }
    }
  }

  @ParameterizedTest
  @FieldSource("evenside.schemas.Corpus#INPUT_KINDS")
  void bundle_alone_reports_what_the_modular_schemas_report(String kind) {
    String id = id(kind + ".schema.json");
    SchemaSet alone = new SchemaSet(Map.of(id, bundle(kind)));
    int samples = 0;
    for (Sample sample : everySample(kind)) {
      Set<String> expected = reports(MODULAR.errors(id, sample.document()));
      assertThat(reports(alone.errors(id, sample.document())))
          .as(sample.name())
          .isEqualTo(expected);
      samples++;
    }
    assertThat(samples).isGreaterThan(9);
  }

  private static List<Sample> everySample(String kind) {
    return Stream.of(Corpus.valid(), Corpus.invalid(), Mutants.broken(kind))
        .flatMap(List::stream)
        .filter(sample -> sample.kind().equals(kind))
        .toList();
  }

  private static Set<String> reports(List<Error> errors) {
    Set<String> reports = new HashSet<>();
    errors.forEach(
        e ->
            reports.add(
                e.getSchemaLocation() + " " + e.getInstanceLocation() + " " + e.getProperty()));
    return reports;
  }

  private static JsonNode bundle(String kind) {
    return StrictJson.read(CONTRACT.bundle(kind), StrictJson.Limits.OWN);
  }

  private static String id(String name) {
    return "https://evenside.example/schemas/1.0/" + name;
  }
}
