package evenside.api.bulk;

import evenside.api.problem.Problem;
import evenside.readiness.Recorded;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/**
 * What came of a line.
 *
 * @param line its number
 * @param status the HTTP status that a request of its own would have had
 * @param json the line of the answer; not to be changed
 */
@SuppressWarnings("ArrayRecordComponent") // never compared, and the bytes are never changed
record LineResult(int line, int status, byte[] json) {
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
    return new LineResult(line, status, bytes(json));
  }

  static LineResult of(int line, Problem problem, String requestId) {
    int status = problem.type().status();
    ObjectNode json = start(line, status);
    json.set("problem", problem.toJson(requestId));
    return new LineResult(line, status, bytes(json));
  }

  /** Whether nothing is wrong with the line, but the store is away: it is tried again as it is. */
  boolean isPassing() {
    return status == 503;
  }

  private static ObjectNode start(int line, int status) {
    return JsonNodeFactory.instance.objectNode().put("line", line).put("status", status);
  }

  private static byte[] bytes(ObjectNode json) {
    return JsonMapper.shared().writeValueAsBytes(json);
  }
}
