package evenside.document;

import evenside.schemas.StrictJson;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
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

/** A tree in canonical form, beside the same tree as the JSON library writes it, and its hash. */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MICROSECONDS)
@Fork(1)
@Warmup(iterations = 5, time = 1)
@Measurement(iterations = 5, time = 1)
public class CanonicalBench {
  /** An example of a document, by kind and name. */
  @Param({"assessment/of-two-sets-side-by-side", "battery/every-measure"})
  private String document = "";

  private JsonNode tree;
  private byte[] canonical = {};

  /** Reads the example. */
  @Setup
  public void prepare() throws IOException {
    Path example = Path.of("../schemas/examples/valid", document + ".json");
    canonical = CanonicalJson.bytes(read(Files.readAllBytes(example)));
    // As our own documents are made: mostly in order already.
    tree = read(canonical);
  }

  private static JsonNode read(byte[] bytes) {
    return StrictJson.read(bytes, StrictJson.Limits.OWN);
  }

  /** Tree to canonical bytes. */
  @Benchmark
  public byte[] canonical() {
    return CanonicalJson.bytes(tree);
  }

  /** Tree to text as the library does it, in whatever order. */
  @Benchmark
  public String library() {
    return tree.toString();
  }

  /** Their SHA-256. */
  @Benchmark
  public String hash() {
    return Document.sha256(canonical);
  }
}
