package evenside.schemas;

import evenside.schemas.StrictJson.Limits;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.List;
import tools.jackson.databind.JsonNode;

/**
 * What changed with each version, from {@code changes.json}; the newest first.
 *
 * @param schemas versions of the schemas
 * @param api versions of the HTTP interface
 */
public record Changes(List<Version> schemas, List<Version> api) {
  /** The file, beside the published folders and in the jar. */
  static final String FILE = "changes.json";

  /** Keeps its own copies. */
  public Changes {
    schemas = List.copyOf(schemas);
    api = List.copyOf(api);
  }

  /**
   * One version.
   *
   * @param version its number
   * @param date when it was published
   * @param changes what is new, a sentence each
   * @param breaks what breaks somebody, each as kind and place of a {@link Difference}
   */
  public record Version(String version, String date, List<String> changes, List<String> breaks) {
    /** Keeps its own copies. */
    public Version {
      changes = List.copyOf(changes);
      breaks = List.copyOf(breaks);
    }
  }

  /** The changes in this jar. */
  public static Changes published() {
    try (InputStream in = Changes.class.getResourceAsStream("/evenside/contract/" + FILE)) {
      if (in == null) {
        throw new IllegalStateException("the contract lacks " + FILE);
      }
      JsonNode json = StrictJson.read(in.readAllBytes(), Limits.OWN);
      return new Changes(versions(json.path("schemas")), versions(json.path("api")));
    } catch (IOException unreadable) {
      throw new UncheckedIOException("cannot read " + FILE, unreadable);
    }
  }

  /** The breaks that a version does not declare, in words. */
  public static List<String> undeclared(Version newer, List<Difference> differences) {
    return differences.stream()
        .filter(one -> one.breaks() && !newer.breaks().contains(one.key()))
        .map(one -> newer.version() + ": " + one.inWords())
        .toList();
  }

  private static List<Version> versions(JsonNode list) {
    return list.valueStream()
        .map(
            one ->
                new Version(
                    one.path("version").asString(),
                    one.path("date").asString(),
                    texts(one.path("changes")),
                    texts(one.path("breaks"))))
        .toList();
  }

  private static List<String> texts(JsonNode list) {
    return list.valueStream().map(JsonNode::asString).toList();
  }
}
