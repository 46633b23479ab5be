package evenside.api.bulk;

import evenside.api.access.Caller;
import evenside.api.problem.Problem;
import evenside.api.problem.ProblemType;
import evenside.api.problem.Problems;
import evenside.api.resource.Idempotency;
import evenside.document.CanonicalJson;
import evenside.document.Document;
import evenside.readiness.ReadinessService;
import evenside.readiness.recording.IdempotencyKey;
import evenside.readiness.recording.Recorded;
import java.nio.charset.StandardCharsets;
import java.util.Set;
import java.util.function.IntFunction;
import java.util.function.Supplier;

/** Does lines as requests of their own would be done, and answers each. */
final class LineDesk {
  private final IntFunction<ReadinessService> service;

  /**
   * A desk.
   *
   * @param service the use cases for a line of that number; those for much in hand at once
   */
  LineDesk(IntFunction<ReadinessService> service) {
    this.service = service;
  }

  /**
   * A line that was read.
   *
   * @param queue lines of one queue are done one after the other
   * @param work does it; never throws
   */
  record Ready(String queue, Supplier<LineResult> work) {}

  /**
   * Reads a line.
   *
   * @param id of the request or job, which problems name
   */
  Ready read(Caller caller, String id, Line line) {
    try {
      Envelope envelope = Envelope.read(line);
      return new Ready(envelope.target(), () -> answer(caller, id, line.number(), envelope));
    } catch (RuntimeException e) {
      LineResult refused = LineResult.of(line.number(), problem(e, id), id);
      return new Ready("", () -> refused);
    }
  }

  private LineResult answer(Caller caller, String id, int number, Envelope envelope) {
    try {
      LineKind kind = envelope.kind();
      caller.demandAny(Set.of(kind.scope()));
      String clinic = caller.clinic().orElseThrow();
      Recorded recorded =
          kind.record(
              service.apply(number),
              caller,
              envelope.target(),
              envelope.body(),
              key(clinic, envelope));
      return LineResult.of(number, recorded, kind.folder());
    } catch (RuntimeException e) {
      return LineResult.of(number, problem(e, id), id);
    }
  }

  /** What a line cannot do is said as such: it has no headers. */
  private static Problem problem(RuntimeException failure, String id) {
    Problem problem = Problems.of(failure, id);
    return problem.type() == ProblemType.PRECONDITION_REQUIRED
        ? Problem.of(
            problem.type(),
            "This case exists with other content, and lines do not change a case. Send it as a PUT"
                + " at its own path, with the ETag that GET answers in If-Match.")
        : problem;
  }

  /** Equal to that of a request of its own, so that a line repeats such a request, or the other. */
  private static IdempotencyKey key(String clinic, Envelope envelope) {
    String path = envelope.kind().path(envelope.target());
    String key =
        envelope
            .key()
            .orElseGet(
                () -> {
                  byte[] body = CanonicalJson.bytes(envelope.body());
                  String content = path + "\n" + new String(body, StandardCharsets.UTF_8);
                  return "line-" + Document.sha256(content.getBytes(StandardCharsets.UTF_8));
                });
    return Idempotency.of(key, envelope.kind().method(), path, clinic, envelope.body());
  }
}
