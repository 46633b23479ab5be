package evenside.api.page.progress;

import static evenside.api.page.Texts.text;

import evenside.api.drawing.Mark;
import evenside.api.page.Figures;
import evenside.api.page.Terms;
import evenside.api.page.Texts;
import java.util.List;
import tools.jackson.databind.JsonNode;

/**
 * How one milestone stands by one set.
 *
 * @param milestone the milestone
 * @param set name and version of the set
 * @param outcome in words
 * @param mark the same as a mark
 * @param open criteria that are not met or undetermined
 */
public record MilestoneOutlook(
    String milestone, String set, String outcome, Mark mark, List<Open> open) {
  /**
   * A criterion that is not met or undetermined.
   *
   * @param title what is asked
   * @param outcome in words
   * @param mark the same as a mark
   * @param when when it may be met, or why nothing can be said
   */
  public record Open(String title, String outcome, Mark mark, String when) {}

  /** Keeps its own copy. */
  public MilestoneOutlook {
    open = List.copyOf(open);
  }

  static MilestoneOutlook of(JsonNode outlook, Terms terms) {
    String outcome = outlook.path("outcome").asString();
    JsonNode set = outlook.path("criteriaSet");
    return new MilestoneOutlook(
        terms.milestone(outlook.path("milestone").asString()),
        set.path("id").asString() + "/" + set.path("version").asString(),
        Texts.known("outcome", outcome),
        Mark.of(outcome),
        outlook.path("criteria").valueStream().map(MilestoneOutlook::open).toList());
  }

  private static Open open(JsonNode criterion) {
    String outcome = criterion.path("outcome").asString();
    return new Open(
        criterion.path("title").asString(),
        Texts.known("outcome", outcome),
        Mark.of(outcome),
        when(criterion));
  }

  private static String when(JsonNode criterion) {
    if (!criterion.has("date")) {
      String why = criterion.path("refused").path("text").asString("");
      return text("progress.no-date", Figures.withDays(why));
    }
    String day = Figures.day(criterion.path("date").asString());
    if (criterion.path("certain").asBoolean(false)) {
      return text("progress.calendar", day);
    }
    JsonNode line = criterion.path("line");
    String earliest = Figures.day(line.path("earliest").asString(""));
    String latest =
        line.has("latest")
            ? Figures.day(line.path("latest").asString())
            : text("progress.open-end", Figures.day(criterion.path("notBeyond").asString("")));
    return text("progress.date", day, earliest, latest);
  }
}
