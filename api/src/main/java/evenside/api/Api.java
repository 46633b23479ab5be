package evenside.api;

import static evenside.api.access.Scope.AUDIT_READ;
import static evenside.api.access.Scope.CRITERIA_PUBLISH;
import static evenside.api.access.Scope.DECISIONS_READ;
import static evenside.api.access.Scope.DETERMINATIONS_RECORD;
import static evenside.api.access.Scope.METRICS_READ;
import static evenside.api.access.Scope.RECORDS_WRITE;
import static evenside.api.access.Scope.SUBJECTS_ERASE;
import static evenside.api.http.Route.get;
import static evenside.api.http.Route.post;
import static evenside.api.http.Route.put;

import evenside.api.access.Authentication;
import evenside.api.bulk.BulkResource;
import evenside.api.bulk.JobsResource;
import evenside.api.fhir.Codes;
import evenside.api.fhir.Fhir;
import evenside.api.http.Cursors;
import evenside.api.http.Dispatcher;
import evenside.api.http.Endpoint;
import evenside.api.http.RateLimit;
import evenside.api.http.Route;
import evenside.api.metrics.Metrics;
import evenside.api.resource.AccessTrail;
import evenside.api.resource.BatteriesResource;
import evenside.api.resource.CasesResource;
import evenside.api.resource.CatalogueResource;
import evenside.api.resource.CdsHooksResource;
import evenside.api.resource.ChecksResource;
import evenside.api.resource.CohortResource;
import evenside.api.resource.CriteriaSetsResource;
import evenside.api.resource.DecisionsResource;
import evenside.api.resource.DeterminationsResource;
import evenside.api.resource.DocsResource;
import evenside.api.resource.ErasuresResource;
import evenside.api.resource.EvidenceResource;
import evenside.api.resource.FhirResource;
import evenside.api.resource.Html;
import evenside.api.resource.LedgerResource;
import evenside.api.resource.OperationsResource;
import evenside.api.resource.PagedLists;
import evenside.api.resource.PlansResource;
import evenside.api.resource.RecoveryResource;
import evenside.api.resource.SchemasResource;
import evenside.api.resource.SessionsResource;
import evenside.api.resource.SheetsResource;
import evenside.api.server.Front;
import evenside.api.server.Server;
import evenside.api.server.ServerLimits;
import evenside.readiness.Desk;
import evenside.readiness.ReadinessService;
import evenside.schemas.StrictJson.Limits;
import io.javalin.Javalin;
import java.util.List;
import java.util.Optional;

/** The HTTP surface. {@link #routes} is all of it. */
final class Api {
  private static final String METRICS = "/metrics";

  private Api() {}

  /**
   * What the routes need.
   *
   * @param service the use cases
   * @param cursors writes and reads the cursors of paged lists
   * @param authentication tells who calls, and so whose records are served
   * @param exchange how other systems are spoken to
   * @param operations how it is watched and held within limits
   */
  record Dependencies(
      ReadinessService service,
      Cursors cursors,
      Authentication authentication,
      Exchange exchange,
      Operations operations) {
    /** With every default of running it and of what other systems are told. */
    Dependencies(ReadinessService service, Cursors cursors, Authentication authentication) {
      this(service, cursors, authentication, Exchange.DEFAULT, Operations.of(service));
    }
  }

  /**
   * How other systems are spoken to.
   *
   * @param snomed whether FHIR documents carry SNOMED CT codes, for which a licence is needed
   * @param publicUrl address of the service in links; empty takes the Host header
   */
  record Exchange(boolean snomed, Optional<String> publicUrl) {
    /** Local codes and those of LOINC; links by the Host header. */
    static final Exchange DEFAULT = new Exchange(false, Optional.empty());
  }

  /** The application on this machine alone, not yet started. */
  static Javalin create(Dependencies dependencies) {
    return create(dependencies, Front.LOOPBACK);
  }

  /** The application, not yet started. */
  static Javalin create(Dependencies dependencies, Front front) {
    Operations operations = dependencies.operations();
    List<Route> routes =
        routes(dependencies).stream()
            .filter(route -> !(operations.metricsApart() && route.path().equals(METRICS)))
            .toList();
    return create(dependencies.authentication(), operations, routes, front);
  }

  static Javalin create(
      Authentication authentication, Operations operations, List<Route> routes, Front front) {
    Dispatcher dispatcher =
        new Dispatcher(authentication, operations.rateLimit(), Limits.REQUEST.maxBytes(), routes);
    return Server.create(
        dispatcher, front, operations.limits(), operations.draining(), operations::count);
  }

