package evenside.api.page.docs;

import static evenside.api.page.Texts.text;

import evenside.api.page.Figures;
import evenside.api.page.Terms;
import evenside.api.page.Tests;
import evenside.api.page.Texts;
import evenside.api.page.docs.Article.Cell;
import evenside.api.page.docs.Article.Fact;
import evenside.api.page.docs.Article.Section;
import evenside.api.page.docs.Article.Table;
import java.util.ArrayList;
import java.util.List;
import java.util.StringJoiner;
import java.util.stream.Stream;
import tools.jackson.databind.JsonNode;

/** A published criteria set as a page. */
public final class CriteriaSetPage {
  private final Terms terms;
  private final Sources sources;

  /** With the names of codes and the sources. */
  public CriteriaSetPage(Terms terms, Sources sources) {
    this.terms = terms;
    this.sources = sources;
  }

  /** The page of a set. */
  public Article of(JsonNode set) {
    String name = Index.name(set);
    List<Section> sections = new ArrayList<>();
    sections.add(
        Section.about(
            Fact.of(text("docs.milestone"), terms.milestone(set.path("milestone").asString())),
            Fact.of(text("docs.population"), set.path("population").asString("")),
            Fact.of(text("docs.source"), sources.cite(set.path("source"))),
            Fact.document(name, "/v1/criteria-sets/" + name)));
    sections.add(
        Section.of("criteria", text("docs.criteria"), table(Stream.of(set.path("criteria")))));
    sections.add(
        Section.of(
            "informative",
            text("decision.informative"),
            table(set.path("informative").valueStream())));
    sections.add(Section.of("effects", text("docs.effects"), effects(set.path("effects"))));
    sections.add(Section.notes(set.path("notes")));
    return new Article(
        text("docs.set.kicker", set.path("version").asString()),
        set.path("title").asString(),
        set.path("designedFor").asString(""),
        "docs",
        sections);
  }

  private List<String> effects(JsonNode effects) {
    return effects
        .valueStream()
        .map(one -> one.path("text").asString() + " " + sources.cite(one.path("citation")) + ".")
        .toList();
  }

  private Table table(Stream<JsonNode> criteria) {
    List<List<Cell>> rows = new ArrayList<>();
    criteria.forEach(one -> rows(one, "", rows));
    return new Table(
        List.of(
            text("decision.column.criterion"),
            text("decision.column.asked"),
            text("docs.tested"),
            text("docs.source")),
        rows);
  }

  private void rows(JsonNode criterion, String group, List<List<Cell>> into) {
    if (criterion.has("of")) {
      String name =
          criterion.path("type").asString().equals("all")
              ? group
              : criterion.path("title").asString();
      criterion.path("of").forEach(one -> rows(one, name, into));
      return;
    }
    String title = criterion.path("title").asString();
    into.add(
        List.of(
            Cell.of(group.isEmpty() ? title : text("docs.in-group", title, group)),
            Cell.of(bound(criterion)),
            tested(criterion),
            Cell.of(source(criterion))));
  }

  private static String bound(JsonNode criterion) {
    JsonNode bound = criterion.path("bound");
    if (bound.isMissingNode()) {
      return Figures.value(criterion.path("expected"));
    }
    String value =
        bound.isNumber()
            ? Figures.quantity(bound.asDouble(), criterion.path("unit").asString(""))
            : Figures.value(bound);
    String comparator = criterion.path("comparator").asString("");
    return comparator.isEmpty() ? value : text("comparator." + comparator, value);
  }

  private Cell tested(JsonNode criterion) {
    String measure = criterion.path("measure").asString("");
    if (measure.isEmpty()) {
      return Cell.of("");
    }
    StringJoiner words = new StringJoiner(", ");
    words.add(terms.measure(measure));
    if (criterion.has("aspect")) {
      words.add(Texts.known("aspect", criterion.path("aspect").asString()).replace('-', ' '));
    }
    String way = Tests.way(criterion.path("protocol"), "");
    if (!way.isEmpty()) {
      words.add(way);
    }
    return Cell.link(words.toString(), "/docs/measures/" + measure);
  }

  private String source(JsonNode criterion) {
    StringJoiner words = new StringJoiner(". ");
    words.add(sources.cite(criterion.path("citation")));
    if (!criterion.path("verified").asBoolean(true)) {
      words.add(text("decision.bound-unverified"));
    }
    if (criterion.has("note")) {
      words.add(criterion.path("note").asString());
    }
    return words.toString().replace("..", ".");
  }
}
