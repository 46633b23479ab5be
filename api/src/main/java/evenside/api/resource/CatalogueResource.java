package evenside.api.resource;

import evenside.api.http.Cache;
import evenside.api.http.Call;
import evenside.api.http.Reply;
import evenside.readiness.Desk;

/** Measures, progressions and exercises, as published. */
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

  /** Lists the progressions. */
  public Reply progressions(Call call) {
    return Reply.of(desk.progressions()).cached(Cache.PUBLIC);
  }

  /** One version of a progression; it never changes. */
  public Reply progression(Call call) {
    return Reply.of(desk.progression(Ids.code(call, "id"), Ids.version(call)))
        .cached(Cache.IMMUTABLE)
        .describedBy(desk.contract().schemaVersion(), "progression");
  }

  /** The exercises with their usual dose. */
  public Reply exercises(Call call) {
    return Reply.of(desk.exercises())
        .cached(Cache.PUBLIC)
        .describedBy(desk.contract().schemaVersion(), "exercises");
  }
}
