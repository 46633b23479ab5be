package evenside.api.resource;

import evenside.api.http.Cache;
import evenside.api.http.Call;
import evenside.api.http.Reply;
import evenside.readiness.Cohorts;

/** The clinic's own numbers over its cases. */
public final class CohortResource {
  private final Cohorts cohorts;
  private final String schemaVersion;

  /** Over the use cases. */
  public CohortResource(Cohorts cohorts, String schemaVersion) {
    this.cohorts = cohorts;
    this.schemaVersion = schemaVersion;
  }

  /** The query parameters. */
  public static String[] parameters() {
    return new String[] {
      "milestone",
      "criteriaSet",
      "from",
      "to",
      "sex",
      "graft",
      "ageFrom",
      "ageTo",
      "surgeryFrom",
      "surgeryTo"
    };
  }

  /** Counts. */
  public Reply get(Call call) {
    return Reply.ofPassing(cohorts.of(call.clinic(), Queries.cohort(call)))
        .cached(Cache.NONE)
        .describedBy(schemaVersion, "cohort");
  }
}
