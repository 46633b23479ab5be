package evenside.schemas;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.SortedMap;
import tools.jackson.core.util.DefaultIndenter;
import tools.jackson.core.util.DefaultPrettyPrinter;
import tools.jackson.core.util.Separators;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.ObjectWriter;
import tools.jackson.databind.json.JsonMapper;

/**
 * Rewrites what follows from the published files: the bundles and the lock.
 *
 * <p>Run it as {@code mvn -pl schemas test-compile exec:java@publish} after adding a version. Once
 * a version is published, a change that the lock shows is a mistake.
 */
final class Publish {

  private static final ObjectWriter WRITER = writer();

  private Publish() {}

  public static void main(String[] args) throws IOException {
    Path folder = Path.of(args[0]);
    for (Map.Entry<String, byte[]> bundle : bundles(folder).entrySet()) {
      Path file = folder.resolve(bundle.getKey());
      Files.createDirectories(file.getParent());
      Files.write(file, bundle.getValue());
    }
    Files.write(folder.resolve(Lock.FILE), Lock.of(ContractFiles.in(folder)).text());
  }

  /** The bundle of every kind by its path. */
  static Map<String, byte[]> bundles(Path folder) {
    Contract contract = Contract.in(folder);
    Bundler bundler = new Bundler(schemas(folder));
    Map<String, byte[]> bundles = new LinkedHashMap<>();
    for (String kind : contract.kinds()) {
      String name = contract.schemaVersion() + "/" + kind + ".schema.json";
      JsonNode bundle = bundler.bundle("https://evenside.example/schemas/" + name);
      String text = WRITER.writeValueAsString(bundle) + "\n";
      bundles.put("bundles/" + name, text.getBytes(StandardCharsets.UTF_8));
    }
    return bundles;
  }

  /** The modular schemas by {@code $id}. */
  static Map<String, JsonNode> schemas(Path folder) {
    SortedMap<String, byte[]> files = ContractFiles.in(folder);
    Map<String, JsonNode> schemas = new LinkedHashMap<>();
    files.forEach(
        (path, bytes) -> {
          if (path.startsWith("v1/")) {
            JsonNode schema = StrictJson.read(bytes, StrictJson.Limits.OWN);
            schemas.put(schema.path("$id").asString(), schema);
          }
        });
    return schemas;
  }

  private static ObjectWriter writer() {
    DefaultIndenter indenter = new DefaultIndenter("  ", "\n");
    Separators separators =
        Separators.createDefaultInstance()
            .withObjectNameValueSpacing(Separators.Spacing.AFTER)
            .withObjectEmptySeparator("")
            .withArrayEmptySeparator("");
    DefaultPrettyPrinter printer =
        new DefaultPrettyPrinter(separators)
            .withObjectIndenter(indenter)
            .withArrayIndenter(indenter);
    return JsonMapper.builder().build().writer().with(printer);
  }
}
