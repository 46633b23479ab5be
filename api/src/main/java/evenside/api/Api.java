package evenside.api;

import static evenside.api.http.Route.get;
import static evenside.api.http.Route.post;
import static evenside.api.http.Route.put;

import evenside.api.http.Cursors;
import evenside.api.http.Dispatcher;
import evenside.api.http.Route;
import evenside.api.http.Server;
import evenside.api.resource.BatteriesResource;
import evenside.api.resource.CasesResource;
import evenside.api.resource.CatalogueResource;
import evenside.api.resource.ChecksResource;
import evenside.api.resource.CohortResource;
import evenside.api.resource.CriteriaSetsResource;
import evenside.api.resource.DecisionsResource;
import evenside.api.resource.DeterminationsResource;
import evenside.api.resource.ErasuresResource;
import evenside.api.resource.EvidenceResource;
import evenside.api.resource.LedgerResource;
import evenside.api.resource.OperationsResource;
import evenside.api.resource.Pages;
import evenside.api.resource.PlansResource;
import evenside.api.resource.Readers;
import evenside.api.resource.RecoveryResource;
import evenside.api.resource.SchemasResource;
import evenside.api.resource.SessionsResource;
import evenside.readiness.Desk;
import evenside.readiness.ReadinessService;
import evenside.schemas.StrictJson.Limits;
import io.javalin.Javalin;
import java.util.List;

/** The HTTP surface. {@link #routes} is all of it. */
public final class Api {
  private Api() {}

  /**
   * What the routes need.
   *
   * @param service the use cases
   * @param cursors writes and reads the cursors of paged lists
   * @param clinic whose records are served
   */
  public record Dependencies(ReadinessService service, Cursors cursors, String clinic) {}

  /** The application, not yet started. */
  public static Javalin create(Dependencies dependencies) {
    return create(dependencies.clinic(), routes(dependencies));
  }

  static Javalin create(String clinic, List<Route> routes) {
    return Server.create(new Dispatcher(clinic, Limits.REQUEST.maxBytes(), routes));
  }

