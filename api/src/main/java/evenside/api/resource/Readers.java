package evenside.api.resource;

import evenside.readiness.Trail;
import java.util.List;

/** Notes who read which decision, before the answer leaves. */
public final class Readers {
  /** Who reads while the service asks for no credentials. */
  private static final String LOCAL = "local";

  private final Trail trail;

  /** Into a trail. */
  public Readers(Trail trail) {
    this.trail = trail;
  }

  void note(String clinic, String action, String decisionId) {
    note(clinic, action, List.of(decisionId));
  }

  void note(String clinic, String action, List<String> decisionIds) {
    trail.note(clinic, LOCAL, action, decisionIds);
  }
}
