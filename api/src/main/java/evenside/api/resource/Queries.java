package evenside.api.resource;

import evenside.api.http.Call;
import evenside.readiness.Cohorts;
import evenside.readiness.recovery.Wanted;
import evenside.store.cohort.CohortFilter;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.regex.Pattern;

/** Reads what a question about a case or a cohort asks for. */
final class Queries {
  private static final Pattern CODE = Pattern.compile("[a-z0-9][a-z0-9-]{1,63}");
  private static final Pattern CRITERIA_SET =
      Pattern.compile("[a-z0-9][a-z0-9-]{1,63}/[0-9][0-9.]{0,15}");
  private static final List<String> SEXES = List.of("female", "male", "not-stated");
  private static final int OLDEST = 120;

  private Queries() {}

  static Wanted wanted(Call call) {
    return new Wanted(
        Parameters.matching(call, "milestone", CODE, "the code of a milestone"),
        Parameters.matching(
            call, "criteriaSet", CRITERIA_SET, "an id and a version joined by a slash"),
        Parameters.date(call, "asOf"));
  }

  static Cohorts.Asked cohort(Call call) {
    Optional<LocalDate> from = Parameters.date(call, "from");
    Optional<LocalDate> to = Parameters.date(call, "to");
    inOrder("to", from, to);
    return new Cohorts.Asked(wanted(call), from, to, cases(call));
  }

  private static CohortFilter cases(Call call) {
    Optional<LocalDate> from = Parameters.date(call, "surgeryFrom");
    Optional<LocalDate> to = Parameters.date(call, "surgeryTo");
    inOrder("surgeryTo", from, to);
    return new CohortFilter(
        Parameters.oneOf(call, "sex", SEXES),
        Parameters.matching(call, "graft", CODE, "the code of a graft"),
        age(call, "ageFrom"),
        age(call, "ageTo"),
        from,
        to);
  }

  private static Optional<Integer> age(Call call, String name) {
    return call.query(name).map(any -> Parameters.number(call, name, 0, OLDEST, 0));
  }

  private static void inOrder(String name, Optional<LocalDate> from, Optional<LocalDate> to) {
    if (from.isPresent() && to.isPresent() && to.get().isBefore(from.get())) {
      throw Parameters.bad(name, "a date that is not before " + from.get());
    }
  }
}
