package evenside.api.page.docs;

import static evenside.api.page.Texts.text;

import evenside.api.page.Figures;
import evenside.api.page.Texts;
import evenside.api.page.docs.Article.Cell;
import evenside.api.page.docs.Article.Fact;
import evenside.api.page.docs.Article.Section;
import evenside.api.page.docs.Article.Table;
import java.util.ArrayList;
import java.util.List;
import java.util.StringJoiner;
import tools.jackson.databind.JsonNode;

/** A published progression as a page. */
public final class ProgressionPage {
  private final Sources sources;

  /** With the sources. */
  public ProgressionPage(Sources sources) {
    this.sources = sources;
  }

  /** The page of a progression. */
  public Article of(JsonNode progression) {
    String name = Index.name(progression);
    List<Section> sections = new ArrayList<>();
    sections.add(
        Section.about(
            Fact.of(text("docs.applies"), progression.path("appliesTo").asString("")),
            Fact.of(text("docs.source"), sources.cite(progression.path("citation"))),
            Fact.of(text("docs.mark"), mark(progression)),
            Fact.document(name, "/v1/progressions/" + name)));
    sections.add(Section.of("rules", text("docs.rules"), rules(progression.path("rules"))));
    sections.add(Section.of("levels", text("docs.levels"), levels(progression.path("levels"))));
    sections.add(
        Section.of(
            "hints",
            text("docs.hints"),
            progression
                .path("hints")
                .valueStream()
                .map(one -> text("docs.marked", one.path("text").asString(), mark(one)))
                .toList()));
    sections.add(Section.notes(progression.path("notes")));
    return new Article(
        text("docs.progression.kicker", progression.path("version").asString()),
        progression.path("title").asString(),
        progression.path("basis").asString(""),
        "docs",
        sections);
  }

  private Table rules(JsonNode rules) {
    List<List<Cell>> rows = new ArrayList<>();
    for (JsonNode rule : rules) {
      String note = rule.has("note") ? " " + rule.path("note").asString() : "";
      rows.add(
          List.of(
              Cell.of(Texts.known("advice", rule.path("outcome").asString())),
              Cell.of(when(rule.path("when"))),
              Cell.of(rule.path("text").asString("")),
              Cell.of(sources.cite(rule.path("citation")) + " (" + mark(rule) + ")" + note)));
    }
    return new Table(
        List.of(text("docs.advice"), text("docs.when"), text("docs.says"), text("docs.source")),
        rows);
  }

  /** Conditions in words: all of a line, or all of another. */
  private static String when(JsonNode when) {
    StringJoiner any = new StringJoiner("; " + text("docs.or") + " ");
    for (JsonNode alternative : when) {
      StringJoiner all = new StringJoiner(", ");
      for (JsonNode one : alternative.path("all")) {
        all.add(condition(one));
      }
      any.add(all.toString());
    }
    return any.toString();
  }

  private static String condition(JsonNode one) {
    String input = one.path("input").asString().replace('-', ' ');
    String value = Figures.value(one.path("value"));
    String key = "comparator." + one.path("is").asString("");
    return input + " " + (Texts.has(key) ? text(key, value) : value);
  }

  private static Table levels(JsonNode levels) {
    List<List<Cell>> rows = new ArrayList<>();
    for (JsonNode level : levels) {
      rows.add(
          List.of(
              Cell.of(level.path("level").asString()), Cell.of(level.path("title").asString(""))));
    }
    return new Table(List.of(text("docs.level"), text("docs.work")), rows);
  }

  private static String mark(JsonNode marked) {
    return Texts.known("mark", marked.path("mark").asString("")).replace('-', ' ');
  }
}
