package evenside.api.resource;

import evenside.api.http.Cache;
import evenside.api.http.Call;
import evenside.api.http.Reply;
import evenside.readiness.Desk;

/** Measures and criteria sets, as published. */
public final class CatalogueResource {
  private final Desk desk;

  /** Over the desk, which has the reference at hand. */
  public CatalogueResource(Desk desk) {
    this.desk = desk;
  }

  /** Lists the measures. */
  public Reply measures(Call call) {
    return Reply.of(desk.measures()).cached(Cache.PUBLIC);
  }

  /** One measure. */
  public Reply measure(Call call) {
    return Reply.of(desk.measure(Ids.code(call, "code"))).cached(Cache.PUBLIC);
  }

  /** Lists the criteria sets. */
  public Reply criteriaSets(Call call) {
    return Reply.of(desk.criteriaSets()).cached(Cache.PUBLIC);
  }

  /** One version of a criteria set; it never changes. */
  public Reply criteriaSet(Call call) {
    return Reply.of(desk.criteriaSet(Ids.code(call, "id"), Ids.version(call)))
        .cached(Cache.IMMUTABLE)
        .describedBy(desk.contract().schemaVersion(), "criteria-set");
  }
}
