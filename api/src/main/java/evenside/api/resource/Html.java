package evenside.api.resource;

import evenside.api.http.Reply;
import evenside.api.page.Templates;
import java.util.Map;

/** Answers with pages. They run no script and load nothing but our own style sheet and icon. */
public final class Html {
  /** Media type of a page. */
  public static final String MEDIA_TYPE = "text/html";

  private static final String TYPE = MEDIA_TYPE + ";charset=utf-8";
  private static final String POLICY =
      "default-src 'none'; style-src 'self'; img-src 'self'; form-action 'none'; base-uri 'none';"
          + " frame-ancestors 'none'";

  private Html() {}

  /** A template filled with a model, with the tag and digest of these bytes. */
  static Reply reply(String template, Object model) {
    return guarded(Reply.of(Templates.render(template, model), TYPE));
  }

  /** A page made for this answer that is not kept: without tag and digest. */
  static Reply ofPassing(String template, Object model) {
    return guarded(new Reply(200, TYPE, Templates.render(template, model), Map.of()));
  }

  private static Reply guarded(Reply page) {
    return page.with("Content-Security-Policy", POLICY)
        // Ids stand in the address of a sheet; they go nowhere else.
        .with("Referrer-Policy", "no-referrer");
  }
}
