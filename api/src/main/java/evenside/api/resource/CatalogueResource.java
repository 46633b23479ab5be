package evenside.api.resource;

import evenside.api.http.Cache;
import evenside.api.http.Call;
import evenside.api.http.Reply;
import evenside.readiness.ReadinessService;

/** Measures and criteria sets, as published. */
public final class CatalogueResource {
  private final ReadinessService service;
  private final String schemaVersion;

  /** Over the service. */
  public CatalogueResource(ReadinessService service, String schemaVersion) {
    this.service = service;
    this.schemaVersion = schemaVersion;
  }

  /** Lists the measures. */
  public Reply measures(Call call) {
    return Reply.of(service.measures()).cached(Cache.PUBLIC);
  }

  /** One measure. */
  public Reply measure(Call call) {
    return Reply.of(service.measure(Ids.code(call, "code"))).cached(Cache.PUBLIC);
  }

  /** Lists the criteria sets. */
  public Reply criteriaSets(Call call) {
    return Reply.of(service.criteriaSets()).cached(Cache.PUBLIC);
  }

  /** One version of a criteria set; it never changes. */
  public Reply criteriaSet(Call call) {
    return Reply.of(service.criteriaSet(Ids.code(call, "id"), Ids.version(call)))
        .cached(Cache.IMMUTABLE)
        .describedBy(schemaVersion, "criteria-set");
  }
}
