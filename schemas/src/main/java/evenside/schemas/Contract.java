package evenside.schemas;

import evenside.schemas.StrictJson.Limits;
import evenside.schemas.acceptor.Acceptor;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.SortedMap;
import java.util.SortedSet;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;

/**
 * The published contract: schemas, catalogue, criteria sets, questionnaires, and the check of a
 * document against them.
 *
 * <p>Everything is loaded and checked when the contract is made, nothing is fetched, and nothing
 * changes afterwards; one instance serves all threads. Valid documents are accepted by checks made
 * of the schemas ({@link Acceptor}); whatever those do not accept goes to the schema validator,
 * which judges it and gives the faults, and is made ready for a kind when it is first asked, or by
 * {@link #prepare}.
 */
public final class Contract {

  private static final Pattern SCHEMA = Pattern.compile("v1/([a-z-]+)\\.schema\\.json");
  private static final Pattern SCHEMA_ID =
      Pattern.compile(
          "https://evenside\\.example/schemas/([0-9]+\\.[0-9]+)/([a-z-]+)\\.schema\\.json");
  private static final Pattern CATALOGUE = Pattern.compile("catalogue/([a-z-]+)\\.json");
  private static final Pattern INSTRUMENT = Pattern.compile("instruments/([^/]+)\\.json");
  private static final Pattern CRITERIA_SET = Pattern.compile("criteria/([^/]+)/([^/]+)\\.json");
  private static final Pattern PROGRESSION = Pattern.compile("progressions/([^/]+)/([^/]+)\\.json");

  /** Parts for the other schemas; no document is of this kind. */
  private static final String COMMON = "common";

  private static @Nullable Contract published;

  private final SortedMap<String, byte[]> files;
  private final String schemaVersion;
  private final SortedSet<String> kinds = new TreeSet<>();
  private final SchemaSet schemas;
  private final Acceptor acceptor;
  private final FaultReader faults;
  private final Map<String, JsonNode> catalogues = new LinkedHashMap<>();
  private final List<JsonNode> criteriaSets;
  private final List<JsonNode> progressions;
  private final List<JsonNode> instruments = new ArrayList<>();

  private Contract(SortedMap<String, byte[]> files) {
    this.files = files;
    Map<String, JsonNode> byId = new LinkedHashMap<>();
    SortedSet<String> versions = new TreeSet<>();
    for (String path : files.keySet()) {
      Matcher schema = SCHEMA.matcher(path);
      if (schema.matches()) {
        JsonNode tree = tree(path);
        versions.add(versionOf(tree, schema.group(1)));
        byId.put(tree.path("$id").asString(), tree);
        kinds.add(schema.group(1));
      }
    }
    kinds.remove(COMMON);
    if (versions.size() != 1) {
      throw new IllegalStateException("the schemas must share one version, not " + versions);
    }
    schemaVersion = versions.first();
    schemas = new SchemaSet(byId);
    acceptor = new Acceptor(byId);
    faults = new FaultReader(byId);
    loadCatalogues();
    criteriaSets = versioned(CRITERIA_SET, "criteria-set");
    progressions = versioned(PROGRESSION, "progression");
    loadInstruments();
  }

  /**
   * The contract in this jar; read once, as it never changes.
   *
   * @throws IllegalStateException if a file is missing or differs from its published bytes
   */
  public static synchronized Contract published() {
    Contract known = published;
    if (known == null) {
      known = new Contract(ContractFiles.onClassPath());
      published = known;
    }
    return known;
  }

  /**
   * The contract in a folder laid out like {@code schemas/} of this project; no lock is asked for.
   */
  public static Contract in(Path folder) {
    return new Contract(ContractFiles.in(folder));
  }

  /** Major and minor version of the schemas; what documents carry as {@code schemaVersion}. */
  public String schemaVersion() {
    return schemaVersion;
  }

  /**
   * Kinds of document that can be checked, for example {@code battery}; a catalogue is of the kind
   * it is named after.
   */
  public SortedSet<String> kinds() {
    return Collections.unmodifiableSortedSet(kinds);
  }

  /**
   * The published bytes of the schema of a kind, or of {@code common}.
   *
   * @throws IllegalArgumentException if there is no such schema
   */
  public byte[] schema(String kind) {
    return needed("v1/" + kind + ".schema.json");
  }

  /**
   * The schema of a kind with everything it refers to, in one file.
   *
   * @throws IllegalArgumentException if there is no such kind
   */
  public byte[] bundle(String kind) {
    return needed("bundles/" + schemaVersion + "/" + kind + ".schema.json");
  }

  /** Names of the catalogue files, for example {@code measures}. */
  public Set<String> catalogues() {
    return Collections.unmodifiableSet(catalogues.keySet());
  }

