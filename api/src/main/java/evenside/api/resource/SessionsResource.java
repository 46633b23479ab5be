package evenside.api.resource;

import evenside.api.http.Cache;
import evenside.api.http.Call;
import evenside.api.http.Reply;
import evenside.document.Document;
import evenside.load.SdMethod;
import evenside.readiness.computing.AdviceQuestion;
import evenside.readiness.recording.Recorded;
import evenside.readiness.training.Sessions;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Pattern;
import tools.jackson.databind.JsonNode;

/** The training record of a case, and the advice on what comes next. */
public final class SessionsResource {
  private static final String AS_OF = "asOf";
  private static final String PLANNED_ON = "plannedOn";
  private static final String COUNTING = "counting";
  private static final String SD_METHOD = "sdMethod";
  private static final String ACUTE_CHRONIC = "acuteChronic";

  /** Up to ten names of progressions, each with its version. */
  private static final Pattern NAMES =
      Pattern.compile(
          "[a-z0-9][a-z0-9-]{1,63}/[0-9][0-9.]{0,15}(,[a-z0-9][a-z0-9-]{1,63}/[0-9][0-9.]{0,15}){0,9}");

  private final Sessions sessions;
  private final PagedLists lists;
  private final String schemaVersion;

  /** Over the use cases. */
  public SessionsResource(Sessions sessions, PagedLists lists, String schemaVersion) {
    this.sessions = sessions;
    this.lists = lists;
    this.schemaVersion = schemaVersion;
  }

  /** The query parameters of advice. */
  public static String[] parameters() {
    return new String[] {AS_OF, PLANNED_ON, COUNTING, SD_METHOD, ACUTE_CHRONIC};
  }

  /** Records one entry. */
  public Reply add(Call call) {
    String caseId = Ids.caseId(call);
    String key = Idempotency.read(call);
    JsonNode document = call.json();
    Recorded recorded =
        sessions.add(
            call.clinic(), caseId, document, Optional.of(Idempotency.of(key, call, document)));
    return Idempotency.reply(recorded, "/v1/sessions/", reply(recorded.document()));
  }

  /** One page of them. */
  public Reply list(Call call) {
    String caseId = Ids.caseId(call);
    return lists.answer(
        call, call.path(), (after, limit) -> sessions.list(call.clinic(), caseId, after, limit));
  }

  /** One of them. */
  public Reply get(Call call) {
    return reply(sessions.get(call.clinic(), Ids.uuid(call, "sessionId")));
  }

  /** What the rules say about the next training. */
  public Reply advice(Call call) {
    AdviceQuestion question =
        new AdviceQuestion(
            Parameters.date(call, AS_OF),
            Parameters.date(call, PLANNED_ON),
            Parameters.matching(
                    call, COUNTING, NAMES, "id/version of up to ten progressions, with commas")
                .map(names -> Set.copyOf(List.of(names.split(",", -1))))
                .orElse(Set.of()),
            Parameters.oneOf(call, SD_METHOD, List.of("sample", "population"))
                .filter("population"::equals)
                .map(population -> SdMethod.POPULATION)
                .orElse(SdMethod.SAMPLE),
            Parameters.oneOf(call, ACUTE_CHRONIC, List.of("true", "false"))
                .map(Boolean::valueOf)
                .orElse(false));
    return Reply.of(sessions.advice(call.clinic(), Ids.caseId(call), question))
        .cached(Cache.PRIVATE)
        .describedBy(schemaVersion, "advice");
  }

  private Reply reply(Document document) {
    return Reply.of(document).cached(Cache.PRIVATE).describedBy(schemaVersion, "session-record");
  }
}
