package evenside.schemas;

import evenside.schemas.acceptor.Acceptor;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
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

/** What it costs to read a document, to accept it, and to have it judged by the validator. */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MICROSECONDS)
@Fork(1)
@Warmup(iterations = 3, time = 1)
@Measurement(iterations = 5, time = 1)
public class ValidationBench {

  private static final String ID = "https://evenside.example/schemas/1.0/%s.schema.json";

  /** A document, as kind and name under {@code examples/valid}. */
  @Param({
    "assessment-request/two-sets-side-by-side",
    "battery/every-measure",
    "battery/strength-and-hops",
    "session/everything"
  })
  private String document = "";

  private String id = "";
  private byte[] bytes = {};
  private JsonNode tree;
  private Acceptor acceptor;
  private SchemaSet validator;

  /** Reads the example and compiles the schemas both ways. */
  @Setup
  public void prepare() throws IOException {
    Map<String, JsonNode> schemas = Publish.schemas(Corpus.FOLDER);
    id = ID.formatted(document.substring(0, document.indexOf('/')));
    bytes = Files.readAllBytes(Path.of("examples/valid", document + ".json"));
    tree = parse();
    acceptor = new Acceptor(schemas);
    validator = new SchemaSet(schemas);
    if (!accept() || !validate().isEmpty()) {
      throw new IllegalStateException(document + " is not valid");
    }
  }

  /** Bytes to tree, with every check of the text. */
  @Benchmark
  public JsonNode parse() {
    return StrictJson.read(bytes, StrictJson.Limits.REQUEST);
  }

  /** The quick yes alone. */
  @Benchmark
  public boolean accept() {
    return acceptor.accepts(id, tree);
  }

  /** The validator alone. */
  @Benchmark
  public List<com.networknt.schema.Error> validate() {
    return validator.errors(id, tree);
  }
}
