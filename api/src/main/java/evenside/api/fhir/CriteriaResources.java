package evenside.api.fhir;

import evenside.schemas.Contract;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * A criteria set as a PlanDefinition (one action per criterion, groups as actions inside actions)
 * and a Library with its exact bytes.
 *
 * <p>The Library is what counts. A condition says the criterion in words; where it looks at one
 * number it also has a FHIRPath expression over a Bundle of Observations, which is an illustration:
 * FHIRPath does not know our three-valued outcomes, ages of results and ways of testing.
 */
public final class CriteriaResources {
  private static final int LONGEST_ID = 64;

  private final Map<String, JsonNode> sources = new HashMap<>();
  private final CriterionConditions conditions;

  /** Writes in these codes, with the published sources. */
  public CriteriaResources(Contract contract, Codes codes) {
    conditions = new CriterionConditions(codes);
    contract
        .catalogue("sources")
        .path("sources")
        .forEach(source -> sources.put(source.path("key").asString(), source));
  }

  /** PlanDefinition, then Library. */
  public List<ObjectNode> of(JsonNode set, byte[] exact, String sha256) {
    return List.of(plan(set), library(set, exact, sha256));
  }

  /** Id of both resources: id and version of the set, or its beginning where that is too long. */
  static String resourceId(JsonNode set) {
    String id = set.path("id").asString() + "-" + set.path("version").asString();
    return id.length() <= LONGEST_ID ? id : id.substring(0, LONGEST_ID);
  }

  static String address(String type, JsonNode set) {
    return Fhir.BASE + type + "/" + set.path("id").asString();
  }

  static String canonical(String type, JsonNode set) {
    return address(type, set) + "|" + set.path("version").asString();
  }

  /** Measures that the criteria with these ids look at. */
  static List<String> measures(JsonNode set, List<String> ids) {
    Set<String> found = new LinkedHashSet<>();
    collect(set.path("criteria"), ids, found);
    return List.copyOf(found);
  }

  private static void collect(JsonNode criterion, List<String> ids, Set<String> found) {
    boolean asked = ids.contains(criterion.path("id").asString());
    if (asked && criterion.has("measure")) {
      found.add(criterion.path("measure").asString());
    }
    criterion.path("of").forEach(part -> collect(part, ids, found));
  }

  private ObjectNode plan(JsonNode set) {
    ObjectNode json = started("PlanDefinition", set);
    json.put("title", set.path("title").asString());
    json.set("type", conditions.codes().external("plan-eca-rule"));
    json.put("status", "active");
    json.put("purpose", set.path("designedFor").asString());
    json.put("usage", "Population: " + set.path("population").asString());
    json.putArray("topic").add(conditions.codes().milestone(set.path("milestone").asString()));
    addSources(json, set);
    json.putArray("library").add(canonical("Library", set));
    ArrayNode actions = json.putArray("action");
    actions.add(action(set.path("criteria")));
    set.path("informative").forEach(one -> actions.add(informative(one)));
    return json;
  }

  private static ObjectNode started(String type, JsonNode set) {
    ObjectNode json = Fhir.resource(type, resourceId(set)).put("url", address(type, set));
    json.put("version", set.path("version").asString());
    return json.put("name", Codes.machineName(set.path("id").asString()));
  }

  private void addSources(ObjectNode json, JsonNode set) {
    Map<String, JsonNode> known = new HashMap<>(sources);
    set.path("sources").forEach(own -> known.put(own.path("key").asString(), own));
    List<ObjectNode> artifacts = new ArrayList<>();
    Set<String> cited = new LinkedHashSet<>();
    collectCited(set, cited);
    for (String key : cited) {
      JsonNode source = known.get(key);
      if (source != null) {
        artifacts.add(artifact(source));
      }
    }
    if (!artifacts.isEmpty()) {
      json.putArray("relatedArtifact").addAll(artifacts);
    }
  }

  private static void collectCited(JsonNode node, Set<String> into) {
    if (node.path("source").isString()) {
      into.add(node.path("source").asString());
    }
    node.forEach(child -> collectCited(child, into));
  }

  private static ObjectNode artifact(JsonNode source) {
    ObjectNode json = Fhir.object().put("type", "citation");
    json.put("label", source.path("key").asString());
    json.put("citation", source.path("citation").asString());
    if (source.has("doi")) {
      json.put("url", "https://doi.org/" + source.path("doi").asString());
    }
    return json;
  }

  private ObjectNode action(JsonNode criterion) {
    ObjectNode json = Fhir.object().put("prefix", criterion.path("id").asString());
    json.put("title", criterion.path("title").asString());
    if (criterion.has("note")) {
      json.put("description", criterion.path("note").asString());
    }
    if (criterion.has("citation")) {
      ObjectNode cited = json.putArray("documentation").addObject().put("type", "citation");
      cited.put("label", criterion.at("/citation/source").asString());
    }
    json.putArray("condition").add(conditions.of(criterion));
    if (criterion.has("of")) {
      ArrayNode inner = json.putArray("action");
      criterion.path("of").forEach(part -> inner.add(action(part)));
    }
    return json;
  }

  private ObjectNode informative(JsonNode criterion) {
    return action(criterion).put("textEquivalent", "Shown for information; never decides.");
  }

  private ObjectNode library(JsonNode set, byte[] exact, String sha256) {
    ObjectNode json = started("Library", set);
    json.putArray("identifier").add(Fhir.identifier("criteria-set-sha256", sha256));
    json.put("status", "active");
    json.set("type", conditions.codes().external("library-logic"));
    ObjectNode content = json.putArray("content").addObject();
    content.put("contentType", "application/json").put("data", FhirBytes.base64(exact));
    content.put("size", exact.length).put("hash", FhirBytes.base64(FhirBytes.sha1(exact)));
    content.put("title", "The criteria set as published");
    return json;
  }
}
