package evenside.api.resource;

import evenside.api.http.Cache;
import evenside.api.http.Call;
import evenside.api.http.Reply;
import evenside.readiness.Desk;

/** The measures, as published. */
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
}
