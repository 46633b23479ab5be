package evenside.store.cohort;

import java.util.Arrays;
import java.util.List;
import java.util.stream.Collectors;

/**
 * What a decision found on one criterion, or on the whole set.
 *
 * @param criterion id of the criterion, or {@link #WHOLE_SET}
 * @param outcome code of the outcome
 * @param required false if shown for information only
 * @param alone true if it is the one required criterion that is not met
 */
public record FindingRow(String criterion, String outcome, boolean required, boolean alone) {
  /** Stands for the set as a whole; no criterion can be called so. */
  public static final String WHOLE_SET = "*";

  /** The outcome of a criterion that is for other people. */
  public static final String NOT_APPLICABLE = "not-applicable";

  private static final String REQUIRED = " required";
  private static final String ALONE = " alone";

  /** All that a decision found, in one text, as it is kept. Ids and codes hold no white space. */
  public static String lines(List<FindingRow> findings) {
    return findings.stream().map(FindingRow::line).collect(Collectors.joining("\n"));
  }

  private String line() {
    return criterion + " " + outcome + (required ? REQUIRED : "") + (alone ? ALONE : "");
  }

  /** The findings that a text holds. */
  static List<FindingRow> parse(String lines) {
    return lines.lines().map(FindingRow::parseLine).toList();
  }

  private static FindingRow parseLine(String line) {
    List<String> words = Arrays.asList(line.split(" ", -1));
    List<String> marks = words.subList(2, words.size());
    return new FindingRow(
        words.get(0),
        words.get(1),
        marks.contains(REQUIRED.strip()),
        marks.contains(ALONE.strip()));
  }
}
