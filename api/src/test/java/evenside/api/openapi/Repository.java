package evenside.api.openapi;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.ObjectMapper;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.dataformat.yaml.YAMLMapper;

/** The project's own files, as they lie in the working copy. */
public final class Repository {
  private static final ObjectMapper JSON = JsonMapper.shared();
  private static final ObjectMapper YAML = new YAMLMapper();

  private Repository() {}

  /** The file or folder {@code path} under the top of the project. */
  public static Path path(String path) {
    Path here = Path.of(System.getProperty("basedir", "."));
    // A test runs in its module, a program that is started by hand at the top.
    boolean top = Files.exists(here.resolve("openapi.yaml"));
    return (top ? here : here.resolve("..")).resolve(path).normalize();
  }

  /** {@code openapi.yaml}, parsed. */
  public static JsonNode openApi() {
    return YAML.readTree(path("openapi.yaml"));
  }

  /** The JSON file at {@code path}. */
  static JsonNode json(Path path) {
    return JSON.readTree(path);
  }

  /** The files of {@code folder} whose names end with {@code suffix}, by name. */
  static List<Path> files(String folder, String suffix) {
    try (Stream<Path> files = Files.list(path(folder))) {
      return files.filter(file -> file.toString().endsWith(suffix)).sorted().toList();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
