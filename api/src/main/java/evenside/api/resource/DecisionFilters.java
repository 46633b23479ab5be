package evenside.api.resource;

import evenside.api.http.Call;
import evenside.store.DecisionFilter;
import java.util.List;
import java.util.Optional;
import java.util.regex.Pattern;

/** Reads the filter of a search for decisions. */
final class DecisionFilters {
  private static final Pattern CASE = Pattern.compile("[A-Za-z0-9][A-Za-z0-9._:-]{0,63}");
  private static final Pattern TOKEN = CASE;
  private static final Pattern CODE = Pattern.compile("[a-z0-9][a-z0-9-]{1,63}");
  private static final Pattern CRITERIA_SET =
      Pattern.compile("[a-z0-9][a-z0-9-]{1,63}(/[0-9][0-9.]{0,15})?");
  private static final List<String> OUTCOMES = List.of("met", "not-met", "undetermined");

  private DecisionFilters() {}

  static DecisionFilter read(Call call) {
    Optional<String> set =
        Parameters.matching(
            call, "criteriaSet", CRITERIA_SET, "an id, or an id and a version joined by a slash");
    return new DecisionFilter(
        Parameters.matching(call, "caseId", CASE, "the id of a case"),
        Parameters.matching(call, "milestone", CODE, "the code of a milestone"),
        set.map(text -> text.split("/", -1)[0]),
        set.filter(text -> text.contains("/")).map(text -> text.split("/", -1)[1]),
        Parameters.oneOf(call, "outcome", OUTCOMES),
        Parameters.instant(call, "from"),
        Parameters.instant(call, "to"),
        Parameters.matching(call, "subject", TOKEN, "the reference of a person"),
        Parameters.matching(call, "clinician", TOKEN, "the reference of a clinician"),
        Parameters.oneOf(call, "differing", List.of("true", "false")).map(Boolean::valueOf));
  }
}
