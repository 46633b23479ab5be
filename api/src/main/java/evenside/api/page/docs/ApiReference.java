package evenside.api.page.docs;

import static evenside.api.page.Texts.text;

import evenside.api.page.docs.Article.Cell;
import evenside.api.page.docs.Article.Fact;
import evenside.api.page.docs.Article.Section;
import evenside.api.page.docs.Article.Table;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import tools.jackson.databind.JsonNode;

/**
 * The API description as a page of our own: one section per operation, no script, nothing loaded
 * from elsewhere.
 */
public final class ApiReference {
  private final JsonNode api;

  /** Over the parsed {@code openapi.yaml}. */
  public ApiReference(JsonNode api) {
    this.api = api;
  }

  /** The page. */
  public Article article() {
    Map<String, List<Section>> byTag = new LinkedHashMap<>();
    List<List<Cell>> overview = new ArrayList<>();
    api.path("tags").forEach(tag -> byTag.put(tag.path("name").asString(), new ArrayList<>()));
    for (String path : api.path("paths").propertyNames()) {
      for (String method : api.path("paths").path(path).propertyNames()) {
        JsonNode operation = api.path("paths").path(path).path(method);
        String tag = operation.path("tags").path(0).asString("");
        byTag.computeIfAbsent(tag, key -> new ArrayList<>()).add(section(path, method, operation));
      }
    }
    List<Section> sections = new ArrayList<>();
    byTag.values().forEach(sections::addAll);
    for (Section section : sections) {
      overview.add(
          List.of(
              Cell.link(section.heading(), "#" + section.id()),
              Cell.of(section.texts().isEmpty() ? "" : section.texts().get(0))));
    }
    sections.add(
        0,
        Section.of(
            "operations",
            text("api.operations"),
            new Table(List.of(text("api.operation"), text("docs.about")), overview)));
    return new Article(
        text("api.kicker", api.path("info").path("version").asString("")),
        text("docs.api"),
        text("api.lead"),
        "api",
        sections);
  }

  private Section section(String path, String method, JsonNode operation) {
    List<String> texts = new ArrayList<>();
    texts.add(operation.path("summary").asString("") + ".");
    if (operation.has("description")) {
      texts.add(operation.path("description").asString().strip());
    }
    List<Fact> facts = new ArrayList<>();
    facts.add(Fact.of(text("api.id"), "`" + operation.path("operationId").asString() + "`"));
    String scopes = scopes(operation.path("security"));
    if (!scopes.isEmpty()) {
      facts.add(Fact.of(text("api.scopes"), scopes));
    }
    String body = bodies(operation.path("requestBody").path("content"));
    if (!body.isEmpty()) {
      facts.add(Fact.of(text("api.body"), body));
    }
    for (String status : operation.path("responses").propertyNames()) {
      JsonNode response = resolve(operation.path("responses").path(status));
      String content = bodies(response.path("content"));
      String about = response.path("description").asString("").strip();
      facts.add(Fact.of(status, content.isEmpty() ? about : text("api.answer", about, content)));
    }
    return new Section(
        operation.path("operationId").asString(),
        method.toUpperCase(Locale.ROOT) + " " + path,
        texts,
        facts,
        parameters(operation.path("parameters")),
        "");
  }

  private Table parameters(JsonNode parameters) {
    List<List<Cell>> rows = new ArrayList<>();
    for (JsonNode one : parameters) {
      JsonNode parameter = resolve(one);
      rows.add(
          List.of(
              Cell.code(parameter.path("name").asString()),
              Cell.of(parameter.path("in").asString()),
              Cell.of(text(parameter.path("required").asBoolean(false) ? "value.yes" : "value.no")),
              Cell.of(parameter.path("description").asString("").strip()),
              Cell.code(parameter.path("example").asString(""))));
    }
    return new Table(
        List.of(
            text("api.parameter"),
            text("api.in"),
            text("docs.needed"),
            text("docs.about"),
            text("docs.example")),
        rows);
  }

  /** Media types with the schema of each. */
  private static String bodies(JsonNode content) {
    List<String> bodies = new ArrayList<>();
    for (String mediaType : content.propertyNames()) {
      String reference = content.path(mediaType).path("schema").path("$ref").asString("");
      String schema = reference.replaceFirst(".*/", "");
      bodies.add("`" + mediaType + "`" + (schema.isEmpty() ? "" : " " + schema));
    }
    return String.join(", ", bodies);
  }

  private static String scopes(JsonNode security) {
    List<String> scopes = new ArrayList<>();
    for (JsonNode one : security) {
      for (String scheme : one.propertyNames()) {
        one.path(scheme).forEach(scope -> scopes.add("`" + scope.asString() + "`"));
      }
    }
    return String.join(", ", scopes.stream().distinct().toList());
  }

  private JsonNode resolve(JsonNode node) {
    String reference = node.path("$ref").asString("");
    return reference.isEmpty() ? node : api.at(reference.substring(1));
  }
}