  /**
   * One catalogue file, as a tree of the caller's own.
   *
   * @throws IllegalArgumentException if there is no such catalogue
   */
  public JsonNode catalogue(String name) {
    JsonNode tree = catalogues.get(name);
    if (tree == null) {
      throw new IllegalArgumentException("no catalogue " + name + "; there are " + catalogues());
    }
    return tree.deepCopy();
  }

  /** All published criteria sets by id and version, as trees of the caller's own. */
  public List<JsonNode> criteriaSets() {
    return criteriaSets.stream().map(JsonNode::deepCopy).toList();
  }

  /** The published bytes of one version of a criteria set. */
  public Optional<byte[]> criteriaSet(String id, String version) {
    return file("criteria/" + id + "/" + version + ".json");
  }

  /** All published progressions by id and version, as trees of the caller's own. */
  public List<JsonNode> progressions() {
    return progressions.stream().map(JsonNode::deepCopy).toList();
  }

  /** The published bytes of one version of a progression. */
  public Optional<byte[]> progression(String id, String version) {
    return file("progressions/" + id + "/" + version + ".json");
  }

  /** All questionnaires by code, as trees of the caller's own. */
  public List<JsonNode> instruments() {
    return instruments.stream().map(JsonNode::deepCopy).toList();
  }

  /** Paths of all published files. */
  public SortedSet<String> files() {
    return new TreeSet<>(files.keySet());
  }

  /** The bytes of one published file. */
  public Optional<byte[]> file(String path) {
    return Optional.ofNullable(files.get(path)).map(byte[]::clone);
  }

  /**
   * Checks a document against the schema of its kind.
   *
   * @return every fault, sorted by pointer, then code; empty if the document is valid. Not cut: see
   *     {@link Faults#MAX}
   * @throws IllegalArgumentException if there is no such kind
   */
  public List<Fault> validate(String kind, JsonNode document) {
    if (!kinds.contains(kind)) {
      throw new IllegalArgumentException("no kind " + kind + "; there are " + kinds);
    }
    String id = id(kind);
    return acceptor.accepts(id, document) ? List.of() : faults.read(schemas.errors(id, document));
  }

  /**
   * Makes ready what words the faults, so that the first faulty document need not wait for it. May
   * be left out, and may run beside everything else.
   */
  public void prepare() {
    kinds.forEach(kind -> schemas.compile(id(kind)));
  }

  private String id(String kind) {
    return "https://evenside.example/schemas/" + schemaVersion + "/" + kind + ".schema.json";
  }

  private static String versionOf(JsonNode schema, String name) {
    String id = schema.path("$id").asString();
    Matcher parts = SCHEMA_ID.matcher(id);
    if (!parts.matches() || !parts.group(2).equals(name)) {
      throw new IllegalStateException("the schema " + name + " has the foreign $id " + id);
    }
    return parts.group(1);
  }

  private void loadCatalogues() {
    for (String path : files.keySet()) {
      Matcher place = CATALOGUE.matcher(path);
      if (place.matches()) {
        catalogues.put(place.group(1), valid(place.group(1), path));
      }
    }
  }

  /** Documents that lie at {@code id/version}, each named after what it says of itself. */
  private List<JsonNode> versioned(Pattern places, String kind) {
    List<JsonNode> documents = new ArrayList<>();
    for (String path : files.keySet()) {
      Matcher place = places.matcher(path);
      if (place.matches()) {
        JsonNode document = valid(kind, path);
        if (!document.path("id").asString().equals(place.group(1))
            || !document.path("version").asString().equals(place.group(2))) {
          throw new IllegalStateException(path + " must be named after its id and version");
        }
        documents.add(document);
      }
    }
    return documents;
  }

  private void loadInstruments() {
    for (String path : files.keySet()) {
      Matcher place = INSTRUMENT.matcher(path);
      if (place.matches()) {
        JsonNode instrument = valid("instrument", path);
        if (!instrument.path("code").asString().equals(place.group(1))) {
          throw new IllegalStateException(path + " must be named after its code");
        }
        instruments.add(instrument);
      }
    }
  }

  private JsonNode valid(String kind, String path) {
    JsonNode document = tree(path);
    List<Fault> found = validate(kind, document);
    if (!found.isEmpty()) {
      throw new IllegalStateException(path + " does not follow its schema: " + found.get(0));
    }
    return document;
  }

  private JsonNode tree(String path) {
    try {
      return StrictJson.read(needed(path), Limits.OWN);
    } catch (NotJson broken) {
      throw new IllegalStateException(path + " is not JSON: " + broken.detail(), broken);
    }
  }

  private byte[] needed(String path) {
    return file(path)
        .orElseThrow(() -> new IllegalArgumentException("the contract has no file " + path));
  }
}
