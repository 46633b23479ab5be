package evenside.schemas;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Map;
import java.util.SortedMap;
import java.util.stream.Stream;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * Holds documents against two versions of their schemas: the proof that what was taken is taken
 * still. Each lies in a folder named after its kind, and is read under either version, whatever
 * version it says it follows.
 */
final class SampleComparison {
  private final SortedMap<String, JsonNode> before;
  private final SortedMap<String, JsonNode> after;
  private final IdentityHashMap<JsonNode, SchemaSet> compiled = new IdentityHashMap<>();

  private SampleComparison(SortedMap<String, JsonNode> before, SortedMap<String, JsonNode> after) {
    this.before = before;
    this.after = after;
  }

  /** The documents whose verdict changed; one that was valid and is refused is a break. */
  static List<Difference> of(
      SortedMap<String, JsonNode> before, SortedMap<String, JsonNode> after, Path folder) {
    SampleComparison comparison = new SampleComparison(before, after);
    List<Difference> changed = new ArrayList<>();
    try (Stream<Path> files = Files.walk(folder)) {
      for (Path file : files.filter(SampleComparison::isSample).sorted().toList()) {
        comparison.compare(folder, file, changed);
      }
    } catch (IOException unreadable) {
      throw new UncheckedIOException("cannot read the samples in " + folder, unreadable);
    }
    return changed;
  }

  private static boolean isSample(Path file) {
    return file.toString().endsWith(".json") && !file.toString().endsWith(".expected.json");
  }

  private void compare(Path folder, Path file, List<Difference> changed) throws IOException {
    Path parent = file.toAbsolutePath().getParent();
    String kind = parent == null ? "" : String.valueOf(parent.getFileName());
    if (before.containsKey(kind) && after.containsKey(kind)) {
      JsonNode sample = Comparison.read(file);
      boolean was = isValid(before.get(kind), sample);
      boolean is = isValid(after.get(kind), sample);
      if (was != is) {
        String detail = was ? "was valid, is refused" : "was refused, is valid";
        changed.add(new Difference(kind, folder.relativize(file).toString(), was, detail));
      }
    }
  }

  private boolean isValid(JsonNode bundle, JsonNode sample) {
    String id = bundle.path("$id").asString();
    JsonNode version = bundle.at("/properties/schemaVersion/const");
    JsonNode document = sample;
    if (version.isString() && sample.has("schemaVersion")) {
      document = ((ObjectNode) sample.deepCopy()).set("schemaVersion", version);
    }
    return compiled
        .computeIfAbsent(bundle, schema -> new SchemaSet(Map.of(id, schema)))
        .errors(id, document)
        .isEmpty();
  }
}
