package evenside.readiness;

import evenside.document.Document;
import evenside.schemas.Contract;
import evenside.schemas.Fault;
import evenside.schemas.StrictJson;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.InstantSource;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Param;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;
import tools.jackson.databind.JsonNode;

/** An assessment from bytes to bytes, beside its parts: reading, the schema, all rules, writing. */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MICROSECONDS)
@Fork(1)
@Warmup(iterations = 3, time = 1)
@Measurement(iterations = 5, time = 1)
public class AssessmentBench {

  private static final String KIND = "assessment-request";

  /** An example of a request. */
  @Param({"one-battery", "two-sets-side-by-side", "everything"})
  private String document = "";

  private byte[] bytes = {};
  private JsonNode tree;
  private Desk desk;
  private Document answer;

  /** Reads the example and the contract. */
  @Setup
  public void prepare() throws IOException {
    Path example = Path.of("../schemas/examples/valid", KIND, document + ".json");
    bytes = Files.readAllBytes(example);
    desk =
        Desk.of(Contract.published(), InstantSource.fixed(Instant.parse("2030-01-01T00:00:00Z")));
    tree = parse();
    answer = compute();
  }

  /** Bytes to tree. */
  @Benchmark
  public JsonNode parse() {
    return StrictJson.read(bytes, StrictJson.Limits.REQUEST);
  }

  /** Bytes to tree, and the schema. */
  @Benchmark
  public List<Fault> parseAndSchema() {
    return desk.contract().validate(KIND, parse());
  }

  /** The schema and the rules between members, on a tree. */
  @Benchmark
  public CheckReport check() {
    return desk.check(KIND, tree);
  }

  /** Everything but the parsing: the check, the computation and the answer's bytes. */
  @Benchmark
  public Document compute() {
    return desk.assess(tree);
  }

  /** Bytes to bytes. */
  @Benchmark
  public Document assess() {
    return desk.assess(parse());
  }

  /** The parsed answer in canonical form. */
  @Benchmark
  public Document rewrite() {
    return Document.of(StrictJson.read(answer.bytes(), StrictJson.Limits.OWN));
  }
}
