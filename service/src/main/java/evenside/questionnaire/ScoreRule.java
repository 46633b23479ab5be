package evenside.questionnaire;

import java.util.List;

/**
 * One number that an instrument gives.
 *
 * @param measure code of the measure in the catalogue
 * @param items the items that enter it, in the order the formula takes them
 * @param formula how they become the number
 */
public record ScoreRule(String measure, List<Item> items, Formula formula) {
  public ScoreRule {
    items = List.copyOf(items);
    int size = items.size();
    boolean fits =
        switch (formula) {
          case VALUE -> size == 1;
          case DIFFERENCE -> size == 2;
          case MEAN, SUM -> size > 0;
          // A percentage of the largest sum is one only where the smallest is zero.
          case PERCENT_OF_MAXIMUM, HUNDRED_LESS_PERCENT ->
              size > 0 && items.stream().allMatch(item -> item.least() == 0);
        };
    if (!fits) {
      throw new IllegalArgumentException(
          measure + ": the formula " + formula.code() + " does not fit its " + size + " items");
    }
  }
}
