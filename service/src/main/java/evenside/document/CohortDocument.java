package evenside.document;

import evenside.cohort.Cells;
import evenside.cohort.CohortNumbers;
import evenside.cohort.Determined;
import evenside.cohort.Share;
import evenside.cohort.SurvivalCurve;
import evenside.cohort.Tally;
import evenside.quantity.Decimals;
import java.util.Comparator;
import java.util.List;
import java.util.OptionalInt;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/** A clinic's own numbers as JSON, with small counts hidden. */
public final class CohortDocument {
  private static final JsonNodeFactory JSON = JsonNodeFactory.instance;

  private static final List<String> DEFINITIONS =
      List.of(
          "Each case counts once, by its newest decision on the set in the span of dates.",
          "Enrolled are all cases that match the filter, decided those of them with a decision;"
              + " tested on a criterion are those with a result, met or not met.",
          "Shares carry Wilson’s score interval.",
          "Time runs from surgery to the earliest date for which a decision on the milestone, by"
              + " any set, was met; others are censored at their newest battery. Median by"
              + " Kaplan and Meier, limits by Brookmeyer and Crowley with log-log limits.",
          "A count of at least one but fewer than the smallest cell is hidden, and so are"
              + " further counts from which it would follow. Two answers with almost the same"
              + " filter can still differ by one person: whoever publishes them must look at that.",
          "Ages are calendar years from year of birth to year of surgery.");

  private final CohortNumbers numbers;
  private final int smallest;
  private final boolean tooFew;
  private final boolean enrolledHidden;

  private CohortDocument(CohortNumbers numbers, int smallest) {
    this.numbers = numbers;
    this.smallest = smallest;
    this.tooFew = small(numbers.decided());
    // Without this, enrolled minus decided would give the few away.
    this.enrolledHidden =
        small(numbers.enrolled()) || small(numbers.enrolled() - numbers.decided());
  }

  /**
   * The members that hold numbers.
   *
   * @param smallest fewest people a shown count may have
   */
  public static ObjectNode of(CohortNumbers numbers, int smallest) {
    return new CohortDocument(numbers, smallest).document();
  }

  private ObjectNode document() {
    ObjectNode json = JSON.objectNode();
    json.put("smallestCell", smallest);
    json.put("level", Share.LEVEL);
    if (!enrolledHidden) {
      json.put("enrolled", numbers.enrolled());
    }
    if (!tooFew) {
      json.put("decided", numbers.decided());
    }
    json.set("overall", tally(numbers.overall()));
    ArrayNode criteria = json.putArray("criteria");
    for (Tally tally : numbers.criteria()) {
      ObjectNode row = tally(tally);
      row.put("criterion", tally.criterion()).put("title", tally.title());
      row.put("required", tally.required());
      criteria.add(row);
    }
    json.set("blocking", blocking());
    json.set("determinations", determinations());
    ArrayNode times = json.putArray("timeToMilestone");
    numbers.times().forEach((milestone, curve) -> times.add(time(milestone, curve)));
    ArrayNode definitions = json.putArray("definitions");
    DEFINITIONS.forEach(definitions::add);
    return json;
  }

  private ObjectNode tally(Tally tally) {
    ObjectNode json = JSON.objectNode();
    Cells cells = cells(tally);
    json.put("suppressed", tooFew || cells.hides());
    if (tooFew) {
      return json;
    }
    put(json, "met", cells.shown(0));
    put(json, "notMet", cells.shown(1));
    put(json, "undetermined", cells.shown(2));
    if (tally.notApplicable() > 0) {
      put(json, "notApplicable", cells.shown(3));
    }
    if (cells.shown(0).isPresent() && cells.shown(1).isPresent() && tally.tested() > 0) {
      json.set("ofTested", share(tally.met(), tally.tested()));
    }
    if (cells.shown(0).isPresent() && !enrolledHidden && numbers.enrolled() > 0) {
      json.set("ofEnrolled", share(tally.met(), numbers.enrolled()));
    }
    return json;
  }

  private Cells cells(Tally tally) {
    return Cells.of(
        smallest, tally.met(), tally.notMet(), tally.undetermined(), tally.notApplicable());
  }

  private ArrayNode blocking() {
    ArrayNode array = JSON.arrayNode();
    if (tooFew) {
      return array;
    }
    numbers.criteria().stream()
        .filter(Tally::required)
        .filter(tally -> tally.notMet() > 0 && cells(tally).shown(1).isPresent())
        .sorted(Comparator.comparingInt(Tally::notMet).reversed())
        .forEach(
            tally -> {
              ObjectNode row = array.addObject();
              row.put("criterion", tally.criterion()).put("title", tally.title());
              row.put("notMet", tally.notMet());
              put(row, "alone", Cells.of(smallest, tally.alone(), others(tally)).shown(0));
            });
    return array;
  }

  private static int others(Tally tally) {
    return tally.notMet() - tally.alone();
  }

  private ObjectNode determinations() {
    Determined determined = numbers.determined();
    int all = determined.all();
    boolean hidden = tooFew || small(all) || small(numbers.decided() - all);
    Cells cells =
        Cells.of(smallest, determined.agreeing(), determined.cleared(), determined.otherwise());
    ObjectNode json = JSON.objectNode().put("suppressed", hidden || cells.hides());
    if (!hidden) {
      json.put("determined", all);
      put(json, "agreeing", cells.shown(0));
      put(json, "clearedNotMet", cells.shown(1));
      put(json, "otherwiseDiffering", cells.shown(2));
    }
    return json;
  }

  private ObjectNode time(String milestone, SurvivalCurve curve) {
    ObjectNode json = JSON.objectNode().put("milestone", milestone);
    Cells cells = Cells.of(smallest, curve.events(), curve.censored());
    boolean hidden = cells.hides() || enrolledHidden;
    json.put("suppressed", hidden);
    if (hidden) {
      return json;
    }
    json.put("met", curve.events()).put("censored", curve.censored());
    put(json, "medianDays", curve.median());
    if (curve.median().isPresent()) {
      put(json, "low", curve.medianLow());
      put(json, "high", curve.medianHigh());
    }
    return json;
  }

  private static ObjectNode share(int count, int of) {
    Share share = Share.of(count, of);
    return JSON.objectNode()
        .put("count", count)
        .put("of", of)
        .put("percent", Decimals.exact(share.percent()))
        .put("low", Decimals.exact(share.low()))
        .put("high", Decimals.exact(share.high()));
  }

  private boolean small(int people) {
    return people > 0 && people < smallest;
  }

  private static void put(ObjectNode json, String name, OptionalInt count) {
    count.ifPresent(value -> json.put(name, value));
  }
}
