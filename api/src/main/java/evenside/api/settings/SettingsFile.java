package evenside.api.settings;

import java.io.IOException;
import java.nio.charset.CharacterCodingException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;

/**
 * A properties file: UTF-8, {@code name = value} a line, {@code #} before a comment line. A value
 * is the rest of its line as it stands; a backslash means nothing, so a path may hold one.
 */
final class SettingsFile {
  private SettingsFile() {}

  /** Where a value stands in the file. */
  record Entry(String value, int line) {}

  /**
   * Reads a file.
   *
   * @param known the names it may hold
   * @param faults takes a sentence for each line that cannot be taken
   */
  static Map<String, Entry> read(Path file, Set<String> known, List<String> faults) {
    Map<String, Entry> entries = new LinkedHashMap<>();
    List<String> lines = lines(file);
    for (int i = 0; i < lines.size(); i++) {
      String line = lines.get(i).strip();
      if (!line.isEmpty() && !line.startsWith("#")) {
        String fault = add(line, i + 1, known, entries);
        if (!fault.isEmpty()) {
          faults.add(file + ":" + (i + 1) + ": " + fault);
        }
      }
    }
    return entries;
  }

  /** What is wrong with a line; empty if nothing. The value is never repeated: it may be secret. */
  private static String add(String line, int number, Set<String> known, Map<String, Entry> to) {
    int equals = line.indexOf('=');
    if (equals < 0) {
      return "this line is not \"name = value\"";
    }
    String name = line.substring(0, equals).strip();
    if (!known.contains(name)) {
      return "unknown setting \"" + name + "\"" + nearest(name, known);
    }
    Entry before = to.put(name, new Entry(line.substring(equals + 1).strip(), number));
    return before == null ? "" : name + " is set already in line " + before.line();
  }

  private static String nearest(String name, Set<String> known) {
    List<String> near = new ArrayList<>();
    for (String other : new TreeSet<>(known)) {
      if (distance(name, other) <= 2) {
        near.add(other);
      }
    }
    return near.isEmpty() ? "" : "; did you mean " + String.join(" or ", near) + "?";
  }

  /** Letters to add, drop or change (Levenshtein). */
  private static int distance(String a, String b) {
    int[] row = new int[b.length() + 1];
    for (int j = 0; j <= b.length(); j++) {
      row[j] = j;
    }
    for (int i = 1; i <= a.length(); i++) {
      int diagonal = row[0];
      row[0] = i;
      for (int j = 1; j <= b.length(); j++) {
        int change = diagonal + (a.charAt(i - 1) == b.charAt(j - 1) ? 0 : 1);
        diagonal = row[j];
        row[j] = Math.min(change, 1 + Math.min(row[j], row[j - 1]));
      }
    }
    return row[b.length()];
  }

  private static List<String> lines(Path file) {
    try {
      return Files.readAllLines(file);
    } catch (NoSuchFileException e) {
      throw new BadSettings("there is no settings file " + file);
    } catch (CharacterCodingException e) {
      throw new BadSettings("the settings file " + file + " is not UTF-8");
    } catch (IOException e) {
      throw new BadSettings("the settings file " + file + " cannot be read: " + e.getMessage());
    }
  }
}
