package evenside.api.resource;

import evenside.api.cdshooks.DecisionCard;
import evenside.api.cdshooks.HookRequest;
import evenside.api.cdshooks.ReadinessHook;
import evenside.api.http.Cache;
import evenside.api.http.Call;
import evenside.api.http.Reply;
import evenside.api.problem.Problem;
import evenside.api.problem.ProblemType;
import evenside.api.problem.Problems;
import evenside.readiness.ReadinessService;
import evenside.readiness.recording.Page;
import evenside.store.DecisionFilter;
import java.util.Optional;
import tools.jackson.databind.JsonNode;

/** CDS Hooks: what is on offer, and a card from the newest recorded decision of a patient. */
public final class CdsHooksResource {
  private final ReadinessService service;
  private final AccessTrail accesses;
  private final Optional<String> publicUrl;

  /**
   * Over the use cases.
   *
   * @param publicUrl address of the service in links; empty takes the Host header
   */
  public CdsHooksResource(
      ReadinessService service, AccessTrail accesses, Optional<String> publicUrl) {
    this.service = service;
    this.accesses = accesses;
    this.publicUrl = publicUrl.map(url -> url.replaceFirst("/+$", ""));
  }

  /** What is on offer. */
  public Reply discover(Call call) {
    return Reply.of(ReadinessHook.discovery()).cached(Cache.NONE);
  }

  /** Answers a hook. */
  public Reply call(Call call) {
    if (!call.id("id").equals(ReadinessHook.ID)) {
      throw Problems.NOTHING_HERE.asException();
    }
    String patient = HookRequest.read(call.json()).patientId();
    DecisionFilter ofPatient =
        DecisionFilter.ALL.about(Optional.of(patient), Optional.empty(), Optional.empty());
    Page page = service.decisions().search(call.clinic(), ofPatient, Optional.empty(), 1);
    if (page.items().isEmpty()) {
      return nothing(call, patient);
    }
    JsonNode decision = Trees.of(page.items().get(0));
    accesses.note(call, "card", page.ids());
    boolean corrected =
        !Corrected.batteries(service.corrections(), call.clinic(), decision).isEmpty();
    return Reply.of(DecisionCard.of(decision, corrected, address(call))).cached(Cache.NONE);
  }

  /** A known patient without a decision has no card; of an unknown one nothing can be said. */
  private Reply nothing(Call call, String patient) {
    if (!service.cases().knows(call.clinic(), patient)) {
      throw Problem.of(
              ProblemType.NOTHING_TO_ANSWER_FROM, "No case recorded here is about this patient.")
          .asException();
    }
    return Reply.of(DecisionCard.none()).cached(Cache.NONE);
  }

  private String address(Call call) {
    return publicUrl.orElseGet(() -> "http://" + String.join("", call.header("Host")));
  }
}