  /** What is served on the management port, for anyone who reaches it; not yet started. */
  static Javalin createManagement(Dependencies with) {
    OperationsResource operations = with.operations().resource(with.service());
    List<Route> routes =
        List.of(
            get("/livez", operations::live).openToAnyone(),
            get("/readyz", operations::ready).openToAnyone(),
            get(METRICS, operations::metrics).openToAnyone().producing(Metrics.TEXT));
    Dispatcher dispatcher = new Dispatcher(Authentication.none(""), RateLimit.NONE, 0, routes);
    return Server.create(
        dispatcher,
        Front.LOOPBACK,
        ServerLimits.DEFAULT,
        with.operations().draining(),
        request -> {});
  }

  /** Every route there is. */
  static List<Route> routes(Dependencies with) {
    ReadinessService service = with.service();
    Desk desk = service.desk();
    String version = desk.contract().schemaVersion();
    PagedLists lists = new PagedLists(with.cursors());
    SchemasResource schemas = new SchemasResource(desk.contract());
    CatalogueResource catalogue = new CatalogueResource(desk);
    CriteriaSetsResource criteriaSets = new CriteriaSetsResource(service.criteriaSets(), version);
    ChecksResource checks = new ChecksResource(desk);
    CasesResource cases = new CasesResource(service.cases(), version);
    BatteriesResource batteries =
        new BatteriesResource(service.batteries(), service.corrections(), lists, version);
    AccessTrail accesses = new AccessTrail(service.trail());
    DecisionsResource decisions =
        new DecisionsResource(service.decisions(), accesses, lists, version);
    EvidenceResource evidence =
        new EvidenceResource(service.evidence(), service.replays(), accesses, version);
    DeterminationsResource determinations =
        new DeterminationsResource(service.determinations(), version);
    ErasuresResource erasures = new ErasuresResource(service.erasures(), lists, version);
    LedgerResource ledger = new LedgerResource(service.ledger(), service.trail(), lists, version);
    RecoveryResource recovery = new RecoveryResource(service.recovery(), version);
    PlansResource plans = new PlansResource(service.plans(), lists, version);
    CohortResource cohort = new CohortResource(service.cohorts(), version);
    SessionsResource sessions = new SessionsResource(service.sessions(), lists, version);
    BulkResource bulk = new BulkResource(service);
    JobsResource jobs = new JobsResource(service);
    OperationsResource operations = with.operations().resource(service);
    SheetsResource sheets = new SheetsResource(service, accesses);
    Codes codes = new Codes(desk.contract(), with.exchange().snomed());
    FhirResource fhir = new FhirResource(service, accesses, codes);
    CdsHooksResource hooks = new CdsHooksResource(service, accesses, with.exchange().publicUrl());
    DocsResource docs = new DocsResource(service, ProgramVersion.text());
    return List.of(
        get("/v1/schemas", schemas::list).openToAnyone(),
        get("/v1/schemas.zip", schemas::archive).openToAnyone().producing(SchemasResource.ZIP),
        get("/v1/schemas/{version}/{kind}", schemas::one)
            .openToAnyone()
            .producing(SchemasResource.MEDIA_TYPE),
        get("/v1/measures", catalogue::measures).openToAnyone(),
        get("/v1/measures/{code}", catalogue::measure).openToAnyone(),
        get("/v1/criteria-sets", criteriaSets::list)
            .needing(DECISIONS_READ, AUDIT_READ, CRITERIA_PUBLISH),
        post("/v1/criteria-sets", criteriaSets::publish).needing(CRITERIA_PUBLISH),
        get("/v1/criteria-sets/{id}/{version}", criteriaSets::get)
            .also(Fhir.MEDIA_TYPE, fhir::criteriaSet)
            .needing(DECISIONS_READ, AUDIT_READ, CRITERIA_PUBLISH),
        get("/v1/progressions", catalogue::progressions).openToAnyone(),
        get("/v1/progressions/{id}/{version}", catalogue::progression).openToAnyone(),
        get("/v1/exercises", catalogue::exercises).openToAnyone(),
        post("/v1/checks/{kind}", checks::check).openToAnyone(),
        post("/v1/assessments", checks::assess).needing(RECORDS_WRITE, DECISIONS_READ),
        put("/v1/cases/{caseId}", cases::put).needing(RECORDS_WRITE),
        get("/v1/cases/{caseId}", cases::get).needing(RECORDS_WRITE, DECISIONS_READ, AUDIT_READ),
        post("/v1/cases/{caseId}/batteries", batteries::add).needing(RECORDS_WRITE),
        get("/v1/cases/{caseId}/batteries", batteries::list)
            .needing(RECORDS_WRITE, DECISIONS_READ, AUDIT_READ)
            .taking(PagedLists.parameters()),
        get("/v1/batteries/{batteryId}", batteries::get)
            .also(Fhir.MEDIA_TYPE, fhir::battery)
            .needing(RECORDS_WRITE, DECISIONS_READ, AUDIT_READ)
            .taking(BatteriesResource.parameters()),
        post("/v1/cases/{caseId}/sessions", sessions::add).needing(RECORDS_WRITE),
        get("/v1/cases/{caseId}/sessions", sessions::list)
            .needing(RECORDS_WRITE, DECISIONS_READ, AUDIT_READ)
            .taking(PagedLists.parameters()),
        get("/v1/sessions/{sessionId}", sessions::get)
            .also(Fhir.MEDIA_TYPE, fhir::session)
            .needing(RECORDS_WRITE, DECISIONS_READ, AUDIT_READ),
        get("/v1/cases/{caseId}/advice", sessions::advice)
            .needing(DECISIONS_READ, AUDIT_READ)
            .taking(SessionsResource.parameters()),
        post("/v1/cases/{caseId}/decisions", decisions::decide).needing(RECORDS_WRITE),
        get("/v1/cases/{caseId}/decisions", decisions::list)
            .needing(DECISIONS_READ, AUDIT_READ)
            .taking(PagedLists.parameters()),
        get("/v1/batteries/{batteryId}/corrections", batteries::corrections)
            .needing(RECORDS_WRITE, DECISIONS_READ, AUDIT_READ),
        get("/v1/decisions", decisions::search)
            .needing(DECISIONS_READ, AUDIT_READ)
            .producing(Route.JSON, PagedLists.LINES)
            .taking(DecisionsResource.parameters()),
        get("/v1/decisions/{decisionId}", decisions::get)
            .also(Html.MEDIA_TYPE, sheets::decision)
            .also(SheetsResource.PDF, sheets::decisionPdf)
            .also(Fhir.MEDIA_TYPE, fhir::decision)
            .needing(DECISIONS_READ, AUDIT_READ),
        get("/v1/cases/{caseId}/progress", recovery::progress)
            .needing(DECISIONS_READ, AUDIT_READ)
            .also(Html.MEDIA_TYPE, sheets::progress)
            .also(SheetsResource.PDF, sheets::progressPdf)
            .taking(RecoveryResource.parameters()),
        get("/v1/cases/{caseId}/plan", recovery::plan)
            .also(Fhir.MEDIA_TYPE, fhir::proposal)
            .needing(DECISIONS_READ, AUDIT_READ)
            .taking(RecoveryResource.parameters()),
        get("/v1/cases/{caseId}/milestones", recovery::milestones)
            .needing(DECISIONS_READ, AUDIT_READ)
            .taking(RecoveryResource.overviewParameters()),
        post("/v1/cases/{caseId}/plans", plans::adopt).needing(RECORDS_WRITE),
        get("/v1/cases/{caseId}/plans", plans::list)
            .needing(DECISIONS_READ, AUDIT_READ)
            .taking(PagedLists.parameters()),
        get("/v1/plans/{planId}", plans::get)
            .also(Fhir.MEDIA_TYPE, fhir::plan)
            .needing(DECISIONS_READ, AUDIT_READ),
        get("/v1/plans/{planId}/adherence", plans::adherence)
            .needing(DECISIONS_READ, AUDIT_READ)
            .taking(PlansResource.adherenceParameters()),
        get("/v1/cohort", cohort::get)
            .needing(DECISIONS_READ, AUDIT_READ)
            .also(Html.MEDIA_TYPE, sheets::cohort)
            .also(SheetsResource.PDF, sheets::cohortPdf)
            .taking(CohortResource.parameters()),
        get("/v1/decisions/{decisionId}/evidence", evidence::bundle)
            .needing(AUDIT_READ)
            .taking(EvidenceResource.parameters()),
        get("/v1/decisions/{decisionId}/evidence.tlog-proof", evidence::proof)
            .needing(AUDIT_READ)
            .producing(EvidenceResource.TEXT),
        post("/v1/decisions/{decisionId}/replays", evidence::replay).needing(AUDIT_READ),
        post("/v1/decisions/{decisionId}/what-if", evidence::whatIf)
            .needing(DECISIONS_READ, AUDIT_READ),
        get("/v1/decisions/{decisionId}/changes", evidence::changes)
            .needing(DECISIONS_READ, AUDIT_READ)
            .taking(EvidenceResource.parameters()),
        post("/v1/decisions/{decisionId}/determinations", determinations::add)
            .needing(DETERMINATIONS_RECORD),
        get("/v1/decisions/{decisionId}/determinations", determinations::list)
            .needing(DECISIONS_READ, AUDIT_READ),
        get("/v1/determinations/{determinationId}", determinations::get)
            .also(Fhir.MEDIA_TYPE, fhir::determination)
            .needing(DECISIONS_READ, AUDIT_READ),
        post("/v1/erasures", erasures::erase).needing(SUBJECTS_ERASE),
        get("/v1/erasures", erasures::list)
            .needing(AUDIT_READ, SUBJECTS_ERASE)
            .taking(PagedLists.parameters()),
        get("/v1/erasures/{erasureId}", erasures::get).needing(AUDIT_READ, SUBJECTS_ERASE),
        get("/v1/accesses", ledger::accesses)
            .needing(AUDIT_READ)
            .taking(LedgerResource.accessParameters()),
        get("/v1/ledger/checkpoint", ledger::checkpoint)
            .needing(AUDIT_READ)
            .producing(EvidenceResource.TEXT),
        get("/v1/ledger/keys", ledger::keys).needing(AUDIT_READ),
        get("/v1/ledger/consistency", ledger::consistency)
            .needing(AUDIT_READ)
            .taking(LedgerResource.consistencyParameters()),
        get("/v1/ledger/entries", ledger::entries)
            .needing(AUDIT_READ)
            .producing(LedgerResource.BYTES)
            .taking(LedgerResource.entriesParameters()),
        post("/v1/cases/{caseId}/fhir-observations", fhir::takeObservations)
            .accepting(Fhir.MEDIA_TYPE)
            .needing(RECORDS_WRITE),
        get("/v1/fhir/CodeSystem", fhir::codeSystems).producing(Fhir.MEDIA_TYPE).openToAnyone(),
        get("/v1/fhir/CodeSystem/{id}", fhir::codeSystem).producing(Fhir.MEDIA_TYPE).openToAnyone(),
        get("/v1/fhir/{type}/{id}", fhir::one)
            .producing(Fhir.MEDIA_TYPE)
            .needing(DECISIONS_READ, AUDIT_READ),
        get("/cds-services", hooks::discover).openToAnyone(),
        post("/cds-services/{id}", hooks::call).needing(DECISIONS_READ),
        post("/v1/bulk", bulk::add)
            .accepting(PagedLists.LINES)
            .producing(PagedLists.LINES)
            .needing(RECORDS_WRITE, DETERMINATIONS_RECORD),
        get("/v1/jobs/{jobId}", jobs::get).needing(RECORDS_WRITE, DETERMINATIONS_RECORD),
        get("/v1/jobs/{jobId}/results", jobs::results)
            .producing(PagedLists.LINES)
            .needing(RECORDS_WRITE, DETERMINATIONS_RECORD),
        get("/livez", operations::live).openToAnyone(),
        get("/readyz", operations::ready).openToAnyone(),
        get(METRICS, operations::metrics).needing(METRICS_READ).producing(Metrics.TEXT),
        get("/openapi.yaml", operations::openApi).openToAnyone().producing(OperationsResource.YAML),
        get("/problems/{slug}", operations::problem)
            .openToAnyone()
            .also(Html.MEDIA_TYPE, operations::problemPage),
        page("/", docs::home),
        page("/docs", docs::index),
        page("/docs/problems", docs::problems),
        page("/docs/measures", docs::measures),
        page("/docs/measures/{code}", docs::measure),
        page("/docs/criteria-sets/{id}/{version}", docs::criteriaSet),
        page("/docs/progressions/{id}/{version}", docs::progression),
        page("/docs/schemas/{version}/{kind}", docs::schema),
        page("/docs/api", docs::api),
        page("/docs/guide", docs::guide),
        page("/docs/changes", docs::changes),
        get("/docs/assets/{name}", docs::asset)
            .openToAnyone()
            .producing("text/css", "image/svg+xml"));
  }

  /** A page of documentation. */
  private static Route page(String path, Endpoint endpoint) {
    return get(path, endpoint).openToAnyone().producing(Html.MEDIA_TYPE);
  }
}
