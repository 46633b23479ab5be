package evenside.criteria;

import evenside.measure.Evidence;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.concurrent.TimeUnit;
import java.util.random.RandomGenerator;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;

/**
 * Twelve criteria by our evaluator and by two general engines, on the same numbers. Before any time
 * is taken all three have to name the same criteria on every set of numbers: an outside check of
 * the evaluator.
 */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MICROSECONDS)
@Fork(1)
@Warmup(iterations = 3, time = 1)
@Measurement(iterations = 5, time = 1)
public class CriteriaBench {
  private static final int ROWS = 1_000;

  private final TwelveCriteria criteria = new TwelveCriteria();
  private final List<Map<String, Double>> numbers = new ArrayList<>();
  private final List<Map<String, Object>> decimals = new ArrayList<>();
  private final List<Evidence> evidence = new ArrayList<>();
  private int next;

  /** Makes the numbers and holds the three answers against each other. */
  @Setup
  public void prepare() {
    RandomGenerator random = new SplittableRandom(12);
    for (int i = 0; i < ROWS; i++) {
      Map<String, Double> row = criteria.numbers(random);
      numbers.add(row);
      decimals.add(TwelveCriteria.decimals(row));
      evidence.add(criteria.evidence(row));
      List<String> ours = criteria.notMet(evidence.get(i));
      List<String> byDmn = criteria.byDmn(decimals.get(i));
      List<String> byJsonLogic = criteria.byJsonLogic(row);
      if (!ours.equals(byDmn) || !ours.equals(byJsonLogic)) {
        throw new IllegalStateException(row + ": " + ours + ", " + byDmn + ", " + byJsonLogic);
      }
    }
  }

  private int row() {
    next = (next + 1) % ROWS;
    return next;
  }

  /** Every criterion with its outcome; margin, reason and texts are worked out when asked for. */
  @Benchmark
  public Finding finding() {
    return criteria.finding(evidence.get(row()));
  }

  /** The same with all of that asked for, the texts too. */
  @Benchmark
  public int findingInWords() {
    return criteria.inWords(evidence.get(row()));
  }

  /** Only what is not met, as the engines say it. */
  @Benchmark
  public List<String> notMet() {
    return criteria.notMet(evidence.get(row()));
  }

  /** The same from bare numbers. */
  @Benchmark
  public List<String> notMetFromNumbers() {
    return criteria.notMet(criteria.evidence(numbers.get(row())));
  }

  /** By the DMN engine. */
  @Benchmark
  public List<String> dmn() {
    return criteria.byDmn(decimals.get(row()));
  }

  /** By the JSON-rule engine. */
  @Benchmark
  public List<String> jsonLogic() {
    return criteria.byJsonLogic(numbers.get(row()));
  }
}
