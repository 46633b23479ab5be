package evenside.store.cohort;

import evenside.store.cohort.CohortFilter.Decided;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.statement.Query;

/**
 * Counts people. Each case is looked up in indexes that hold all that is asked, so the cost grows
 * with the cases of the cohort and not with their records, and no document is read. Valid inside
 * the transaction only.
 */
public final class CohortSearch {
  /** The newest decision of a case; null for none. The order is that of an index. */
  private static final String NEWEST_DECISION =
      """
      (select d.id from decision d
       where d.clinic = c.clinic and d.case_id = c.case_id and d.criteria_set = :criteria_set
         and d.criteria_version = :criteria_version and d.as_of >= :from_date
         and d.as_of <= :to_date
       order by d.clinic, d.case_id, d.criteria_set, d.criteria_version, d.as_of desc,
         d.decided_at desc, d.id desc
       limit 1)
      """;

  /** The newest determination of a decision. */
  private static final String NEWEST_DETERMINATION =
      """
      (select t.id from determination t
       where t.clinic = n.clinic and t.decision_id = n.decision_id
       order by t.clinic, t.decision_id, t.determined_at desc, t.id desc
       limit 1)
      """;

  private final Handle handle;
  private final String clinic;
  private final CohortFilter cohort;

  /** Works in the transaction of the handle. */
  public CohortSearch(Handle handle, String clinic, CohortFilter cohort) {
    this.handle = handle;
    this.clinic = clinic;
    this.cohort = cohort;
  }

  /**
   * How many cases the cohort holds.
   *
   * @return the number
   */
  public int enrolled() {
    return query("select count(*) from " + members()).mapTo(Integer.class).one();
  }

  /**
   * What the newest decisions found.
   *
   * @param decided which decision of each case
   * @return people per criterion and outcome
   */
  public List<FindingCount> findings(Decided decided) {
    String sql =
        """
        select f.findings, count(*) as people
        from (select c.clinic, %s as decision_id from %s) n
        join found f on f.clinic = n.clinic and f.decision_id = n.decision_id
        group by f.findings
        """
            .formatted(NEWEST_DECISION, members());
    Map<FindingRow, Integer> people = new LinkedHashMap<>();
    decided(sql, decided)
        .map((row, context) -> Map.entry(row.getString("findings"), row.getInt("people")))
        .forEach(
            found ->
                FindingRow.parse(found.getKey())
                    .forEach(row -> people.merge(row, found.getValue(), Integer::sum)));
    return people.entrySet().stream()
        .map(count -> new FindingCount(count.getKey(), count.getValue()))
        .toList();
  }

  /**
   * What clinicians determined on the newest decisions, by their newest statement.
   *
   * @param decided which decision of each case
   * @return people per statement
   */
  public List<DeterminationCount> determinations(Decided decided) {
    String sql =
        """
        select t.statement, t.differs, count(*) as people
        from (select n.clinic, %s as determination_id
              from (select c.clinic, %s as decision_id from %s) n) m
        join determination t on t.clinic = m.clinic and t.id = m.determination_id
        group by t.statement, t.differs
        order by t.statement, t.differs
        """
            .formatted(NEWEST_DETERMINATION, NEWEST_DECISION, members());
    return decided(sql, decided)
        .map(
            (row, context) ->
                new DeterminationCount(
                    row.getString("statement"), row.getBoolean("differs"), row.getInt("people")))
        .list();
  }

  /**
   * How long the cases were followed, and when they first met a milestone.
   *
   * @param milestone the milestone
   * @return one for each case, in no order
   */
  public List<Course> courses(String milestone) {
    String sql =
        """
        select c.surgery_date,
          (select d.as_of from decision d
           where d.clinic = c.clinic and d.case_id = c.case_id and d.milestone = :milestone
             and d.outcome = 'met'
           order by d.clinic, d.case_id, d.milestone, d.outcome, d.as_of
           limit 1) as first_met,
          (select b.performed_at from battery b
           where b.clinic = c.clinic and b.case_id = c.case_id
           order by b.clinic, b.case_id, b.performed_at desc, b.id desc
           limit 1) as last_tested
        from %s
        """
            .formatted(members());
    return query(sql)
        .bind("milestone", milestone)
        .map(
            (row, context) ->
                new Course(
                    row.getObject("surgery_date", LocalDate.class),
                    Optional.ofNullable(row.getObject("first_met", LocalDate.class)),
                    Optional.ofNullable(row.getObject("last_tested", OffsetDateTime.class))
                        .map(OffsetDateTime::toInstant)))
        .list();
  }

  /** The newest facts of the cases asked for. */
  private String members() {
    StringBuilder sql =
        new StringBuilder(
            """
            case_facts c where c.clinic = :clinic and not exists (
              select 1 from case_facts later where later.clinic = c.clinic
                and later.case_id = c.case_id and later.revision > c.revision)
            """);
    cohort.sex().ifPresent(any -> sql.append(" and c.sex = :sex"));
    cohort.graft().ifPresent(any -> sql.append(" and c.graft = :graft"));
    String age = " and extract(year from c.surgery_date) - c.birth_year";
    cohort.ageFrom().ifPresent(any -> sql.append(age).append(" >= :age_from"));
    cohort.ageTo().ifPresent(any -> sql.append(age).append(" <= :age_to"));
    cohort.surgeryFrom().ifPresent(any -> sql.append(" and c.surgery_date >= :surgery_from"));
    cohort.surgeryTo().ifPresent(any -> sql.append(" and c.surgery_date <= :surgery_to"));
    return sql.toString();
  }

  private Query decided(String sql, Decided decided) {
    return query(sql)
        .bind("criteria_set", decided.criteriaSet())
        .bind("criteria_version", decided.criteriaVersion())
        .bind("from_date", decided.from())
        .bind("to_date", decided.to());
  }

  private Query query(String sql) {
    Query query = handle.createQuery(sql).bind("clinic", clinic);
    cohort.sex().ifPresent(sex -> query.bind("sex", sex));
    cohort.graft().ifPresent(graft -> query.bind("graft", graft));
    cohort.ageFrom().ifPresent(age -> query.bind("age_from", age));
    cohort.ageTo().ifPresent(age -> query.bind("age_to", age));
    cohort.surgeryFrom().ifPresent(day -> query.bind("surgery_from", day));
    cohort.surgeryTo().ifPresent(day -> query.bind("surgery_to", day));
    return query;
  }
}
