package evenside.readiness;

import evenside.readiness.cases.FilledCases;
import evenside.readiness.computing.AdviceQuestion;
import evenside.readiness.recording.Page;
import evenside.readiness.recovery.Recovery;
import evenside.readiness.recovery.Wanted;
import evenside.store.DecisionFilter;
import evenside.store.PostgresServer;
import evenside.store.cohort.CohortFilter;
import evenside.store.database.StoreSettings;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.function.Consumer;
import java.util.function.IntFunction;
import java.util.stream.Stream;

/**
 * Prints what answers cost as a case and as a store grow: a decision, recorded and signed, beside
 * questions about a case, a cohort, an auditor's searches and the proof of a decision. A program
 * and no test, since times depend on the machine.
 *
 * <p>{@code mvn -q -Pbench -Dquick -pl service -am test-compile exec:exec@program
 * -Dprogram=evenside.readiness.GrowthCost -Dargs="case h2"}
 *
 * <p>Arguments: {@code case} or {@code store}; {@code h2} or {@code postgresql}; then the sizes if
 * others than the usual, of stores at least 1000. The stores of all sizes are open at once; a
 * million decisions take about 10 GB of disk for temporary files, which are removed.
 */
final class GrowthCost {
  private static final int[] CASE_SIZES = {10, 100, 1_000, 10_000};
  private static final int[] STORE_SIZES = {1_000, 10_000, 100_000, 1_000_000};
  private static final double WARM_SECONDS = Double.parseDouble(System.getProperty("warm", "8"));
  private static final int ROUNDS = Integer.getInteger("rounds", 20);

  private final IntFunction<StoreSettings> stores;
  private final Path folder;
  private final int[] sizes;
  private final Meter meter = new Meter();

  private GrowthCost(IntFunction<StoreSettings> stores, Path folder, int[] sizes) {
    this.stores = stores;
    this.folder = folder;
    this.sizes = sizes;
  }

  public static void main(String[] arguments) throws Exception {
    boolean ofCase = arguments[0].equals("case");
    int[] usual = ofCase ? CASE_SIZES : STORE_SIZES;
    int[] sizes =
        arguments.length > 2
            ? Arrays.stream(arguments).skip(2).mapToInt(Integer::parseInt).toArray()
            : usual;
    Path folder = Files.createTempDirectory("growth");
    try {
      if (arguments[1].equals("postgresql")) {
        List<PostgresServer> servers = new ArrayList<>();
        try {
          run(ofCase, size -> server(servers, folder, size), folder, sizes);
        } finally {
          servers.forEach(PostgresServer::close);
        }
      } else {
        run(ofCase, size -> StoreSettings.inFolder(folder.resolve("h2-" + size)), folder, sizes);
      }
    } finally {
      delete(folder);
    }
  }

  private static StoreSettings server(List<PostgresServer> servers, Path folder, int size) {
    PostgresServer server = PostgresServer.startDurable(folder.resolve("pg-" + size));
    servers.add(server);
    return server.settings();
  }

  private static void run(
      boolean ofCase, IntFunction<StoreSettings> stores, Path folder, int[] sizes)
      throws IOException {
    GrowthCost cost = new GrowthCost(stores, folder, sizes);
    if (ofCase) {
      cost.cases();
    } else {
      cost.stores();
    }
    System.out.println(cost.meter.table());
  }

  private Path side(int size) throws IOException {
    return Files.createDirectories(folder.resolve("ledger-" + size));
  }

  private void cases() throws IOException {
    try (FilledCases cases = new FilledCases(side(0), stores.apply(0))) {
      fill(cases, 0, 100);
      for (int size : sizes) {
        fill(cases, size, size);
      }
      Meter.warmUp(
          WARM_SECONDS, () -> QUESTIONS_OF_CASES.forEach(one -> one.ask().apply(cases, 0)));
      for (int size : sizes) {
        for (OfCase question : QUESTIONS_OF_CASES) {
          meter.add(question.name(), size, 3, () -> question.ask().apply(cases, size));
        }
      }
      meter.run(ROUNDS);
    }
  }

  private static void fill(FilledCases cases, int name, int size) {
    cases.batteries("tested-" + name, size, 60);
    cases.batteries("other-" + name, size, 90);
    cases.sessions("trained-" + name, size, 0);
    cases.sessions("stopped-" + name, size, 40);
  }

  private interface AskCase {
    void apply(FilledCases cases, int size);
  }

  private record OfCase(String name, AskCase ask) {}

