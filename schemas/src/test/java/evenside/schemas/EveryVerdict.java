package evenside.schemas;

import evenside.schemas.Corpus.Sample;
import java.util.Optional;
import java.util.stream.LongStream;

/**
 * Holds the quick yes against the schema validator on millions of changed documents:
 *
 * <pre>mvn -pl schemas test-compile exec:java@verdicts -Ddocuments=5000000 -Dseed=1</pre>
 */
final class EveryVerdict {

  private static final int AT_A_TIME = 10_000;

  private EveryVerdict() {}

  /** Takes the first seed and the number of documents. */
  public static void main(String[] args) {
    long seed = Long.parseLong(args[0]);
    long runs = Math.max(1, Long.parseLong(args[1]) / AT_A_TIME);
    Verdicts verdicts = new Verdicts();
    Optional<Sample> differing =
        LongStream.range(seed, seed + runs)
            .parallel()
            .mapToObj(one -> verdicts.differing(one, AT_A_TIME))
            .flatMap(Optional::stream)
            .findAny();
    System.out.printf(
        "%,d documents: %,d valid, %,d not; %s%n",
        verdicts.valid() + verdicts.invalid(),
        verdicts.valid(),
        verdicts.invalid(),
        differing.isEmpty() ? "every verdict equal" : "verdicts differ");
    differing.ifPresent(
        sample -> {
          throw new IllegalStateException(sample + ": " + sample.document());
        });
  }
}
