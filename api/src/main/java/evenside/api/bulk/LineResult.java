package evenside.api.bulk;

import evenside.api.problem.Problem;
import evenside.api.problem.ProblemType;
import evenside.readiness.recording.Recorded;
import java.util.Set;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/**
 * What came of a line.
 *
 * @param line its number
 * @param status the HTTP status that a request of its own would have had
 * @param isPassing whether nothing is wrong with the line, but the store is away or another request
 *     still runs: it is tried again as it is
 * @param json the line of the answer; not to be changed
 */
@SuppressWarnings("ArrayRecordComponent") // never compared, and the bytes are never changed
record LineResult(int line, int status, boolean isPassing, byte[] json) {
  private static final Set<ProblemType> PASSING =
      Set.of(ProblemType.UNAVAILABLE, ProblemType.REQUEST_IN_FLIGHT);

  static LineResult of(int line, Recorded recorded, String folder) {
    int status =
        switch (recorded.novelty()) {
          case CREATED, REPLAYED -> 201;
          case UNCHANGED, CHANGED -> 200;
        };
    ObjectNode json = start(line, status);
    json.put("id", recorded.id()).put("location", folder + recorded.id());
    if (recorded.novelty() == Recorded.Novelty.REPLAYED) {
      json.put("replayed", true);
    }
    return new LineResult(line, status, false, bytes(json));
  }

  static LineResult of(int line, Problem problem, String requestId) {
    int status = problem.type().status();
    ObjectNode json = start(line, status);
    json.set("problem", problem.toJson(requestId));
    return new LineResult(line, status, PASSING.contains(problem.type()), bytes(json));
  }

  private static ObjectNode start(int line, int status) {
    return JsonNodeFactory.instance.objectNode().put("line", line).put("status", status);
  }

  private static byte[] bytes(ObjectNode json) {
    return JsonMapper.shared().writeValueAsBytes(json);
  }
}
