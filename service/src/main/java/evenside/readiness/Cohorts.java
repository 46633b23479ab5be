package evenside.readiness;

import evenside.cohort.CohortNumbers;
import evenside.cohort.Determined;
import evenside.cohort.SurvivalCurve;
import evenside.cohort.SurvivalCurve.Followed;
import evenside.cohort.Tally;
import evenside.criteria.CriteriaSet;
import evenside.criteria.Criterion;
import evenside.criteria.Truth;
import evenside.decision.Milestone;
import evenside.document.CanonicalWriter;
import evenside.document.CohortDocument;
import evenside.document.Document;
import evenside.readiness.recording.Records;
import evenside.readiness.recording.Refusal;
import evenside.readiness.recording.Refused;
import evenside.readiness.recovery.Wanted;
import evenside.store.cohort.CohortFilter;
import evenside.store.cohort.CohortSearch;
import evenside.store.cohort.Course;
import evenside.store.cohort.DeterminationCount;
import evenside.store.cohort.FindingCount;
import evenside.store.cohort.FindingRow;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.time.temporal.ChronoUnit;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** A clinic's own numbers over its cases. */
public final class Cohorts {
  /** Fewest people a shown count may have, unless set otherwise. */
  public static final int SMALLEST_CELL = 5;

  private static final String CLEARED = "cleared";

  private final Records records;
  private final int smallestCell;

  Cohorts(Records records, int smallestCell) {
    if (smallestCell < 1) {
      throw new IllegalArgumentException("smallest cell must be at least 1, got " + smallestCell);
    }
    this.records = records;
    this.smallestCell = smallestCell;
  }

  /**
   * Which decisions of which cases are asked about.
   *
   * @param wanted the milestone or set; its date is not looked at
   * @param from first date decided for; since ever if absent
   * @param to last date decided for; today if absent
   * @param cases which cases are enrolled
   */
  public record Asked(
      Wanted wanted, Optional<LocalDate> from, Optional<LocalDate> to, CohortFilter cases) {}

  /**
   * Pass shares, blocking criteria and times to each milestone.
   *
   * @throws Refused {@link Refusal#INVALID} if there is no such set
   */
  public Document of(String clinic, Asked asked) {
    CriteriaSet set = asked.wanted().set(records, clinic);
    LocalDate from = asked.from().orElse(LocalDate.of(1900, 1, 1));
    LocalDate to =
        asked.to().orElseGet(() -> LocalDate.ofInstant(records.now(), ZoneOffset.ofHours(14)));
    CohortFilter.Decided decided = new CohortFilter.Decided(set.id(), set.version(), from, to);
    CohortNumbers numbers =
        records
            .store()
            .read(reading -> numbers(reading.cohort(clinic, asked.cases()), set, decided));
    return CohortDocument.of(
        new CohortDocument.Asked(
            records.schemaVersion(), set, from, to, json -> filter(json, asked.cases())),
        numbers,
        smallestCell);
  }

  private CohortNumbers numbers(
      CohortSearch search, CriteriaSet set, CohortFilter.Decided decided) {
    List<FindingCount> counts = search.findings(decided);
    Tally overall = tally(FindingRow.WHOLE_SET, set.title(), true, counts);
    List<String> required = set.criteria().leaves().stream().map(Criterion::id).toList();
    List<Tally> criteria =
        set.leaves()
            .map(leaf -> tally(leaf.id(), leaf.title(), required.contains(leaf.id()), counts))
            .toList();
    Map<String, SurvivalCurve> times = new LinkedHashMap<>();
    for (Milestone milestone : records.published().milestones()) {
      List<Course> courses = search.courses(milestone.code());
      times.put(
          milestone.code(), SurvivalCurve.of(courses.stream().map(Cohorts::followed).toList()));
    }
    Determined determined = determined(search.determinations(decided));
    return new CohortNumbers(search.enrolled(), overall, criteria, determined, times);
  }

  private static Determined determined(List<DeterminationCount> counts) {
    int agreeing = 0;
    int cleared = 0;
    int otherwise = 0;
    for (DeterminationCount count : counts) {
      if (!count.differs()) {
        agreeing += count.people();
      } else if (count.statement().equals(CLEARED)) {
        cleared += count.people();
      } else {
        otherwise += count.people();
      }
    }
    return new Determined(agreeing, cleared, otherwise);
  }

  private static Tally tally(
      String criterion, String title, boolean required, List<FindingCount> counts) {
    List<FindingCount> rows =
        counts.stream().filter(count -> count.row().criterion().equals(criterion)).toList();
    return new Tally(
        criterion,
        title,
        required,
        people(rows, Truth.MET.code()),
        people(rows, Truth.NOT_MET.code()),
        people(rows, Truth.UNDETERMINED.code()),
        people(rows, FindingRow.NOT_APPLICABLE),
        rows.stream().filter(count -> count.row().alone()).mapToInt(FindingCount::people).sum());
  }

  private static int people(List<FindingCount> rows, String outcome) {
    return rows.stream()
        .filter(count -> count.row().outcome().equals(outcome))
        .mapToInt(FindingCount::people)
        .sum();
  }

  private static Followed followed(Course course) {
    LocalDate surgery = course.surgeryDate();
    if (course.firstMet().isPresent()) {
      return new Followed(days(surgery, course.firstMet().get()), true);
    }
    LocalDate last =
        course.lastTested().map(at -> LocalDate.ofInstant(at, ZoneOffset.UTC)).orElse(surgery);
    return new Followed(days(surgery, last), false);
  }

  private static int days(LocalDate from, LocalDate to) {
    return (int) Math.max(0, ChronoUnit.DAYS.between(from, to));
  }

  private static void filter(CanonicalWriter json, CohortFilter cases) {
    json.object();
    cases.ageFrom().ifPresent(age -> json.put("ageFrom", age));
    cases.ageTo().ifPresent(age -> json.put("ageTo", age));
    cases.graft().ifPresent(graft -> json.put("graft", graft));
    cases.sex().ifPresent(sex -> json.put("sex", sex));
    cases.surgeryFrom().ifPresent(day -> json.put("surgeryFrom", day));
    cases.surgeryTo().ifPresent(day -> json.put("surgeryTo", day));
    json.end();
  }
}
