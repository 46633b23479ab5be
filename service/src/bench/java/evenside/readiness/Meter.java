package evenside.readiness;

import java.lang.management.ManagementFactory;
import java.lang.management.ThreadMXBean;
import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Collectors;

/**
 * Asks questions of things of several sizes in turns, and says what an answer costs at each size:
 * time of the asking thread on a processor, and time on the wall, both as medians. On a busy
 * machine the former is the one to compare.
 */
final class Meter {
  private static final ThreadMXBean THREADS = ManagementFactory.getThreadMXBean();

  private final Map<String, Map<Integer, List<Cost>>> costs = new LinkedHashMap<>();
  private final List<Question> questions = new ArrayList<>();

  /** Nanoseconds of one answer. */
  private record Cost(long wall, long thread) {}

  private record Question(String name, int size, int most, Runnable ask) {}

  /** Asks again and again for some seconds, so that the compiler has done its work. */
  static void warmUp(double seconds, Runnable ask) {
    long end = System.nanoTime() + (long) (seconds * 1e9);
    while (System.nanoTime() < end) {
      ask.run();
    }
  }

  /**
   * Adds a question about one size.
   *
   * @param name the same for all sizes
   * @param most answers in a round
   */
  void add(String name, int size, int most, Runnable ask) {
    questions.add(new Question(name, size, most, ask));
  }

  /** Asks all, from the smallest to the largest and back in turns. */
  void run(int rounds) {
    for (int round = 0; round < rounds; round++) {
      List<Question> order = new ArrayList<>(questions);
      if (round % 2 == 1) {
        Collections.reverse(order);
      }
      for (Question question : order) {
        List<Cost> all =
            costs
                .computeIfAbsent(question.name(), name -> new LinkedHashMap<>())
                .computeIfAbsent(question.size(), size -> new ArrayList<>());
        // The first answer of a turn meets caches that another size has filled.
        question.ask().run();
        for (int i = 0; i < question.most(); i++) {
          all.add(cost(question.ask()));
        }
      }
    }
  }

  private static Cost cost(Runnable ask) {
    long thread = THREADS.getCurrentThreadCpuTime();
    long wall = System.nanoTime();
    ask.run();
    return new Cost(System.nanoTime() - wall, THREADS.getCurrentThreadCpuTime() - thread);
  }

  /** Two rows a question: milliseconds at each size, and the largest size against the smallest. */
  String table() {
    List<Integer> sizes = questions.stream().map(Question::size).distinct().sorted().toList();
    StringBuilder text = new StringBuilder("| question | ms of |");
    sizes.forEach(size -> text.append(String.format(Locale.ROOT, " %,d |", size)));
    text.append(" last / first |\n|---|---|").append("---|".repeat(sizes.size() + 1)).append('\n');
    costs.forEach(
        (name, bySize) -> {
          text.append(row(name, "thread", sizes, bySize, Cost::thread));
          text.append(row("", "wall", sizes, bySize, Cost::wall));
        });
    return text.toString();
  }

  private interface Part {
    long of(Cost cost);
  }

  private static String row(
      String name, String what, List<Integer> sizes, Map<Integer, List<Cost>> bySize, Part part) {
    List<Double> shown = new ArrayList<>();
    String cells =
        sizes.stream()
            .map(bySize::get)
            .map(
                list -> {
                  if (list == null) {
                    return "";
                  }
                  shown.add(median(list, part));
                  return String.format(Locale.ROOT, "%.2f", shown.get(shown.size() - 1));
                })
            .collect(Collectors.joining(" | "));
    double ratio = shown.get(shown.size() - 1) / shown.get(0);
    return String.format(Locale.ROOT, "| %s | %s | %s | %.2f |%n", name, what, cells, ratio);
  }

  private static double median(List<Cost> costs, Part part) {
    long[] sorted = costs.stream().mapToLong(part::of).sorted().toArray();
    return sorted[sorted.length / 2] / 1e6;
  }
}
