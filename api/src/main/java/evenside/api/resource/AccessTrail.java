package evenside.api.resource;

import evenside.api.http.Call;
import evenside.readiness.audit.Trail;
import java.util.List;

/** Notes which client read which decision, before the answer leaves. */
public final class AccessTrail {
  private final Trail trail;

  /** Into a trail. */
  public AccessTrail(Trail trail) {
    this.trail = trail;
  }

  void note(Call call, String action, String decisionId) {
    note(call, action, List.of(decisionId));
  }

  void note(Call call, String action, List<String> decisionIds) {
    trail.note(call.clinic(), call.caller().client(), action, decisionIds);
  }
}
