package evenside.schemas;

import evenside.schemas.Corpus.Sample;
import evenside.schemas.SchemaParts.Part;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import tools.jackson.core.JsonPointer;
import tools.jackson.databind.JsonNode;

/** Where in the valid examples of a kind each subschema is at work. */
final class Sites {

  /** A place in an example. */
  record Site(Sample sample, JsonPointer place) {}

  private final SchemaParts parts;
  private final Map<Part, Site> first = new LinkedHashMap<>();

  /** Walks the examples in the order given; the first place of each subschema counts. */
  Sites(SchemaParts parts, Part root, List<Sample> examples) {
    this.parts = parts;
    examples.forEach(
        sample -> walk(root, new Site(sample, JsonPointer.empty()), sample.document()));
  }

  Optional<Site> of(Part part) {
    return Optional.ofNullable(first.get(part));
  }

  private void walk(Part part, Site site, JsonNode value) {
    first.putIfAbsent(part, site);
    JsonNode schema = parts.node(part);
    if (schema.has("$ref")) {
      walk(parts.referred(part), site, value);
    }
    parts.branches(part).forEach(branch -> walk(branch, site, value));
    walkMembers(part, schema, site, value);
    walkItems(part, schema, site, value);
    walkChoice(part, schema, site, value);
  }

  private void walkMembers(Part part, JsonNode schema, Site site, JsonNode value) {
    for (String name : schema.path("properties").propertyNames()) {
      if (value.has(name)) {
        Site member = new Site(site.sample(), site.place().appendProperty(name));
        walk(part.child("properties", name), member, value.get(name));
      }
    }
    if (schema.has("propertyNames")) {
      walk(part.child("propertyNames"), site, value);
    }
  }

  private void walkItems(Part part, JsonNode schema, Site site, JsonNode value) {
    for (String keyword : List.of("items", "contains")) {
      for (int i = 0; schema.has(keyword) && i < value.size(); i++) {
        Site item = new Site(site.sample(), site.place().appendIndex(i));
        walk(part.child(keyword), item, value.get(i));
      }
    }
  }

  private void walkChoice(Part part, JsonNode schema, Site site, JsonNode value) {
    if (schema.has("if")) {
      walk(part.child("if"), site, value);
      String chosen = holds(schema.get("if"), value) ? "then" : "else";
      if (schema.has(chosen)) {
        walk(part.child(chosen), site, value);
      }
    }
  }

  /** The published conditions ask for members and for constant values, nothing more. */
  private static boolean holds(JsonNode condition, JsonNode value) {
    return condition.path("required").valueStream().allMatch(name -> value.has(name.asString()))
        && condition
            .path("properties")
            .propertyStream()
            .allMatch(
                member -> member.getValue().path("const").equals(value.path(member.getKey())));
  }
}
