package evenside.api.access;

import java.util.Arrays;
import java.util.Optional;
import java.util.stream.Stream;

/** One thing that a client may be allowed to do. A route names those of which one suffices. */
public enum Scope {
  /** Record cases, batteries, sessions, plans and decisions. */
  RECORDS_WRITE("records:write"),
  /** Read decisions and the recovery of the clinic's own cases. */
  DECISIONS_READ("decisions:read"),
  /** Read everything that proves a decision, and who read; never write. */
  AUDIT_READ("audit:read"),
  /** Publish criteria sets of the clinic. */
  CRITERIA_PUBLISH("criteria:publish"),
  /** Record what a clinician said on a decision. */
  DETERMINATIONS_RECORD("determinations:record"),
  /** Erase a case for good. */
  SUBJECTS_ERASE("subjects:erase"),
  /** Issue and revoke the keys of the clinic's clients; no route takes it yet. */
  KEYS_MANAGE("keys:manage"),
  /** Read the numbers of the service, which tell nothing about a clinic. */
  METRICS_READ("metrics:read");

  private final String wireName;

  Scope(String wireName) {
    this.wireName = wireName;
  }

  /** The name in tokens, settings and the API description, for example {@code records:write}. */
  public String wireName() {
    return wireName;
  }

  /** The scope of this name. */
  public static Optional<Scope> of(String wireName) {
    return Stream.of(values()).filter(scope -> scope.wireName.equals(wireName)).findFirst();
  }

  /** All names, as one text for messages. */
  public static String names() {
    return String.join(", ", Arrays.stream(values()).map(Scope::wireName).toList());
  }
}
