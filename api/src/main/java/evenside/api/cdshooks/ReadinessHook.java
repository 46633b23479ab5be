package evenside.api.cdshooks;

import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/** The service on offer, as discovery describes it. */
public final class ReadinessHook {
  /** Its id in paths. */
  public static final String ID = "readiness";

  /** The hook it answers: a clinician opens a patient's record. */
  public static final String HOOK = "patient-view";

  private ReadinessHook() {}

  /** The answer to discovery. Nothing is prefetched: cards come from what is recorded here. */
  public static ObjectNode discovery() {
    ObjectNode json = JsonNodeFactory.instance.objectNode();
    json.putArray("services")
        .addObject()
        .put("hook", HOOK)
        .put("id", ID)
        .put("title", "Readiness after ACL reconstruction")
        .put(
            "description",
            "Shows the newest recorded decision: which published criteria are met, not met or"
                + " undetermined, each with its result and what is asked for.")
        .put(
            "usageRequirements",
            "The patientId must be the subject of a case recorded here; for anyone else the answer"
                + " is 412.");
    return json;
  }
}