  private static final List<OfCase> QUESTIONS_OF_CASES =
      List.of(
          new OfCase("decision, batteries", (c, n) -> c.decide("tested-" + n, FilledStore.SET)),
          new OfCase(
              "decision, batteries all tested another way",
              (c, n) -> c.decide("other-" + n, FilledStore.SET)),
          new OfCase(
              "decision on batteries, entries of training",
              (c, n) -> c.decide("trained-" + n, FilledStore.SET)),
          new OfCase(
              "decision on training, entries of training",
              (c, n) -> c.decide("trained-" + n, FilledCases.TRAINING_SET)),
          new OfCase(
              "the same, 1 in 40 a stop that was cleared",
              (c, n) -> c.decide("stopped-" + n, FilledCases.TRAINING_SET)),
          new OfCase(
              "advice, entries of training",
              (c, n) ->
                  c.service()
                      .sessions()
                      .advice(ProvenRecord.CLINIC, "trained-" + n, AdviceQuestion.TODAY)),
          new OfCase(
              "progress, batteries",
              (c, n) ->
                  recovery(c)
                      .progress(ProvenRecord.CLINIC, "tested-" + n, wanted(Optional.empty()))),
          new OfCase(
              "plan, batteries",
              (c, n) ->
                  recovery(c)
                      .plan(
                          ProvenRecord.CLINIC,
                          "tested-" + n,
                          wanted(Optional.of(FilledStore.SET)))),
          new OfCase(
              "milestones, batteries",
              (c, n) ->
                  recovery(c)
                      .milestones(
                          ProvenRecord.CLINIC, "tested-" + n, Optional.of(FilledCases.AS_OF))));

  private static Recovery recovery(FilledCases cases) {
    return cases.service().recovery();
  }

  private static Wanted wanted(Optional<String> set) {
    return new Wanted(Optional.empty(), set, Optional.of(FilledCases.AS_OF));
  }

  private void stores() throws IOException {
    List<FilledStore> filled = new ArrayList<>();
    try {
      FilledStore other = new FilledStore(side(0), stores.apply(0), 1_000);
      filled.add(other);
      for (int size : sizes) {
        long start = System.nanoTime();
        FilledStore store = new FilledStore(side(size), stores.apply(size), size);
        filled.add(store);
        System.err.printf("%d: filled in %.0f s%n", size, (System.nanoTime() - start) / 1e9);
        for (OfStore question : QUESTIONS_OF_STORES) {
          meter.add(question.name(), size, question.most(), () -> question.ask().accept(store));
        }
        meter.add("cohort of everybody", size, 1, () -> cohort(store));
      }
      for (OfStore question : QUESTIONS_OF_STORES) {
        Meter.warmUp(WARM_SECONDS / 2, () -> question.ask().accept(other));
      }
      Meter.warmUp(WARM_SECONDS / 2, () -> cohort(other));
      meter.run(ROUNDS);
    } finally {
      filled.forEach(FilledStore::close);
    }
  }

  private record OfStore(String name, int most, Consumer<FilledStore> ask) {}

  private static final List<OfStore> QUESTIONS_OF_STORES =
      List.of(
          new OfStore("recorded decision", 4, FilledStore::decide),
          new OfStore(
              "evidence with proof",
              10,
              s ->
                  s.service()
                      .evidence()
                      .bundle(FilledStore.clinic(), s.decision(), OptionalLong.empty())),
          new OfStore(
              "the same, extending a checkpoint of 500 entries",
              10,
              s ->
                  s.service()
                      .evidence()
                      .bundle(FilledStore.clinic(), s.decision(), OptionalLong.of(500))),
          new OfStore(
              "stored decision",
              10,
              s -> s.service().decisions().get(FilledStore.clinic(), s.decision())),
          new OfStore("search: newest 50", 3, s -> search(s, DecisionFilter.ALL)),
          new OfStore("search: a case", 3, s -> search(s, DecisionFilter.ofCase("k-7"))),
          new OfStore("search: a person", 3, s -> search(s, of("S-7", null, null))),
          new OfStore("search: set and outcome, half a year", 3, s -> search(s, inSpring())),
          new OfStore("search: a clinician, 1 in 5000", 1, s -> search(s, of(null, "pt-7", null))),
          new OfStore(
              "search: determined otherwise, 1 in 1000", 1, s -> search(s, of(null, null, true))));

  private static Page search(FilledStore store, DecisionFilter filter) {
    return store.service().decisions().search(FilledStore.clinic(), filter, Optional.empty(), 50);
  }

  private static DecisionFilter of(String person, String clinician, Boolean otherwise) {
    return DecisionFilter.ALL.about(
        Optional.ofNullable(person),
        Optional.ofNullable(clinician),
        Optional.ofNullable(otherwise));
  }

  private static DecisionFilter inSpring() {
    return new DecisionFilter(
        Optional.empty(),
        Optional.empty(),
        Optional.of("delaware-oslo"),
        Optional.empty(),
        Optional.of("met"),
        Optional.of(Instant.parse("2024-01-01T00:00:00Z")),
        Optional.of(Instant.parse("2024-07-01T00:00:00Z")));
  }

  private static Object cohort(FilledStore store) {
    return store
        .service()
        .cohorts()
        .of(
            FilledStore.clinic(),
            new Cohorts.Asked(
                new Wanted(Optional.empty(), Optional.of(FilledStore.SET), Optional.empty()),
                Optional.empty(),
                Optional.of(LocalDate.parse("2099-12-31")),
                CohortFilter.EVERYBODY));
  }

  private static void delete(Path folder) throws IOException {
    try (Stream<Path> files = Files.walk(folder)) {
      files
          .sorted(Comparator.reverseOrder())
          .forEach(
              file -> {
                try {
                  Files.delete(file);
                } catch (IOException e) {
                  throw new UncheckedIOException(e);
                }
              });
    }
  }
}
