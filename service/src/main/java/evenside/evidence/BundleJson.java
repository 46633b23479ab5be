package evenside.evidence;

import evenside.document.Document;
import evenside.evidence.Bundle.Consistency;
import evenside.evidence.Bundle.Documents;
import evenside.evidence.Bundle.Part;
import evenside.evidence.Bundle.Salted;
import evenside.evidence.Bundle.Statement;
import evenside.schemas.NotJson;
import evenside.schemas.StrictJson;
import java.util.ArrayList;
import java.util.Base64;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/** A bundle as JSON. Bytes are standard base64. */
public final class BundleJson {
  /** Documents of a case with very many batteries still fit. */
  private static final StrictJson.Limits LIMITS =
      new StrictJson.Limits(64 << 20, 16, 32 << 20, 256, 100, 100_000);

  private static final Set<String> PART = Set.of("index", "leaf", "proof");
  private static final Set<String> CONSISTENCY = Set.of("from", "hashes");
  private static final Set<String> STATEMENT =
      Set.of("index", "leaf", "proof", "determination", "determinationSalt");
  private static final Set<String> MEMBERS =
      Set.of(
          "format",
          "schemaVersion",
          "index",
          "leaf",
          "proof",
          "decision",
          "decisionSalt",
          "inputs",
          "inputsSalt",
          "criteriaSet",
          "engineVersion",
          "erasure",
          "determinations",
          "consistency",
          "schemaHashes",
          "keys");

  private BundleJson() {}

  /** The document of a bundle. */
  public static Document write(Bundle bundle) {
    ObjectNode json = object();
    json.put("format", Bundle.FORMAT);
    json.put("schemaVersion", bundle.schemaVersion());
    part(json, bundle.decision());
    bundle.documents().ifPresent(documents -> documents(json, documents));
    bundle.engineVersion().ifPresent(version -> json.put("engineVersion", version));
    bundle.erasure().ifPresent(erasure -> part(json.putObject("erasure"), erasure));
    ArrayNode determinations = json.putArray("determinations");
    bundle.determinations().forEach(one -> statement(determinations.addObject(), one));
    bundle.consistency().ifPresent(proof -> consistency(json.putObject("consistency"), proof));
    ObjectNode hashes = json.putObject("schemaHashes");
    bundle.schemaHashes().forEach(hashes::put);
    ArrayNode keys = json.putArray("keys");
    bundle.keys().forEach(keys::add);
    return Document.of(json);
  }

  private static void part(ObjectNode into, Part part) {
    into.put("index", part.index());
    into.put("leaf", base64(part.leaf()));
    into.put("proof", part.proof());
  }

  private static void documents(ObjectNode into, Documents documents) {
    into.put("decision", base64(documents.decision().bytes()));
    into.put("decisionSalt", base64(documents.decision().salt()));
    into.put("inputs", base64(documents.inputs().bytes()));
    into.put("inputsSalt", base64(documents.inputs().salt()));
    into.put("criteriaSet", base64(documents.criteriaSet()));
  }

  private static void statement(ObjectNode into, Statement statement) {
    part(into, statement.part());
    into.put("determination", base64(statement.document().bytes()));
    into.put("determinationSalt", base64(statement.document().salt()));
  }

  private static void consistency(ObjectNode into, Consistency proof) {
    into.put("from", proof.from());
    ArrayNode hashes = into.putArray("hashes");
    proof.hashes().forEach(hashes::add);
  }

  /**
   * Reads a bundle.
   *
   * @throws IllegalArgumentException if it is none, saying which member is wrong
   */
  static Bundle read(JsonNode json) {
    if (!json.path("format").asString("").equals(Bundle.FORMAT)) {
      throw new IllegalArgumentException(
          "this is no evidence bundle, whose member format says "
              + Bundle.FORMAT
              + "; /v1/decisions/{id}/evidence gives it");
    }
    Map<String, String> hashes = new LinkedHashMap<>();
    json.path("schemaHashes")
        .properties()
        .forEach(e -> hashes.put(e.getKey(), e.getValue().asString("")));
    return new Bundle(
        text(json, "schemaVersion"),
        part(json),
        json.has("decision") ? Optional.of(documents(json)) : Optional.empty(),
        json.has("erasure") ? Optional.of(part(json.path("erasure"))) : Optional.empty(),
        determinations(json.path("determinations")),
        json.has("consistency")
            ? Optional.of(consistency(json.path("consistency")))
            : Optional.empty(),
        json.has("engineVersion") ? Optional.of(text(json, "engineVersion")) : Optional.empty(),
        hashes,
        texts(json.path("keys"), "keys"));
  }

