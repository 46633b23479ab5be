package evenside.api.fhir;

import java.util.Optional;
import java.util.Set;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * How a member of ours stands in an Observation, and back: a quantity, a yes/no, a count, one of
 * our own words as a code, a word of the sender's as text.
 */
final class Members {
  /** Members that stand elsewhere in an Observation than in a component. */
  private static final Set<String> ELSEWHERE =
      Set.of(
          "measure",
          "instrument",
          "side",
          "unit",
          "device",
          "trials",
          "value",
          "grade",
          "scores",
          "responses",
          "reason");

  private final Codes codes;

  Members(Codes codes) {
    this.codes = codes;
  }

  /** Adds a component for every member that says how a result was obtained. */
  void describe(ObjectNode observation, JsonNode result) {
    ArrayNode components = observation.withArray("component");
    for (var member : result.properties()) {
      if (!ELSEWHERE.contains(member.getKey())) {
        components.add(component("member", member.getKey(), member.getKey(), member.getValue()));
      }
    }
    if (components.isEmpty()) {
      observation.remove("component");
    }
  }

  /**
   * One member as a component.
   *
   * @param group group of terms that names the member
   * @param name the member
   * @param values group of terms that has the words it can hold
   */
  ObjectNode component(String group, String name, String values, JsonNode value) {
    ObjectNode component = Fhir.object();
    component.set("code", codes.term(group, name));
    put(component, value, values);
    return component;
  }

  /** Sets {@code value[x]}. */
  void put(ObjectNode into, JsonNode value, String values) {
    if (value.isObject()) {
      into.set("valueQuantity", Fhir.quantity(value));
    } else if (value.isBoolean()) {
      into.put("valueBoolean", value.booleanValue());
    } else if (value.isNumber()) {
      putNumber(into, value);
    } else if (codes.hasTerm(values, value.asString())) {
      into.set("valueCodeableConcept", codes.term(values, value.asString()));
    } else {
      into.put("valueString", value.asString());
    }
  }

  /** Counts are integers; what is no whole number is a score without a unit of its own. */
  private static void putNumber(ObjectNode into, JsonNode value) {
    if (value.decimalValue().stripTrailingZeros().scale() <= 0) {
      into.put("valueInteger", value.decimalValue().intValueExact());
    } else {
      into.set("valueQuantity", Fhir.quantity(value, "{score}"));
    }
  }

  /** Why there is no value. */
  ObjectNode absent(String use) {
    return codes.external(use);
  }

  /** The value of a component in our form; empty if it has none that we could hold. */
  Optional<JsonNode> read(JsonNode component, String name) {
    if (component.has("valueQuantity")) {
      JsonNode quantity = component.path("valueQuantity");
      ObjectNode ours = Fhir.object();
      ours.set("value", quantity.path("value"));
      return Optional.of(ours.set("unit", quantity.path("code")));
    }
    for (String plain : Set.of("valueBoolean", "valueInteger", "valueString")) {
      if (component.has(plain)) {
        return Optional.of(component.path(plain));
      }
    }
    return codedAs(component.path("valueCodeableConcept"), name)
        .map(tools.jackson.databind.node.StringNode::valueOf);
  }

  /** The value of a group of terms that a concept stands for. */
  Optional<String> codedAs(JsonNode concept, String group) {
    for (JsonNode coding : concept.path("coding")) {
      Optional<String> meaning =
          codes
              .meaning(coding.path("system").asString(""), coding.path("code").asString(""))
              .filter(found -> found.startsWith(group + "."));
      if (meaning.isPresent()) {
        return meaning.map(found -> found.substring(group.length() + 1));
      }
    }
    return Optional.empty();
  }
}
