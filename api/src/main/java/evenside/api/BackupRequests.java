package evenside.api;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.time.Duration;
import java.util.UUID;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.TimeUnit;
import java.util.function.Consumer;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * How the command {@code backup} reaches a running service: by a file in the data folder, which
 * only the owner of the record can write. The service takes it, makes the copy and leaves its
 * answer beside.
 */
public final class BackupRequests implements AutoCloseable {
  private static final Logger LOG = LoggerFactory.getLogger(BackupRequests.class);
  private static final String REQUEST = ".backup-request";
  private static final String ANSWER = ".backup-answer";
  private static final String DONE = "done";
  private static final long LOOK_EVERY_MS = 500;
  private static final Duration LONGEST_WAIT_TO_BE_TAKEN = Duration.ofSeconds(15);

  private final Path folder;
  private final Consumer<Path> backUp;
  private final ScheduledExecutorService watch =
      Executors.newSingleThreadScheduledExecutor(
          work -> {
            Thread thread = new Thread(work, "backup");
            thread.setDaemon(true);
            return thread;
          });

  private BackupRequests(Path folder, Consumer<Path> backUp) {
    this.folder = folder;
    this.backUp = backUp;
  }

  /**
   * Answers requests until it is closed.
   *
   * @param folder the data folder of the record
   * @param backUp copies the record to a file
   */
  static BackupRequests answering(Path folder, Consumer<Path> backUp) {
    BackupRequests requests = new BackupRequests(folder, backUp);
    // It catches what goes wrong itself; shutting down ends it.
    var unused =
        requests.watch.scheduleWithFixedDelay(
            requests::look, LOOK_EVERY_MS, LOOK_EVERY_MS, TimeUnit.MILLISECONDS);
    return requests;
  }

  private void look() {
    try (DirectoryStream<Path> waiting = Files.newDirectoryStream(folder, "*" + REQUEST)) {
      for (Path request : waiting) {
        answer(request);
      }
    } catch (IOException | RuntimeException e) {
      LOG.warn("cannot look for requests for a backup: {}", e.toString());
    }
  }

  private void answer(Path request) throws IOException {
    Path file = Path.of(Files.readString(request).strip());
    Files.delete(request);
    String name = request.getFileName().toString();
    String answer;
    try {
      backUp.accept(file);
      LOG.info("the record was copied to {}", file);
      answer = DONE;
    } catch (RuntimeException e) {
      LOG.warn("the record could not be copied: {}", e.getMessage());
      answer = String.valueOf(e.getMessage());
    }
    write(folder.resolve(name.replace(REQUEST, ANSWER)), answer);
  }

  private static void write(Path file, String text) throws IOException {
    Path part = file.resolveSibling(file.getFileName() + ".part");
    Files.writeString(part, text);
    Files.move(part, file, StandardCopyOption.ATOMIC_MOVE);
  }

  /**
   * Asks the service that has the data folder open for a copy, and waits for it.
   *
   * @throws IllegalStateException if it does not answer, or could not make the copy
   */
  public static void ask(Path folder, Path file) {
    String id = UUID.randomUUID().toString();
    Path request = folder.resolve(id + REQUEST);
    Path answer = folder.resolve(id + ANSWER);
    try {
      write(request, file.toAbsolutePath().toString());
      long giveUp = System.nanoTime() + LONGEST_WAIT_TO_BE_TAKEN.toNanos();
      while (!Files.exists(answer)) {
        if (Files.exists(request) && System.nanoTime() > giveUp) {
          Files.deleteIfExists(request);
          throw new IllegalStateException("the service that has " + folder + " does not answer");
        }
        Thread.sleep(LOOK_EVERY_MS / 5);
      }
      String said = Files.readString(answer);
      Files.delete(answer);
      if (!said.equals(DONE)) {
        throw new IllegalStateException("the service could not make the copy: " + said);
      }
    } catch (IOException e) {
      throw new UncheckedIOException("cannot ask the running service: " + e.getMessage(), e);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException("interrupted while waiting for the copy", e);
    }
  }

  @Override
  public void close() {
    watch.shutdown();
    try {
      // A copy that has begun is brought to its end before the store is closed.
      if (!watch.awaitTermination(1, TimeUnit.MINUTES)) {
        LOG.warn("the service stopped while a copy of the record was still being made");
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }
}
