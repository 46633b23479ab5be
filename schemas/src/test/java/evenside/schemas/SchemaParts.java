package evenside.schemas;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import tools.jackson.core.JsonPointer;
import tools.jackson.databind.JsonNode;

/** The subschemas of the published schemas, and the way from one to the next. */
final class SchemaParts {

  private static final List<String> SINGLE =
      List.of("items", "contains", "if", "then", "else", "propertyNames", "additionalProperties");

  /** Keywords that can make a document invalid by themselves. */
  private static final Set<String> ASSERTIONS =
      Set.of(
          "type",
          "enum",
          "const",
          "required",
          "additionalProperties",
          "minimum",
          "maximum",
          "minLength",
          "maxLength",
          "pattern",
          "format",
          "minItems",
          "maxItems",
          "minProperties",
          "maxProperties",
          "contains");

  private final Map<String, JsonNode> schemas;

  /**
   * @param schemas every schema by its {@code $id}
   */
  SchemaParts(Map<String, JsonNode> schemas) {
    this.schemas = schemas;
  }

  /** A subschema: the document by its {@code $id}, and the pointer in it. */
  record Part(String id, JsonPointer pointer) {

    static Part root(String id) {
      return new Part(id, JsonPointer.empty());
    }

    Part child(String keyword) {
      return new Part(id, pointer.appendProperty(keyword));
    }

    Part child(String keyword, String name) {
      return new Part(id, child(keyword).pointer().appendProperty(name));
    }

    String uri() {
      return id + "#" + pointer;
    }

    /** True inside {@code if} and {@code contains}, where failing only chooses or counts. */
    boolean chooses() {
      return pointer.toString().matches(".*/(if|contains)(/.*)?");
    }

    boolean namesKeys() {
      return pointer.toString().endsWith("/propertyNames");
    }
  }

  /**
   * One thing a subschema asserts.
   *
   * @param name the keyword; {@code false} for the schema that nothing follows
   * @param member for {@code required} the name it asks for, else empty
   */
  record Assertion(Part part, String name, String member) {
    @Override
    public String toString() {
      return part.uri().replaceFirst(".*/1.0/", "")
          + "/"
          + name
          + (member.isEmpty() ? "" : "=" + member);
    }
  }

  JsonNode node(Part part) {
    return schemas.get(part.id()).at(part.pointer());
  }

  /** The part itself and everything a document of it is checked against. */
  Set<Part> reachable(Part from) {
    Set<Part> found = new LinkedHashSet<>();
    collect(from, found);
    return found;
  }

  private void collect(Part part, Set<Part> found) {
    if (found.add(part)) {
      subschemas(part).forEach(next -> collect(next, found));
    }
  }

  private List<Part> subschemas(Part part) {
    JsonNode schema = node(part);
    List<Part> parts = new ArrayList<>();
    schema
        .path("properties")
        .propertyNames()
        .forEach(name -> parts.add(part.child("properties", name)));
    for (String keyword : SINGLE) {
      if (schema.path(keyword).isObject()) {
        parts.add(part.child(keyword));
      }
    }
    parts.addAll(branches(part));
    if (schema.has("$ref")) {
      parts.add(referred(part));
    }
    return parts;
  }

  List<Part> branches(Part part) {
    List<Part> branches = new ArrayList<>();
    for (int i = 0; i < node(part).path("allOf").size(); i++) {
      branches.add(new Part(part.id(), part.child("allOf").pointer().appendIndex(i)));
    }
    return branches;
  }

  Part referred(Part part) {
    String[] target = node(part).path("$ref").asString().split("#", 2);
    String folder = part.id().substring(0, part.id().lastIndexOf('/') + 1);
    String id = target[0].isEmpty() ? part.id() : folder + target[0];
    return new Part(id, JsonPointer.compile(target.length > 1 ? target[1] : ""));
  }

  List<Assertion> assertions(Part part) {
    JsonNode schema = node(part);
    if (schema.isBoolean()) {
      return schema.booleanValue() ? List.of() : List.of(new Assertion(part, "false", ""));
    }
    List<Assertion> assertions = new ArrayList<>();
    for (String name : schema.propertyNames()) {
      if (name.equals("required")) {
        schema.path(name).forEach(one -> assertions.add(new Assertion(part, name, one.asString())));
      } else if (ASSERTIONS.contains(name) && !isOpen(name, schema)) {
        assertions.add(new Assertion(part, name, ""));
      }
    }
    return assertions;
  }

  private static boolean isOpen(String name, JsonNode schema) {
    return name.equals("additionalProperties") && schema.path(name).asBoolean(true);
  }
}
