package evenside.api.page.progress;

import static evenside.api.page.Texts.text;

import evenside.api.page.Figures;
import evenside.api.page.Terms;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.List;
import tools.jackson.databind.JsonNode;

/**
 * The recovery of one knee on one sheet.
 *
 * @param caseId the case
 * @param asOf the day it is for, in words
 * @param since how long after surgery that is, in words
 * @param milestones how each milestone stands and when it may be met
 * @param series numbers over time
 * @param assumptions what the numbers rest on
 */
public record ProgressSheet(
    String caseId,
    String asOf,
    String since,
    List<MilestoneOutlook> milestones,
    List<Series> series,
    List<String> assumptions) {
  /** Keeps its own copies. */
  public ProgressSheet {
    milestones = List.copyOf(milestones);
    series = List.copyOf(series);
    assumptions = List.copyOf(assumptions);
  }

  /**
   * The sheet of a progress.
   *
   * @param progress the computed document
   * @param sets the criteria sets that its outlooks name
   * @param terms names of codes
   */
  public static ProgressSheet of(JsonNode progress, List<JsonNode> sets, Terms terms) {
    LocalDate surgery = LocalDate.parse(progress.path("surgeryDate").asString());
    LocalDate asOf = LocalDate.parse(progress.path("asOf").asString());
    Bounds bounds = Bounds.of(sets, progress.path("outlooks"), surgery);
    return new ProgressSheet(
        progress.path("caseId").asString(),
        Figures.day(asOf.toString()),
        text("progress.since", ChronoUnit.WEEKS.between(surgery, asOf)),
        progress
            .path("outlooks")
            .valueStream()
            .map(one -> MilestoneOutlook.of(one, terms))
            .toList(),
        progress.path("series").valueStream().map(one -> SeriesReader.read(one, bounds)).toList(),
        progress.path("assumptions").valueStream().map(JsonNode::asString).toList());
  }
}
