package evenside.schemas.acceptor;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import tools.jackson.core.JsonPointer;
import tools.jackson.databind.JsonNode;

/** Makes checks of schemas, and stops at whatever it does not know. */
final class Compiler {

  private static final Set<String> NO_RULE =
      Set.of("$schema", "$id", "$defs", "$comment", "title", "description", "examples");
  private static final Set<String> OF_EVERY_TYPE =
      Set.of("$ref", "type", "const", "enum", "allOf", "if", "then", "else");

  /** What a condition may say: a check of it must be able to tell of every value. */
  private static final Set<String> OF_CONDITIONS =
      Set.of("$ref", "properties", "required", "const", "enum", "title", "description");

  private final Map<String, JsonNode> schemas;
  private final Map<String, Check.Reference> references = new HashMap<>();
  private final Map<String, Shape> shapes = new HashMap<>();

  /**
   * @param schemas every schema by its {@code $id}
   */
  Compiler(Map<String, JsonNode> schemas) {
    this.schemas = schemas;
  }

  /**
   * The check of a whole schema.
   *
   * @throws Unknown if it, or one that it refers to, holds what no check is made of
   */
  Check compile(String id) {
    return refer(id, "", Use.JUDGING);
  }

  /** What a schema is for: to judge a value, or to choose between two others. */
  enum Use {
    JUDGING,
    CHOOSING
  }

  private Check refer(String id, String pointer, Use use) {
    String name = id + "#" + pointer + " " + use;
    Check.Reference known = references.get(name);
    if (known != null) {
      return known;
    }
    JsonNode file = schemas.get(id);
    JsonNode schema = file == null ? null : file.at(JsonPointer.compile(pointer));
    if (schema == null || schema.isMissingNode()) {
      throw new Unknown("reference to " + name);
    }
    Check.Reference reference = new Check.Reference();
    references.put(name, reference);
    reference.to(new Part(id, use).compile(schema));
    return reference;
  }

  /** Everything inside one file. */
  private final class Part implements TypeChecks.Subschemas {
    private final String id;
    private final Use use;

    Part(String id, Use use) {
      this.id = id;
      this.use = use;
    }

    @Override
    public Check compile(JsonNode schema) {
      if (schema.isBoolean()) {
        return schema.booleanValue() ? Check.ANYTHING : Check.NOTHING;
      }
      refuseUnknown(schema);
      List<Check> checks = new ArrayList<>();
      if (schema.has("$ref")) {
        checks.add(referred(schema.path("$ref").asString()));
      }
      checks.addAll(new TypeChecks(schema, this).checks());
      schema.path("allOf").forEach(branch -> checks.add(compile(branch)));
      if (schema.has("if")) {
        checks.add(choice(schema));
      }
      return checks.isEmpty() ? Check.ANYTHING : Check.all(checks.toArray(Check[]::new));
    }

    @Override
    public Shape shape(String pattern) {
      return shapes.computeIfAbsent(pattern, Shape::of);
    }

    private Check choice(JsonNode schema) {
      Check condition = new Part(id, Use.CHOOSING).compile(schema.path("if"));
      return new Check.Choice(condition, branch(schema, "then"), branch(schema, "else"));
    }

    private Check branch(JsonNode schema, String keyword) {
      return schema.has(keyword) ? compile(schema.path(keyword)) : Check.ANYTHING;
    }

    private Check referred(String target) {
      String[] parts = target.split("#", 2);
      String folder = id.substring(0, id.lastIndexOf('/') + 1);
      String file = parts[0].isEmpty() ? id : folder + parts[0];
      return refer(file, parts.length > 1 ? parts[1] : "", use);
    }

    private void refuseUnknown(JsonNode schema) {
      if (!schema.isObject() || (schema.has("$id") && schema != schemas.get(id))) {
        throw new Unknown("a schema inside another in " + id);
      }
      if (schema.has("type") && !schema.path("type").isString()) {
        throw new Unknown("several types at once in " + id);
      }
      Set<String> ofType = TypeChecks.keywords(schema.path("type").asString(""));
      for (String keyword : schema.propertyNames()) {
        boolean known =
            use == Use.CHOOSING
                ? OF_CONDITIONS.contains(keyword)
                : NO_RULE.contains(keyword)
                    || OF_EVERY_TYPE.contains(keyword)
                    || ofType.contains(keyword);
        if (!known) {
          throw new Unknown("the keyword " + keyword + " in " + id);
        }
      }
    }
  }
}
