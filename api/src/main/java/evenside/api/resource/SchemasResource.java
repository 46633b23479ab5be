package evenside.api.resource;

import evenside.api.http.Cache;
import evenside.api.http.Call;
import evenside.api.http.Reply;
import evenside.api.http.Route;
import evenside.api.problem.Problems;
import evenside.document.Document;
import evenside.schemas.Archive;
import evenside.schemas.Contract;
import java.util.SortedSet;
import java.util.TreeSet;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/** The published schemas, byte for byte. */
public final class SchemasResource {
  /** Media type of a schema. */
  public static final String MEDIA_TYPE = "application/schema+json";

  /** Media type of the archive. */
  public static final String ZIP = "application/zip";

  private final Contract contract;
  private final SortedSet<String> kinds;
  private final Reply archive;

  /** Over a contract; its parts that other schemas share are served under {@code common}. */
  public SchemasResource(Contract contract) {
    this.contract = contract;
    this.kinds = new TreeSet<>(contract.kinds());
    kinds.add("common");
    this.archive = archive(contract.schemaVersion());
  }

  /** Lists them. */
  public Reply list(Call call) {
    ObjectNode json = JsonNodeFactory.instance.objectNode();
    ArrayNode schemas = json.putArray("schemas");
    kinds.forEach(kind -> schemas.add(entry(kind)));
    byte[] body = JsonMapper.shared().writeValueAsBytes(json);
    return Reply.of(body, Route.JSON).cached(Cache.PUBLIC);
  }

  /** One of them. */
  public Reply one(Call call) {
    String kind = call.id("kind");
    if (!call.id("version").equals(contract.schemaVersion()) || !kinds.contains(kind)) {
      throw Problems.NOTHING_HERE.asException();
    }
    return Reply.of(contract.schema(kind), MEDIA_TYPE).cached(Cache.IMMUTABLE);
  }

  /** Everything published and the examples in one file; the next release may add to it. */
  public Reply archive(Call call) {
    return archive;
  }

  private static Reply archive(String version) {
    return Reply.of(Archive.published(), ZIP)
        .cached(Cache.PUBLIC)
        .with(
            "Content-Disposition", "attachment; filename=\"evenside-schemas-" + version + ".zip\"");
  }

  private ObjectNode entry(String kind) {
    String version = contract.schemaVersion();
    return JsonNodeFactory.instance
        .objectNode()
        .put("kind", kind)
        .put("version", version)
        .put("id", "https://evenside.example/schemas/" + version + "/" + kind + ".schema.json")
        .put("href", "/v1/schemas/" + version + "/" + kind)
        .put("sha256", Document.sha256(contract.schema(kind)));
  }
}
