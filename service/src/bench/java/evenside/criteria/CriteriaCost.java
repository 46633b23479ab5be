package evenside.criteria;

import java.lang.management.ManagementFactory;
import java.lang.management.ThreadMXBean;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.function.Supplier;

/**
 * The benchmarks of {@link CriteriaBench} in time of the processor, in turns, so that a busy
 * machine disturbs all alike: {@code mvn -q -Pbench -Dquick -pl service -am test-compile
 * exec:exec@program -Dprogram=evenside.criteria.CriteriaCost}.
 */
public final class CriteriaCost {
  private static final int ROUNDS = 120;
  private static final int WARM_UP = 60;
  private static final ThreadMXBean CLOCK = ManagementFactory.getThreadMXBean();
  private static volatile Object last = "";

  private final Map<String, Supplier<Object>> steps = new LinkedHashMap<>();

  private CriteriaCost(CriteriaBench bench) {
    steps.put("findings", bench::finding);
    steps.put("ids of what is not met", bench::notMet);
    steps.put("the same from bare numbers", bench::notMetFromNumbers);
    steps.put("findings with every text", bench::findingInWords);
    steps.put("DMN engine", bench::dmn);
    steps.put("JSON-rule engine", bench::jsonLogic);
  }

  /**
   * Prints the least and the median of the rounds, in microseconds, and the ratio of the medians.
   */
  public static void main(String[] args) {
    CriteriaBench bench = new CriteriaBench();
    bench.prepare();
    new CriteriaCost(bench).run();
  }

  private void run() {
    Map<String, double[]> micros = new LinkedHashMap<>();
    steps.keySet().forEach(name -> micros.put(name, new double[ROUNDS]));
    for (int round = -WARM_UP; round < ROUNDS; round++) {
      for (Map.Entry<String, Supplier<Object>> step : steps.entrySet()) {
        double found = micros(step.getValue());
        if (round >= 0) {
          micros.get(step.getKey())[round] = found;
        }
      }
    }
    micros.values().forEach(Arrays::sort);
    double[] dmn = micros.get("DMN engine");
    micros.forEach(
        (name, found) ->
            System.out.printf(
                "| %s | %.2f | %.2f | %.1f | %.1f |%n",
                name, found[0], median(found), dmn[0] / found[0], median(dmn) / median(found)));
  }

  private static double median(double[] sorted) {
    return sorted[sorted.length / 2];
  }

  /** Over about two milliseconds of work. */
  private static double micros(Supplier<Object> step) {
    long from = CLOCK.getCurrentThreadCpuTime();
    long took = 0;
    int times = 0;
    while (took < 2_000_000) {
      for (int i = 0; i < 100; i++) {
        last = step.get();
      }
      times += 100;
      took = CLOCK.getCurrentThreadCpuTime() - from;
    }
    return took / 1e3 / times;
  }
}
