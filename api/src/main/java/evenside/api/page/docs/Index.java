package evenside.api.page.docs;

import evenside.api.page.Terms;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import tools.jackson.databind.JsonNode;

/**
 * Everything that is published, by name.
 *
 * @param schemaVersion version of the schemas
 * @param sets criteria sets
 * @param progressions rules for the next session
 * @param schemas kinds of document with what they are
 */
public record Index(
    String schemaVersion, List<Entry> sets, List<Entry> progressions, List<Entry> schemas) {
  /**
   * One line.
   *
   * @param href its page
   * @param title its name
   * @param kind what it is for, in a word or two
   * @param about a sentence; may be empty
   */
  public record Entry(String href, String title, String kind, String about) {}

  /** Keeps its own copies. */
  public Index {
    sets = List.copyOf(sets);
    progressions = List.copyOf(progressions);
    schemas = List.copyOf(schemas);
  }

  /** Lists criteria sets in the order given. */
  public static List<Entry> sets(JsonNode list, Terms terms) {
    List<Entry> entries = new ArrayList<>();
    for (JsonNode set : list.path("criteriaSets")) {
      entries.add(
          new Entry(
              "/docs/criteria-sets/" + name(set),
              set.path("title").asString(),
              terms.milestone(set.path("milestone").asString()),
              set.path("source").asString("")));
    }
    return entries;
  }

  /** Lists progressions in the order given. */
  public static List<Entry> progressions(JsonNode list) {
    List<Entry> entries = new ArrayList<>();
    for (JsonNode set : list.path("progressions")) {
      entries.add(
          new Entry(
              "/docs/progressions/" + name(set),
              set.path("title").asString(),
              set.path("appliesTo").asString(),
              set.path("basis").asString("")));
    }
    return entries;
  }

  /** Lists schemas by kind. */
  public static List<Entry> schemas(String version, Collection<JsonNode> schemas) {
    List<Entry> entries = new ArrayList<>();
    for (JsonNode schema : schemas) {
      String kind =
          schema.path("$id").asString().replaceFirst(".*/", "").replace(".schema.json", "");
      entries.add(
          new Entry(
              "/docs/schemas/" + version + "/" + kind,
              schema.path("title").asString(kind),
              kind,
              schema.path("description").asString("")));
    }
    return entries;
  }

  /** Id and version, as in its path. */
  static String name(JsonNode entry) {
    return entry.path("id").asString() + "/" + entry.path("version").asString();
  }
}
