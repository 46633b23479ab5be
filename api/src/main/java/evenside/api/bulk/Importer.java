package evenside.api.bulk;

import evenside.api.problem.Problem;
import evenside.api.problem.ProblemType;
import evenside.schemas.NotJson;
import evenside.schemas.StrictJson;
import evenside.schemas.StrictJson.Limits;
import java.io.BufferedWriter;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ObjectNode;

/**
 * Sends a file of lines to a service, a few hundred at a time, in their order. What was answered is
 * noted beside the file, so that an import which was broken off goes on there; what was refused is
 * written beside it too, with its faults.
 */
public final class Importer {
  private static final int LINES_AT_ONCE = 500;
  private static final long BYTES_AT_ONCE = 8L << 20;

  private final Path file;
  private final BulkClient client;
  private final Consumer<Progress> progress;
  private final ImportNote note;
  private int lines;
  private int stored;
  private int refused;

  /**
   * An import.
   *
   * @param file one record a line
   * @param client the service
   * @param progress is told after every few hundred lines
   */
  public Importer(Path file, BulkClient client, Consumer<Progress> progress) {
    this.file = file;
    this.client = client;
    this.progress = progress;
    this.note = ImportNote.beside(file);
  }

  /**
   * How far an import is.
   *
   * @param skipped lines that an earlier run had done
   * @param lines lines answered in this run
   * @param stored those that are in the record
   * @param refused those that are not
   */
  public record Progress(int skipped, int lines, int stored, int refused) {}

  /** Where the refused lines are written. */
  public Path refusedFile() {
    return file.resolveSibling(file.getFileName() + ".refused.ndjson");
  }

  /**
   * Sends every line that no earlier run has sent.
   *
   * @throws UncheckedIOException if the file cannot be read, or nothing can be written beside it
   * @throws BulkClient.Unreachable if the service does not answer, or refuses the whole
   * @throws IllegalStateException if the file is not the one of the earlier run
   */
  public Progress run() {
    try (InputStream in = Files.newInputStream(file)) {
      LineReader reader = new LineReader(in);
      int skipped = note.skip(reader);
      List<Line> batch = new ArrayList<>();
      long bytes = 0;
      Line line;
      while ((line = reader.next()) != null) {
        batch.add(line);
        bytes += line.bytes().length;
        if (batch.size() == LINES_AT_ONCE || bytes >= BYTES_AT_ONCE) {
          send(batch);
          progress.accept(new Progress(skipped, lines, stored, refused));
          batch.clear();
          bytes = 0;
        }
      }
      send(batch);
      Progress end = new Progress(skipped, lines, stored, refused);
      progress.accept(end);
      note.remove();
      return end;
    } catch (IOException e) {
      throw new UncheckedIOException("cannot read " + file + ": " + e.getMessage(), e);
    }
  }

  private void send(List<Line> batch) throws IOException {
    List<Line> sent = batch.stream().filter(line -> !line.tooLong()).toList();
    List<JsonNode> answers =
        sent.isEmpty() ? List.of() : client.send(sent.stream().map(Line::bytes).toList());
    int next = 0;
    for (Line line : batch) {
      if (line.tooLong()) {
        refuse(line, tooLong(line));
      } else {
        ObjectNode answer = (ObjectNode) answers.get(next++);
        if (answer.path("status").asInt() < 300) {
          stored++;
        } else {
          refuse(line, answer.put("line", line.number()));
        }
      }
      lines++;
      note.done(line);
    }
    note.write();
  }

  private static ObjectNode tooLong(Line line) {
    Problem problem =
        Problem.of(
            ProblemType.CONTENT_TOO_LARGE,
            "A line may have " + LineReader.MAX_BYTES + " bytes at most.");
    LineResult result = LineResult.of(line.number(), problem, UUID.randomUUID().toString());
    return (ObjectNode) JsonMapper.shared().readTree(result.json());
  }

  private void refuse(Line line, ObjectNode answer) throws IOException {
    refused++;
    @Nullable JsonNode sent = tree(line);
    if (sent == null) {
      answer.put("sent", new String(line.bytes(), StandardCharsets.UTF_8));
    } else {
      answer.set("sent", sent);
    }
    try (BufferedWriter out = ImportNote.appendTo(refusedFile())) {
      out.write(JsonMapper.shared().writeValueAsString(answer));
      out.write('\n');
    }
  }

  private static @Nullable JsonNode tree(Line line) {
    try {
      return StrictJson.read(line.bytes(), Limits.OWN);
    } catch (NotJson text) {
      return null;
    }
  }
}
