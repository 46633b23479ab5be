package evenside.schemas;

import evenside.schemas.Corpus.Sample;
import evenside.schemas.acceptor.Acceptor;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SplittableRandom;
import java.util.concurrent.atomic.AtomicLong;
import java.util.random.RandomGenerator;
import java.util.stream.Stream;
import tools.jackson.databind.JsonNode;

/** Holds the quick yes against the schema validator, document by document. */
final class Verdicts {

  private final Map<String, JsonNode> schemas = Publish.schemas(Corpus.FOLDER);
  private final Acceptor acceptor = new Acceptor(schemas);
  private final SchemaSet validator = new SchemaSet(schemas);
  private final Wreckage wreckage = new Wreckage(schemas.values(), validSeeds(), invalidSeeds());
  private final AtomicLong valid = new AtomicLong();
  private final AtomicLong invalid = new AtomicLong();

  /** Every valid example, and what is published. */
  static List<Sample> validSeeds() {
    List<Sample> seeds = new ArrayList<>(Corpus.valid());
    seeds.addAll(published());
    return seeds;
  }

  /** Every invalid example, and one document for each assertion, which it breaks. */
  static List<Sample> invalidSeeds() {
    List<Sample> seeds = new ArrayList<>(Corpus.invalid());
    Corpus.INPUT_KINDS.forEach(kind -> seeds.addAll(Mutants.broken(kind)));
    return seeds;
  }

  private static List<Sample> published() {
    Contract contract = Contract.in(Corpus.FOLDER);
    Map<String, List<JsonNode>> documents = new LinkedHashMap<>();
    contract.catalogues().forEach(name -> documents.put(name, List.of(contract.catalogue(name))));
    documents.put("criteria-set", contract.criteriaSets());
    documents.put("progression", contract.progressions());
    documents.put("instrument", contract.instruments());
    return documents.entrySet().stream()
        .flatMap(
            kind ->
                kind.getValue().stream().map(one -> new Sample(kind.getKey(), "published", one)))
        .toList();
  }

  Acceptor acceptor() {
    return acceptor;
  }

  /**
   * Changes documents and compares both verdicts on each.
   *
   * @return the first on which they differ
   */
  Optional<Sample> differing(long seed, int documents) {
    RandomGenerator random = new SplittableRandom(seed);
    return Stream.generate(() -> wreckage.next(random))
        .limit(documents)
        .filter(sample -> !agree(sample))
        .findFirst();
  }

  boolean agree(Sample sample) {
    String id = "https://evenside.example/schemas/1.0/" + sample.kind() + ".schema.json";
    boolean follows = validator.errors(id, sample.document()).isEmpty();
    (follows ? valid : invalid).incrementAndGet();
    return acceptor.accepts(id, sample.document()) == follows;
  }

  /** Documents so far that the validator took. */
  long valid() {
    return valid.get();
  }

  /** Documents so far that the validator refused. */
  long invalid() {
    return invalid.get();
  }
}
