package evenside.schemas;

import evenside.schemas.Corpus.Sample;
import evenside.schemas.SchemaParts.Assertion;
import evenside.schemas.SchemaParts.Part;
import evenside.schemas.Sites.Site;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/** Documents with one rule broken each, and schemas with one rule taken out each. */
final class Mutants {

  private final Map<String, JsonNode> schemas;
  private final SchemaParts parts;
  private final Part root;
  private final Sites sites;

  Mutants(String kind) {
    schemas = Publish.schemas(Corpus.FOLDER);
    parts = new SchemaParts(schemas);
    root = Part.root("https://evenside.example/schemas/1.0/" + kind + ".schema.json");
    sites = new Sites(parts, root, examples(kind));
  }

  /** One document of this kind for each assertion that a valid example can break. */
  static List<Sample> broken(String kind) {
    Mutants mutants = new Mutants(kind);
    List<Sample> broken = new ArrayList<>();
    for (Assertion assertion : mutants.assertions()) {
      mutants
          .breaking(assertion)
          .ifPresent(document -> broken.add(new Sample(kind, assertion.toString(), document)));
    }
    return broken;
  }

  Part root() {
    return root;
  }

  /** Everything asserted about a document of this kind, in this file and in those it refers to. */
  List<Assertion> assertions() {
    return parts.reachable(root).stream().flatMap(part -> parts.assertions(part).stream()).toList();
  }

  /** A document that breaks this assertion; none for one that only chooses. */
  Optional<JsonNode> breaking(Assertion assertion) {
    return assertion.part().chooses()
        ? Optional.empty()
        : sites.of(assertion.part()).map(site -> broken(assertion, site));
  }

  private JsonNode broken(Assertion assertion, Site site) {
    JsonNode around = parts.node(assertion.part());
    return Violation.of(assertion, around, site.sample().document(), site.place());
  }

  /** The published definition around a part, where there is one, and its place in the example. */
  Optional<Part> definition(Part part) {
    String[] steps = part.pointer().toString().split("/");
    return steps.length > 2 && steps[1].equals("$defs")
        ? Optional.of(Part.root(part.id()).child("$defs", steps[2]))
        : Optional.empty();
  }

  JsonNode at(Part definition, JsonNode document) {
    return document.at(sites.of(definition).orElseThrow().place());
  }

  /** All schemas, with one assertion taken out of one of them. */
  Map<String, JsonNode> without(Assertion assertion) {
    Map<String, JsonNode> weaker = new LinkedHashMap<>(schemas);
    Part part = assertion.part();
    JsonNode copy = schemas.get(part.id()).deepCopy();
    switch (assertion.name()) {
      case "false" ->
          ((ObjectNode) copy.at(part.pointer().head()))
              .put(part.pointer().last().getMatchingProperty(), true);
      case "required" ->
          ((ArrayNode) copy.at(part.pointer()).path("required"))
              .removeIf(name -> name.asString().equals(assertion.member()));
      default -> ((ObjectNode) copy.at(part.pointer())).remove(assertion.name());
    }
    weaker.put(part.id(), copy);
    return weaker;
  }

  /** The valid examples of a kind, the fullest first. */
  private static List<Sample> examples(String kind) {
    return Corpus.valid().stream()
        .filter(sample -> sample.kind().equals(kind))
        .sorted(Comparator.comparing(sample -> !sample.name().equals("everything")))
        .map(Mutants::asking)
        .toList();
  }

  /**
   * With a key in each empty list of extensions to be understood: the schemas allow one, and the
   * examples hold none, because the service understands none and refuses them.
   */
  private static Sample asking(Sample sample) {
    JsonNode document = sample.document().deepCopy();
    for (JsonNode parent : document.findParents("mustUnderstand")) {
      if (parent.path("mustUnderstand").isEmpty()) {
        ((ArrayNode) parent.path("mustUnderstand")).add("org.example.clinic");
      }
    }
    return new Sample(sample.kind(), sample.name(), document);
  }
}
