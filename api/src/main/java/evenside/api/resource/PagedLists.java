package evenside.api.resource;

import evenside.api.http.Cache;
import evenside.api.http.Call;
import evenside.api.http.Cursors;
import evenside.api.http.Reply;
import evenside.document.Document;
import evenside.readiness.recording.Page;
import java.io.ByteArrayOutputStream;
import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;

/**
 * Paged lists by position, not by number, so that rows which arrive meanwhile are neither shown
 * twice nor skipped. Documents go into a page as their stored bytes.
 */
public final class PagedLists {
  /** Media type of a page with one document per line. */
  public static final String LINES = "application/x-ndjson";

  static final String AFTER = "after";
  static final String LIMIT = "limit";

  private static final int DEFAULT_LIMIT = 50;
  private static final int MAX_LIMIT = 200;

  private final Cursors cursors;

  /** Pages with cursors of their own. */
  public PagedLists(Cursors cursors) {
    this.cursors = cursors;
  }

  /** The query parameters of every paged list. */
  public static String[] parameters() {
    return new String[] {AFTER, LIMIT};
  }

  /** Fetches one page. */
  @FunctionalInterface
  interface Source {
    /** The page after a position, or the first. */
    Page page(Optional<String> after, int limit);
  }

  /**
   * Answers a call with the page it asks for.
   *
   * @param list what list it is, filter included; a cursor of one list is refused by another
   */
  Reply answer(Call call, String list, Source source) {
    int limit = Parameters.number(call, LIMIT, 1, MAX_LIMIT, DEFAULT_LIMIT);
    Optional<String> after =
        call.query(AFTER).map(cursor -> cursors.read(call.clinic(), list, cursor));
    Page page = source.page(after, limit);
    Optional<String> next =
        page.next().map(position -> cursors.write(call.clinic(), list, position));
    byte[] body = call.mediaType().equals(LINES) ? lines(page) : body(page, next);
    Reply reply = new Reply(200, call.mediaType(), body, Map.of()).cached(Cache.PRIVATE);
    return next.map(cursor -> reply.with("Link", link(call, cursor))).orElse(reply);
  }

  private static byte[] body(Page page, Optional<String> next) {
    ByteArrayOutputStream body = new ByteArrayOutputStream();
    body.writeBytes(ascii("{\"items\":["));
    String separator = "";
    for (Document item : page.items()) {
      body.writeBytes(ascii(separator));
      body.writeBytes(item.bytes());
      separator = ",";
    }
    body.writeBytes(ascii("]"));
    next.ifPresent(cursor -> body.writeBytes(ascii(",\"next\":\"" + cursor + "\"")));
    body.writeBytes(ascii("}"));
    return body.toByteArray();
  }

  private static byte[] lines(Page page) {
    ByteArrayOutputStream body = new ByteArrayOutputStream();
    for (Document item : page.items()) {
      body.writeBytes(item.bytes());
      body.write('\n');
    }
    return body.toByteArray();
  }

  private static String link(Call call, String cursor) {
    Map<String, String> query = new LinkedHashMap<>(call.query());
    query.put(AFTER, cursor);
    String parameters =
        query.entrySet().stream()
            .map(e -> e.getKey() + "=" + URLEncoder.encode(e.getValue(), StandardCharsets.UTF_8))
            .collect(Collectors.joining("&"));
    return "<" + call.path() + "?" + parameters + ">; rel=\"next\"";
  }

  private static byte[] ascii(String text) {
    return text.getBytes(StandardCharsets.US_ASCII);
  }
}
