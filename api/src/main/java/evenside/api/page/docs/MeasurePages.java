package evenside.api.page.docs;

import static evenside.api.page.Texts.text;

import evenside.api.page.Figures;
import evenside.api.page.Texts;
import evenside.api.page.docs.Article.Cell;
import evenside.api.page.docs.Article.Fact;
import evenside.api.page.docs.Article.Section;
import evenside.api.page.docs.Article.Table;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import tools.jackson.databind.JsonNode;

/** The catalogue of measures, and each measure, as pages. */
public final class MeasurePages {
  private MeasurePages() {}

  /** All of them, by family. */
  public static Article all(JsonNode catalogue) {
    Map<String, List<List<Cell>>> families = new LinkedHashMap<>();
    for (JsonNode measure : catalogue.path("measures")) {
      String code = measure.path("code").asString();
      families
          .computeIfAbsent(measure.path("family").asString(), family -> new ArrayList<>())
          .add(
              List.of(
                  Cell.link(measure.path("title").asString(), "/docs/measures/" + code),
                  Cell.code(code),
                  Cell.of(unit(measure)),
                  Cell.of(text("progress.better." + measure.path("better").asString("neither")))));
    }
    List<String> headings =
        List.of(text("docs.measure"), text("docs.code"), text("docs.unit"), text("docs.direction"));
    List<Section> sections = new ArrayList<>();
    families.forEach(
        (family, rows) ->
            sections.add(Section.of(family, words(family), new Table(headings, rows))));
    return new Article(
        text("docs.catalogue"),
        text("docs.measures"),
        text("docs.measures.lead"),
        "measures",
        sections);
  }

  /** One of them, with its published errors and sources. */
  public static Article one(JsonNode measure) {
    String code = measure.path("code").asString();
    List<Section> sections = new ArrayList<>();
    JsonNode plausible = measure.path("plausible");
    sections.add(
        new Section(
            "test",
            text("docs.tested"),
            List.of(measure.path("protocol").asString(""), measure.path("note").asString("")),
            List.of(
                Fact.of(text("docs.unit"), unit(measure)),
                Fact.of(
                    text("docs.direction"),
                    text("progress.better." + measure.path("better").asString("neither"))),
                Fact.of(
                    text("docs.plausible"),
                    text(
                        "decision.low-high",
                        Figures.value(plausible.path("min")),
                        Figures.value(plausible.path("max")) + Figures.unit(unitCode(measure)))),
                Fact.document(code, "/v1/measures/" + code)),
            Table.NONE,
            ""));
    sections.add(Section.of("errors", text("docs.errors"), errors(measure)));
    sections.add(Section.of("sources", text("docs.sources"), citations(measure.path("citations"))));
    sections.add(
        Section.of("example", text("docs.example"), List.of())
            .with(measure.path("example").toPrettyString()));
    return new Article(
        text("docs.measure"),
        measure.path("title").asString(),
        "`" + code + "`",
        "measures",
        sections);
  }

  private static Table errors(JsonNode measure) {
    List<List<Cell>> rows = new ArrayList<>();
    for (JsonNode error : measure.path("measurementErrors")) {
      String aspect = error.path("aspect").asString("");
      rows.add(
          List.of(
              Cell.of(Texts.known("aspect", aspect).replace('-', ' ')),
              Cell.of(spread(error)),
              Cell.of(error.path("population").asString("")),
              Cell.of(error.path("note").asString(""))));
    }
    return new Table(
        List.of(
            text("docs.aspect"), text("docs.error"), text("docs.population"), text("docs.notes")),
        rows);
  }

  private static String spread(JsonNode error) {
    JsonNode sem = error.path("sem");
    JsonNode change = error.path("mdc");
    String unit = Figures.unit(error.path("unit").asString(""));
    List<String> words = new ArrayList<>();
    if (!sem.isMissingNode()) {
      words.add(text("docs.sem", number(sem) + unit));
    }
    if (!change.isMissingNode()) {
      words.add(text("docs.mdc", number(change) + unit));
    }
    return String.join(", ", words);
  }

  private static String number(JsonNode number) {
    return Figures.number(number.path("value").asDouble(number.asDouble(0)));
  }

  private static Table citations(JsonNode citations) {
    List<List<Cell>> rows = new ArrayList<>();
    for (JsonNode source : citations) {
      rows.add(List.of(Cell.of(Sources.entry(source)), Cell.of(source.path("read").asString(""))));
    }
    return new Table(List.of(text("docs.source"), text("docs.read")), rows);
  }

  private static String unitCode(JsonNode measure) {
    return measure.path("unit").asString("");
  }

  private static String unit(JsonNode measure) {
    String unit = Figures.unit(unitCode(measure)).strip().replace("\u00a0", "");
    return unit.isEmpty() ? text("docs.no-unit") : unit;
  }

  private static String words(String family) {
    String spaced = family.replaceAll("([A-Z])", " $1").toLowerCase(java.util.Locale.ROOT);
    return spaced.substring(0, 1).toUpperCase(java.util.Locale.ROOT) + spaced.substring(1);
  }
}
