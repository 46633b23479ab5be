package evenside.api.resource;

import evenside.api.http.Cache;
import evenside.api.http.Call;
import evenside.api.http.Reply;
import evenside.api.page.Assets;
import evenside.api.page.Templates;
import evenside.api.page.Terms;
import evenside.api.page.cohort.CohortSheet;
import evenside.api.page.decision.DecisionSheet;
import evenside.api.page.progress.ProgressSheet;
import evenside.api.pdf.Pdf;
import evenside.document.Document;
import evenside.ledger.Receipt;
import evenside.readiness.ReadinessService;
import java.util.List;
import java.util.Map;
import java.util.OptionalLong;
import tools.jackson.databind.JsonNode;

/** Decisions, progress and cohort as sheets to be read and printed. */
public final class SheetsResource {
  /** Media type of a sheet to be filed. */
  public static final String PDF = "application/pdf";

  private final ReadinessService service;
  private final AccessTrail accesses;
  private final Terms terms;

  /** Over the use cases. */
  public SheetsResource(ReadinessService service, AccessTrail accesses) {
    this.service = service;
    this.accesses = accesses;
    this.terms = new Terms(service.desk().contract());
  }

  /** A decision. */
  public Reply decision(Call call) {
    String id = Ids.uuid(call, "decisionId");
    Reply reply = Html.reply("decision", decisionSheet(call, id)).cached(Cache.PRIVATE);
    accesses.note(call, "read", id);
    return reply;
  }

  /** A decision as PDF. */
  public Reply decisionPdf(Call call) {
    String id = Ids.uuid(call, "decisionId");
    Reply reply = pdf("decision", decisionSheet(call, id), "decision-" + id).cached(Cache.PRIVATE);
    accesses.note(call, "read", id);
    return reply;
  }

  /** A PDF holds the time it was made at, so it has no tag. */
  private static Reply pdf(String template, Object model, String name) {
    byte[] pdf = Pdf.of(Templates.render(template, model), Assets.styleText());
    return new Reply(200, PDF, pdf, Map.of())
        .with("Content-Disposition", "inline; filename=\"" + name + ".pdf\"");
  }

  /** The course of a case. */
  public Reply progress(Call call) {
    return Html.ofPassing("progress", progressSheet(call)).cached(Cache.NONE);
  }

  /** The course of a case as PDF. */
  public Reply progressPdf(Call call) {
    return pdf("progress", progressSheet(call), "progress").cached(Cache.NONE);
  }

  private ProgressSheet progressSheet(Call call) {
    JsonNode progress =
        Trees.of(
            service.recovery().progress(call.clinic(), Ids.caseId(call), Queries.wanted(call)));
    List<JsonNode> sets =
        progress
            .path("outlooks")
            .valueStream()
            .map(one -> criteriaSet(call.clinic(), one.path("criteriaSet")))
            .toList();
    return ProgressSheet.of(progress, sets, terms);
  }

  private JsonNode criteriaSet(String clinic, JsonNode name) {
    String id = name.path("id").asString();
    return Trees.of(service.criteriaSets().get(clinic, id, name.path("version").asString()));
  }

  /** The clinic's own numbers. */
  public Reply cohort(Call call) {
    return Html.ofPassing("cohort", cohortSheet(call)).cached(Cache.NONE);
  }

  /** The clinic's own numbers as PDF. */
  public Reply cohortPdf(Call call) {
    return pdf("cohort", cohortSheet(call), "cohort").cached(Cache.NONE);
  }

  private CohortSheet cohortSheet(Call call) {
    JsonNode cohort = Trees.of(service.cohorts().of(call.clinic(), Queries.cohort(call)));
    return CohortSheet.of(cohort, terms);
  }

  private DecisionSheet decisionSheet(Call call, String id) {
    Document decision = service.decisions().get(call.clinic(), id);
    OptionalLong entry =
        service.decisions().receipt(call.clinic(), id).stream().mapToLong(Receipt::index).findAny();
    JsonNode json = Trees.of(decision);
    return DecisionSheet.of(
        json,
        decision.sha256(),
        Trees.of(service.determinations().list(call.clinic(), id)),
        Corrected.batteries(service.corrections(), call.clinic(), json),
        entry,
        terms);
  }
}
