package evenside.schemas;

import evenside.schemas.StrictJson.Limits;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.SortedMap;
import java.util.SortedSet;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Stream;
import tools.jackson.databind.JsonNode;

/**
 * Compares two versions of the published schemas, each given as the folder of its bundles.
 *
 * <p>What a sender writes is closed ({@code additionalProperties: false} at its root), and there
 * whatever was taken must still be taken. What a reader gets is open, and there whatever was
 * promised must still be promised; a further member or code is no break, as readers are told to
 * ignore what they do not know. Words do not count, nor the number of the version itself.
 */
public final class Comparison {
  private static final String SUFFIX = ".schema.json";

  private Comparison() {}

  /**
   * The differences between two folders of bundles, by kind and place.
   *
   * @throws IllegalArgumentException if a folder holds no bundle
   */
  public static List<Difference> of(Path before, Path after) {
    return of(bundles(before), bundles(after));
  }

  /**
   * The documents in a folder whose verdict differs between two folders of bundles; each document
   * lies in a folder named after its kind.
   */
  public static List<Difference> ofSamples(Path before, Path after, Path samples) {
    return SampleComparison.of(bundles(before), bundles(after), samples);
  }

  /** The differences between two sets of bundles, each by its kind. */
  static List<Difference> of(
      SortedMap<String, JsonNode> before, SortedMap<String, JsonNode> after) {
    SortedSet<String> kinds = new TreeSet<>(before.keySet());
    kinds.addAll(after.keySet());
    List<Difference> differences = new ArrayList<>();
    for (String kind : kinds) {
      if (!after.containsKey(kind)) {
        differences.add(new Difference(kind, "", true, "the kind is gone"));
      } else if (!before.containsKey(kind)) {
        differences.add(new Difference(kind, "", false, "the kind is new"));
      } else {
        differences.addAll(
            new KindComparison(kind, before.get(kind), after.get(kind)).differences());
      }
    }
    return differences;
  }

  /**
   * The differences between two versions whose bundles a contract has.
   *
   * @throws IllegalArgumentException if it has none of a version
   */
  public static List<Difference> of(Contract contract, String before, String after) {
    return of(bundles(contract, before), bundles(contract, after));
  }

  private static SortedMap<String, JsonNode> bundles(Contract contract, String version) {
    String folder = "bundles/" + version + "/";
    SortedMap<String, JsonNode> bundles = new TreeMap<>();
    for (String path : contract.files()) {
      if (path.startsWith(folder)) {
        String kind = path.substring(folder.length()).replace(SUFFIX, "");
        bundles.put(kind, StrictJson.read(contract.file(path).orElseThrow(), Limits.OWN));
      }
    }
    if (bundles.isEmpty()) {
      throw new IllegalArgumentException("the contract has no version " + version);
    }
    return bundles;
  }

  /** The bundles in a folder, by kind. */
  static SortedMap<String, JsonNode> bundles(Path folder) {
    SortedMap<String, JsonNode> bundles = new TreeMap<>();
    try (Stream<Path> files = Files.list(folder)) {
      for (Path file : files.filter(one -> one.toString().endsWith(SUFFIX)).toList()) {
        String kind = file.getFileName().toString().replace(SUFFIX, "");
        bundles.put(kind, read(file));
      }
    } catch (IOException unreadable) {
      throw new UncheckedIOException("cannot read the bundles in " + folder, unreadable);
    }
    if (bundles.isEmpty()) {
      throw new IllegalArgumentException("there is no bundle, *" + SUFFIX + ", in " + folder);
    }
    return bundles;
  }

  /**
   * One file of many, which a refusal has to name.
   *
   * @throws IllegalArgumentException if it is not JSON
   */
  static JsonNode read(Path file) throws IOException {
    try {
      return StrictJson.read(Files.readAllBytes(file), Limits.OWN);
    } catch (NotJson refused) {
      throw new IllegalArgumentException(file + ": " + refused.getMessage(), refused);
    }
  }
}
