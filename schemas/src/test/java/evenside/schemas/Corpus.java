package evenside.schemas;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import tools.jackson.databind.JsonNode;

/** The example files: what the schemas take, and what they refuse and why. */
final class Corpus {

  /** Kinds of document that a sender writes. */
  static final List<String> INPUT_KINDS =
      List.of(
          "case",
          "battery",
          "session",
          "criteria-set",
          "decision-request",
          "assessment-request",
          "determination",
          "what-if-request",
          "replay-request",
          "erasure-request",
          "adopted-plan");

  /** Folder of the module: the published files and the examples. */
  static final Path FOLDER = Path.of("").toAbsolutePath();

  private static final Path EXAMPLES = FOLDER.resolve("examples");
  private static final String EXPECTED = ".expected.json";

  private Corpus() {}

  /** A document and its kind. */
  record Sample(String kind, String name, JsonNode document) {
    @Override
    public String toString() {
      return kind + "/" + name;
    }
  }

  /** What is expected of an invalid example. */
  record PlaceAndCode(String pointer, String code) {
    static PlaceAndCode of(Fault fault) {
      return new PlaceAndCode(fault.pointer(), fault.code());
    }
  }

  static List<Sample> valid() {
    return samples("valid");
  }

  static List<Sample> invalid() {
    return samples("invalid");
  }

  /** The valid example of a kind that holds every optional member. */
  static Sample everything(String kind) {
    return valid().stream()
        .filter(sample -> sample.kind().equals(kind) && sample.name().equals("everything"))
        .findFirst()
        .orElseThrow();
  }

  static List<PlaceAndCode> expected(Sample sample) {
    Path file = EXAMPLES.resolve("invalid/" + sample.kind() + "/" + sample.name() + EXPECTED);
    return read(file)
        .valueStream()
        .map(one -> new PlaceAndCode(one.path("pointer").asString(), one.path("code").asString()))
        .toList();
  }

  private static List<Sample> samples(String verdict) {
    try (Stream<Path> files = Files.walk(EXAMPLES.resolve(verdict))) {
      return files
          .filter(file -> file.toString().endsWith(".json"))
          .filter(file -> !file.toString().endsWith(EXPECTED))
          .sorted()
          .map(Corpus::sample)
          .toList();
    } catch (IOException unreadable) {
      throw new UncheckedIOException(unreadable);
    }
  }

  private static Sample sample(Path file) {
    String kind = file.getParent().getFileName().toString();
    String name = file.getFileName().toString().replace(".json", "");
    return new Sample(kind, name, read(file));
  }

  static JsonNode read(Path file) {
    try {
      return StrictJson.read(Files.readAllBytes(file), StrictJson.Limits.OWN);
    } catch (IOException unreadable) {
      throw new UncheckedIOException("cannot read " + file, unreadable);
    }
  }
}