  /** Every route there is. */
  static List<Route> routes(Dependencies with) {
    ReadinessService service = with.service();
    Desk desk = service.desk();
    String version = desk.contract().schemaVersion();
    Pages pages = new Pages(with.cursors());
    SchemasResource schemas = new SchemasResource(desk.contract());
    CatalogueResource catalogue = new CatalogueResource(desk);
    CriteriaSetsResource criteriaSets = new CriteriaSetsResource(service.criteriaSets(), version);
    ChecksResource checks = new ChecksResource(desk);
    CasesResource cases = new CasesResource(service.cases(), version);
    BatteriesResource batteries =
        new BatteriesResource(service.batteries(), service.corrections(), pages, version);
    Readers readers = new Readers(service.trail());
    DecisionsResource decisions =
        new DecisionsResource(service.decisions(), readers, pages, version);
    EvidenceResource evidence =
        new EvidenceResource(service.evidence(), service.replays(), readers, version);
    DeterminationsResource determinations =
        new DeterminationsResource(service.determinations(), version);
    ErasuresResource erasures = new ErasuresResource(service.erasures(), pages, version);
    LedgerResource ledger = new LedgerResource(service.ledger(), service.trail(), pages, version);
    RecoveryResource recovery = new RecoveryResource(service.recovery(), version);
    PlansResource plans = new PlansResource(service.plans(), pages, version);
    CohortResource cohort = new CohortResource(service.cohorts(), version);
    SessionsResource sessions = new SessionsResource(service.sessions(), pages, version);
    OperationsResource operations = new OperationsResource(service);
    return List.of(
        get("/v1/schemas", schemas::list),
        get("/v1/schemas.zip", schemas::archive).producing(SchemasResource.ZIP),
        get("/v1/schemas/{version}/{kind}", schemas::one).producing(SchemasResource.MEDIA_TYPE),
        get("/v1/measures", catalogue::measures),
        get("/v1/measures/{code}", catalogue::measure),
        get("/v1/criteria-sets", criteriaSets::list),
        post("/v1/criteria-sets", criteriaSets::publish),
        get("/v1/criteria-sets/{id}/{version}", criteriaSets::get),
        get("/v1/progressions", catalogue::progressions),
        get("/v1/progressions/{id}/{version}", catalogue::progression),
        get("/v1/exercises", catalogue::exercises),
        post("/v1/checks/{kind}", checks::check),
        post("/v1/assessments", checks::assess),
        put("/v1/cases/{caseId}", cases::put),
        get("/v1/cases/{caseId}", cases::get),
        post("/v1/cases/{caseId}/batteries", batteries::add),
        get("/v1/cases/{caseId}/batteries", batteries::list).taking(Pages.parameters()),
        get("/v1/batteries/{batteryId}", batteries::get).taking(BatteriesResource.parameters()),
        post("/v1/cases/{caseId}/sessions", sessions::add),
        get("/v1/cases/{caseId}/sessions", sessions::list).taking(Pages.parameters()),
        get("/v1/sessions/{sessionId}", sessions::get),
        get("/v1/cases/{caseId}/advice", sessions::advice).taking(SessionsResource.parameters()),
        post("/v1/cases/{caseId}/decisions", decisions::decide),
        get("/v1/cases/{caseId}/decisions", decisions::list).taking(Pages.parameters()),
        get("/v1/batteries/{batteryId}/corrections", batteries::corrections),
        get("/v1/decisions", decisions::search)
            .producing(Route.JSON, Pages.LINES)
            .taking(DecisionsResource.parameters()),
        get("/v1/decisions/{decisionId}", decisions::get),
        get("/v1/cases/{caseId}/progress", recovery::progress)
            .taking(RecoveryResource.parameters()),
        get("/v1/cases/{caseId}/plan", recovery::plan).taking(RecoveryResource.parameters()),
        get("/v1/cases/{caseId}/milestones", recovery::milestones)
            .taking(RecoveryResource.overviewParameters()),
        post("/v1/cases/{caseId}/plans", plans::adopt),
        get("/v1/cases/{caseId}/plans", plans::list).taking(Pages.parameters()),
        get("/v1/plans/{planId}", plans::get),
        get("/v1/plans/{planId}/adherence", plans::adherence)
            .taking(PlansResource.adherenceParameters()),
        get("/v1/cohort", cohort::get).taking(CohortResource.parameters()),
        get("/v1/decisions/{decisionId}/evidence", evidence::bundle)
            .taking(EvidenceResource.parameters()),
        get("/v1/decisions/{decisionId}/evidence.tlog-proof", evidence::proof)
            .producing(EvidenceResource.TEXT),
        post("/v1/decisions/{decisionId}/replays", evidence::replay),
        post("/v1/decisions/{decisionId}/what-if", evidence::whatIf),
        get("/v1/decisions/{decisionId}/changes", evidence::changes)
            .taking(EvidenceResource.parameters()),
        post("/v1/decisions/{decisionId}/determinations", determinations::add),
        get("/v1/decisions/{decisionId}/determinations", determinations::list),
        get("/v1/determinations/{determinationId}", determinations::get),
        post("/v1/erasures", erasures::erase),
        get("/v1/erasures", erasures::list).taking(Pages.parameters()),
        get("/v1/erasures/{erasureId}", erasures::get),
        get("/v1/accesses", ledger::accesses).taking(LedgerResource.accessParameters()),
        get("/v1/ledger/checkpoint", ledger::checkpoint).producing(EvidenceResource.TEXT),
        get("/v1/ledger/keys", ledger::keys),
        get("/v1/ledger/consistency", ledger::consistency)
            .taking(LedgerResource.consistencyParameters()),
        get("/v1/ledger/entries", ledger::entries)
            .producing(LedgerResource.BYTES)
            .taking(LedgerResource.entriesParameters()),
        get("/livez", operations::live),
        get("/readyz", operations::ready),
        get("/openapi.yaml", operations::openApi).producing(OperationsResource.YAML),
        get("/problems/{slug}", operations::problem)
            .producing(Route.JSON, OperationsResource.HTML));
  }
}
