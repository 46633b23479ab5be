package evenside.questionnaire;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * One questionnaire, as far as its numbers go.
 *
 * @param code of the instrument
 * @param version of the form
 * @param items every item that may be answered, also those that are not scored
 * @param scores the numbers it gives
 * @param missingRules the first is taken unless a record names another
 * @param flags answers worth a look
 * @param bandSets published names for parts of the scale
 */
public record Instrument(
    String code,
    String version,
    List<Item> items,
    List<ScoreRule> scores,
    List<MissingRule> missingRules,
    List<Flag> flags,
    List<BandSet> bandSets) {
  /** Every score is in points of its own scale (UCUM annotation). */
  public static final String UNIT = "{score}";

  /**
   * Checks that the parts fit.
   *
   * @throws IllegalArgumentException naming the instrument and what does not fit
   */
  public Instrument {
    items = List.copyOf(items);
    scores = List.copyOf(scores);
    missingRules = List.copyOf(missingRules);
    flags = List.copyOf(flags);
    bandSets = List.copyOf(bandSets);
    Map<String, Item> byNumber = new LinkedHashMap<>();
    items.forEach(item -> byNumber.put(item.number(), item));
    require(byNumber.size() == items.size(), code, "an item stands twice");
    require(!missingRules.isEmpty(), code, "there is no rule for missing items");
    for (Flag flag : flags) {
      require(byNumber.containsKey(flag.item()), code, "a flag is for no item: " + flag.item());
    }
    for (MissingRule rule : missingRules) {
      for (ScoreRule score : scores) {
        int needed = rule.needed(score.measure());
        int all = score.items().size();
        boolean fits =
            needed >= 1 && (score.formula().needsEveryItem() ? needed == all : needed <= all);
        require(fits, code, rule.code() + " asks for " + needed + " of " + all + " items");
      }
    }
  }

  private static void require(boolean holds, String code, String otherwise) {
    if (!holds) {
      throw new IllegalArgumentException("instrument " + code + ": " + otherwise);
    }
  }

  public Optional<Item> item(String number) {
    return items.stream().filter(item -> item.number().equals(number)).findFirst();
  }

  public Optional<ScoreRule> score(String measure) {
    return scores.stream().filter(score -> score.measure().equals(measure)).findFirst();
  }

  /** The rule of this code; without a code the one in force. */
  public Optional<MissingRule> missingRule(String code) {
    return code.isEmpty()
        ? Optional.of(missingRules.get(0))
        : missingRules.stream().filter(rule -> rule.code().equals(code)).findFirst();
  }

  /** True if an answer to the item can change a score. */
  public boolean isScored(Item item) {
    return scores.stream().anyMatch(score -> score.items().contains(item));
  }
}