  /**
   * Reads JSON as strictly as everything that is sent.
   *
   * @throws IllegalArgumentException if it is none
   */
  static JsonNode parse(byte[] utf8) {
    try {
      return StrictJson.read(utf8, LIMITS);
    } catch (NotJson broken) {
      throw new IllegalArgumentException("not JSON: " + broken.detail(), broken);
    }
  }

  /** The members that no bundle of this format has, by their path; a later one may add some. */
  static List<String> unknown(JsonNode json) {
    List<String> names = new ArrayList<>();
    unknown(json, "", MEMBERS, names);
    unknown(json.path("erasure"), "erasure/", PART, names);
    unknown(json.path("consistency"), "consistency/", CONSISTENCY, names);
    for (int i = 0; i < json.path("determinations").size(); i++) {
      unknown(json.path("determinations").path(i), "determinations/" + i + "/", STATEMENT, names);
    }
    return names;
  }

  private static void unknown(JsonNode json, String path, Set<String> known, List<String> into) {
    for (String name : json.propertyNames()) {
      if (!known.contains(name)) {
        into.add(path + name);
      }
    }
  }

  private static Part part(JsonNode json) {
    return new Part(number(json, "index"), bytes(json, "leaf"), text(json, "proof"));
  }

  private static Documents documents(JsonNode json) {
    return new Documents(
        new Salted(bytes(json, "decision"), bytes(json, "decisionSalt")),
        new Salted(bytes(json, "inputs"), bytes(json, "inputsSalt")),
        bytes(json, "criteriaSet"));
  }

  private static List<Statement> determinations(JsonNode json) {
    if (!json.isArray()) {
      throw new IllegalArgumentException("the list determinations is missing");
    }
    List<Statement> all = new ArrayList<>();
    for (JsonNode one : json) {
      all.add(
          new Statement(
              part(one), new Salted(bytes(one, "determination"), bytes(one, "determinationSalt"))));
    }
    return all;
  }

  private static Consistency consistency(JsonNode json) {
    return new Consistency(number(json, "from"), texts(json.path("hashes"), "hashes"));
  }

  private static List<String> texts(JsonNode json, String member) {
    List<String> all = new ArrayList<>();
    for (JsonNode one : json) {
      if (!one.isString()) {
        throw new IllegalArgumentException(member + " holds texts only");
      }
      all.add(one.stringValue());
    }
    return all;
  }

  private static String text(JsonNode json, String member) {
    JsonNode value = json.path(member);
    if (!value.isString()) {
      throw new IllegalArgumentException("the member " + member + " is missing, or is no text");
    }
    return value.stringValue();
  }

  private static long number(JsonNode json, String member) {
    JsonNode value = json.path(member);
    if (!value.isIntegralNumber() || !value.canConvertToLong()) {
      throw new IllegalArgumentException(
          "the member " + member + " is missing, or is no whole number");
    }
    return value.longValue();
  }

  private static byte[] bytes(JsonNode json, String member) {
    String text = text(json, member);
    byte[] bytes;
    try {
      bytes = Base64.getDecoder().decode(text);
    } catch (IllegalArgumentException broken) {
      throw new IllegalArgumentException(member + " is not base64", broken);
    }
    if (!base64(bytes).equals(text)) {
      throw new IllegalArgumentException(member + " is not canonical base64");
    }
    return bytes;
  }

  private static String base64(byte[] bytes) {
    return Base64.getEncoder().encodeToString(bytes);
  }

  private static ObjectNode object() {
    return JsonNodeFactory.instance.objectNode();
  }
}
