package evenside.readiness;

import evenside.store.CaseFacts;
import evenside.store.FindingRow;
import evenside.store.StoredCase;
import evenside.store.StoredDecision;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import java.util.function.Supplier;

/**
 * Prints what trends and cohorts cost as a case and a store grow, as ratios. A program and no test,
 * since times depend on the machine.
 *
 * <p>{@code mvn -q -pl service -am test-compile exec:java -Dexec.skip=false
 * -Dexec.classpathScope=test -Dexec.mainClass=evenside.readiness.GrowthCost}; arguments: batteries
 * of the large case, decisions of the large clinic.
 */
final class GrowthCost {
  private static final LocalDate SURGERY = LocalDate.parse("2020-01-06");
  private static final String SET = "cristiani-2019-symmetry/1";
  private static final int CASES = 200;
  private static final int ROUNDS = 30;

  private GrowthCost() {}

  public static void main(String[] arguments) throws Exception {
    int batteries = arguments.length > 0 ? Integer.parseInt(arguments[0]) : 10_000;
    int decisions = arguments.length > 1 ? Integer.parseInt(arguments[1]) : 100_000;
    Path folder = Files.createTempDirectory("growth");
    try (Rehab rehab = Rehab.in(folder)) {
      batteries(rehab, "small", 10);
      batteries(rehab, "large", batteries);
      LocalDate asOf = SURGERY.plusYears(6);
      for (String question : List.of("progress", "plan", "milestones")) {
        double small = time(() -> ask(rehab, question, "small", asOf));
        double large = time(() -> ask(rehab, question, "large", asOf));
        System.out.printf(
            "%s: %.2f ms at 10 batteries, %.2f ms at %d, ratio %.2f%n",
            question, small, large, batteries, large / small);
      }
      decisions(rehab, "few", 1000);
      decisions(rehab, "many", decisions);
      double few = time(() -> cohort(rehab, "few"));
      double many = time(() -> cohort(rehab, "many"));
      System.out.printf(
          "cohort of %d people: %.2f ms at 1000 decisions, %.2f ms at %d, ratio %.2f%n",
          CASES, few, many, decisions, many / few);
    }
  }

  private static void batteries(Rehab rehab, String caseId, int count) {
    rehab.put(caseId, Rehab.person(SURGERY));
    for (int i = 0; i < count; i++) {
      Tests tests = Tests.on(SURGERY.plusDays(80 + (long) i * 2000 / count));
      tests.torque("knee-extension-peak-torque", 100 + i % 60, 200);
      tests.hop("single-hop-distance", 100 + i % 40, 150);
      rehab.test(caseId, tests.score("kos-adls", 80));
    }
  }

  private static Object ask(Rehab rehab, String question, String caseId, LocalDate asOf) {
    return switch (question) {
      case "progress" -> rehab.progress(caseId, asOf);
      case "plan" -> rehab.plan(caseId, SET, asOf);
      default -> rehab.service.recovery().milestones(Rehab.CLINIC, caseId, Optional.of(asOf));
    };
  }

  /** Invented rows, many to a transaction. */
  private static void decisions(Rehab rehab, String clinic, int count) {
    byte[] document = new byte[4000];
    String hash = "0".repeat(64);
    Instant now = Instant.parse("2026-01-01T00:00:00Z");
    for (int c = 0; c < CASES; c++) {
      String caseId = "k-" + c;
      int perCase = count / CASES;
      rehab.store.<String>write(
          writing -> {
            StoredCase stored = new StoredCase(clinic, caseId, 1, now, hash, document);
            writing.insertCase(stored);
            writing.insertCaseFacts(
                stored, new CaseFacts("female", 2000, "hamstring-tendon", SURGERY));
            for (int i = 0; i < perCase; i++) {
              StoredDecision decision =
                  new StoredDecision(
                      clinic,
                      UUID.randomUUID(),
                      caseId,
                      "cristiani-2019-symmetry",
                      "1",
                      hash,
                      "symmetry-checkpoint",
                      i % 3 == 0 ? "met" : "not-met",
                      SURGERY.plusDays(100 + i),
                      now.plusSeconds(i),
                      document,
                      document);
              writing.insertDecision(decision);
              writing.insertFindings(
                  decision,
                  List.of(
                      new FindingRow(FindingRow.WHOLE_SET, decision.outcome(), true, false),
                      new FindingRow("single-hop-symmetry", decision.outcome(), true, false)));
            }
            return caseId;
          });
    }
  }

  private static Object cohort(Rehab rehab, String clinic) {
    return rehab
        .service
        .cohorts()
        .of(
            clinic,
            new Cohorts.Asked(
                new Wanted(Optional.empty(), Optional.of(SET), Optional.empty()),
                Optional.empty(),
                Optional.of(LocalDate.parse("2099-12-31")),
                CohortFilter.EVERYBODY));
  }

  /** Milliseconds of one answer, the median of several after warming up. */
  private static double time(Supplier<Object> answer) {
    double[] times = new double[ROUNDS];
    for (int i = -ROUNDS; i < ROUNDS; i++) {
      long start = System.nanoTime();
      Object ignored = answer.get();
      if (i >= 0) {
        times[i] = (System.nanoTime() - start) / 1e6;
      }
    }
    java.util.Arrays.sort(times);
    return times[ROUNDS / 2];
  }
}
