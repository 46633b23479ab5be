package evenside.api.page.docs;

import static evenside.api.page.Texts.text;

import evenside.schemas.Contract;
import java.util.HashMap;
import java.util.Map;
import java.util.StringJoiner;
import tools.jackson.databind.JsonNode;

/** The catalogue of sources, to resolve keys of citations. */
public final class Sources {
  private final Map<String, JsonNode> byKey = new HashMap<>();

  /** The sources in a contract. */
  public Sources(Contract contract) {
    contract
        .catalogue("sources")
        .path("sources")
        .forEach(source -> byKey.put(source.path("key").asString(), source));
  }

  /** A citation in words; a source that is not in the catalogue stays a key. */
  String cite(JsonNode citation) {
    if (citation.isMissingNode()) {
      return "";
    }
    String key = citation.path("source").asString("");
    JsonNode source = byKey.get(key);
    StringJoiner words = new StringJoiner(", ");
    words.add(source == null ? key : entry(source));
    if (citation.has("place")) {
      words.add(citation.path("place").asString());
    }
    String printed =
        citation.has("printedAs")
            ? " " + text("decision.printed-as", citation.path("printedAs").asString())
            : "";
    return words + printed;
  }

  /** An entry of the catalogue in words. */
  static String entry(JsonNode source) {
    StringJoiner words = new StringJoiner(", ");
    words.add(source.path("citation").asString(""));
    if (source.has("doi")) {
      words.add("doi " + source.path("doi").asString());
    }
    return words.toString();
  }
}
