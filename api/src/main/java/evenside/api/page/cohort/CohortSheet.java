package evenside.api.page.cohort;

import static evenside.api.page.Texts.text;

import evenside.api.drawing.Drawing;
import evenside.api.drawing.Shares;
import evenside.api.page.Figures;
import evenside.api.page.Terms;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.StringJoiner;
import tools.jackson.databind.JsonNode;

/**
 * A clinic's own numbers on one sheet. A count that is hidden is said to be hidden.
 *
 * @param milestone the milestone of the set
 * @param span the dates, in words
 * @param smallestCell fewest people a count shows
 * @param filter which cases, in words; empty for all
 * @param facts counts by name
 * @param rows the set as a whole, then its criteria
 * @param blocking what keeps most people from meeting it
 * @param determinations what clinicians said, by name
 * @param times days to each milestone
 * @param definitions how the numbers are made
 */
public record CohortSheet(
    String milestone,
    String span,
    String smallestCell,
    String filter,
    List<Named> facts,
    List<Row> rows,
    List<String> blocking,
    List<Named> determinations,
    List<Time> times,
    List<String> definitions) {
  /** The first date there is, where none was asked for. */
  private static final String EVER = "1900-01-01";

  /** A name and a number in words. */
  public record Named(String name, String value) {}

  /** One criterion: its counts in words and its share, drawn if it is shown. */
  public record Row(
      String title,
      String met,
      String notMet,
      String undetermined,
      String share,
      Optional<Drawing> drawing) {}

  /** One milestone: counts and median in words. */
  public record Time(String milestone, String met, String censored, String median) {}

  /** Keeps its own copies. */
  public CohortSheet {
    facts = List.copyOf(facts);
    rows = List.copyOf(rows);
    blocking = List.copyOf(blocking);
    determinations = List.copyOf(determinations);
    times = List.copyOf(times);
    definitions = List.copyOf(definitions);
  }

  /** The sheet of a computed cohort. */
  public static CohortSheet of(JsonNode cohort, Terms terms) {
    List<Row> rows = new ArrayList<>();
    rows.add(row(cohort.path("overall"), text("cohort.overall")));
    cohort.path("criteria").forEach(one -> rows.add(row(one, title(one))));
    JsonNode set = cohort.path("criteriaSet");
    JsonNode said = cohort.path("determinations");
    return new CohortSheet(
        terms.milestone(cohort.path("milestone").asString()),
        span(cohort.path("from").asString(""), Figures.day(cohort.path("to").asString(""))),
        cohort.path("smallestCell").asString(),
        filter(cohort.path("filter")),
        List.of(
            new Named(
                text("cohort.set"),
                set.path("id").asString() + "/" + set.path("version").asString()),
            new Named(text("cohort.enrolled"), count(cohort.path("enrolled"))),
            new Named(text("cohort.decided"), count(cohort.path("decided")))),
        rows,
        cohort.path("blocking").valueStream().map(CohortSheet::blocking).toList(),
        List.of(
            new Named(text("cohort.determined"), count(said.path("determined"))),
            new Named(text("cohort.agreeing"), count(said.path("agreeing"))),
            new Named(text("cohort.cleared-not-met"), count(said.path("clearedNotMet"))),
            new Named(text("cohort.otherwise"), count(said.path("otherwiseDiffering")))),
        cohort.path("timeToMilestone").valueStream().map(one -> time(one, terms)).toList(),
        cohort.path("definitions").valueStream().map(JsonNode::asString).toList());
  }

  private static String span(String from, String to) {
    return from.equals(EVER)
        ? text("cohort.kicker.all", to)
        : text("cohort.kicker", Figures.day(from), to);
  }

  private static String title(JsonNode criterion) {
    String title = criterion.path("title").asString();
    return criterion.path("required").asBoolean(true) ? title : text("cohort.informative", title);
  }

  private static Row row(JsonNode counts, String title) {
    JsonNode share = counts.path("ofTested");
    boolean shown = share.path("percent").isNumber();
    double percent = share.path("percent").asDouble(0);
    double low = share.path("low").asDouble(0);
    double high = share.path("high").asDouble(0);
    return new Row(
        title,
        count(counts.path("met")),
        count(counts.path("notMet")),
        count(counts.path("undetermined")),
        shown
            ? text(
                "cohort.share", Figures.number(percent), Figures.number(low), Figures.number(high))
            : text("cohort.hidden"),
        shown ? Optional.of(Shares.draw(percent, low, high)) : Optional.empty());
  }

  private static String count(JsonNode count) {
    return count.isNumber() ? count.asString() : text("cohort.hidden");
  }

  private static String blocking(JsonNode one) {
    String title = one.path("title").asString();
    return one.path("alone").isNumber()
        ? text("cohort.blocking.alone", title, count(one.path("notMet")), count(one.path("alone")))
        : text("cohort.blocking.line", title, count(one.path("notMet")));
  }

  private static Time time(JsonNode one, Terms terms) {
    String median = text("cohort.median.none");
    if (one.path("suppressed").asBoolean(false)) {
      median = text("cohort.hidden");
    } else if (one.has("low") && one.has("high")) {
      median =
          text(
              "cohort.median.interval",
              one.path("medianDays").asString(),
              one.path("low").asString(),
              one.path("high").asString());
    } else if (one.has("medianDays")) {
      median = text("cohort.median", one.path("medianDays").asString());
    }
    return new Time(
        terms.milestone(one.path("milestone").asString()),
        count(one.path("met")),
        count(one.path("censored")),
        median);
  }

  private static String filter(JsonNode filter) {
    StringJoiner words = new StringJoiner(", ");
    filter.propertyNames().forEach(name -> words.add(name + " " + filter.path(name).asString("")));
    return words.length() == 0 ? "" : text("cohort.filter", words);
  }
}
