package evenside.schemas.acceptor;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import tools.jackson.databind.JsonNode;

/**
 * Says quickly of most valid documents that they are valid, and says nothing of the rest.
 *
 * <p>Compiled when it is made, unchanged afterwards; one instance serves all threads.
 */
public final class Acceptor {

  private final Map<String, Check> checks = new LinkedHashMap<>();
  private final Map<String, String> unknown = new LinkedHashMap<>();

  /**
   * Compiles schemas (draft 2020-12, formats asserted).
   *
   * @param schemas every schema by its {@code $id}
   */
  public Acceptor(Map<String, JsonNode> schemas) {
    Compiler compiler = new Compiler(schemas);
    for (String id : schemas.keySet()) {
      try {
        checks.put(id, compiler.compile(id));
      } catch (Unknown beyond) {
        unknown.put(id, beyond.getMessage());
        compiler = new Compiler(schemas); // what it left unfinished must not be referred to
      }
    }
  }

  /**
   * True if the document certainly follows the schema. False says nothing: the document may be
   * valid all the same, and no such schema may be known.
   */
  public boolean accepts(String id, JsonNode document) {
    Check check = checks.get(id);
    return check != null && check.accepts(document);
  }

  /** What in a schema could not be compiled, so that none of its documents is accepted here. */
  public Optional<String> whyNot(String id) {
    return Optional.ofNullable(unknown.get(id));
  }
}
