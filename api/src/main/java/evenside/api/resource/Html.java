package evenside.api.resource;

import evenside.api.http.Reply;
import evenside.api.page.Templates;

/** Answers with pages. They run no script and load nothing but our own style sheet and icon. */
public final class Html {
  /** Media type of a page. */
  public static final String MEDIA_TYPE = "text/html";

  private static final String POLICY =
      "default-src 'none'; style-src 'self'; img-src 'self'; form-action 'none'; base-uri 'none';"
          + " frame-ancestors 'none'";

  private Html() {}

  /** A template filled with a model, with the tag and digest of these bytes. */
  static Reply reply(String template, Object model) {
    return Reply.of(Templates.render(template, model), MEDIA_TYPE + ";charset=utf-8")
        .with("Content-Security-Policy", POLICY)
        // Ids stand in the address of a sheet; they go nowhere else.
        .with("Referrer-Policy", "no-referrer");
  }
}
