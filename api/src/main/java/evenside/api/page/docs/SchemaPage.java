package evenside.api.page.docs;

import static evenside.api.page.Texts.text;

import evenside.api.page.docs.Article.Cell;
import evenside.api.page.docs.Article.Fact;
import evenside.api.page.docs.Article.Section;
import evenside.api.page.docs.Article.Table;
import java.util.ArrayList;
import java.util.List;
import java.util.StringJoiner;
import tools.jackson.databind.JsonNode;

/** A published schema as a page: its members by path, with what they mean. */
public final class SchemaPage {
  private final String version;

  /** Pages of this version of the schemas. */
  public SchemaPage(String version) {
    this.version = version;
  }

  /**
   * The page of a schema.
   *
   * @param kind kind of document
   * @param schema its schema
   */
  public Article of(String kind, JsonNode schema) {
    List<Section> sections = new ArrayList<>();
    String place = "/v1/schemas/" + version + "/" + kind;
    sections.add(
        Section.about(
            Fact.of(text("docs.kind"), "`" + kind + "`"),
            Fact.of(text("docs.id"), "`" + schema.path("$id").asString("") + "`"),
            Fact.document(place, place)));
    sections.add(Section.of("members", text("docs.members"), members(schema)));
    for (String name : schema.path("$defs").propertyNames()) {
      JsonNode part = schema.path("$defs").path(name);
      Section section = Section.of(name, name, members(part));
      sections.add(
          section.empty() || part.has("description")
              ? new Section(
                  name,
                  part.path("title").asString(name),
                  List.of(part.path("description").asString("")),
                  List.of(),
                  members(part),
                  "")
              : section);
    }
    return new Article(
        text("docs.schema.kicker", version),
        schema.path("title").asString(kind),
        schema.path("description").asString(""),
        "docs",
        sections);
  }

  private Table members(JsonNode schema) {
    List<List<Cell>> rows = new ArrayList<>();
    collect("", schema, rows);
    return new Table(
        List.of(text("docs.member"), text("docs.type"), text("docs.needed"), text("docs.about")),
        rows);
  }

  private void collect(String at, JsonNode schema, List<List<Cell>> into) {
    JsonNode properties = schema.path("properties");
    for (String name : properties.propertyNames()) {
      JsonNode member = properties.path(name);
      boolean required =
          schema.path("required").valueStream().anyMatch(one -> one.asString().equals(name));
      into.add(
          List.of(
              Cell.code(at + name),
              type(member),
              Cell.of(text(required ? "value.yes" : "value.no")),
              Cell.of(about(member))));
      collect(at + name + ".", member, into);
      collect(at + name + "[].", member.path("items"), into);
    }
  }

  private static Cell type(JsonNode member) {
    if (member.has("enum")) {
      StringJoiner values = new StringJoiner(" | ");
      member.path("enum").forEach(value -> values.add(value.asString()));
      return Cell.code(values.toString());
    }
    if (member.has("const")) {
      return Cell.code(member.path("const").asString());
    }
    if (member.has("$ref")) {
      String reference = member.path("$ref").asString();
      return Cell.of(reference.replaceFirst(".*/", ""));
    }
    JsonNode item = member.path("items");
    String type = member.path("type").asString("");
    if (item.has("$ref")) {
      return Cell.of(text("docs.list-of", item.path("$ref").asString().replaceFirst(".*/", "")));
    }
    return Cell.of(type);
  }

  private static String about(JsonNode member) {
    return member.path("description").asString("");
  }
}
