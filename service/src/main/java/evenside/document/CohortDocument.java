package evenside.document;

import evenside.cohort.Cells;
import evenside.cohort.CohortNumbers;
import evenside.cohort.Determined;
import evenside.cohort.Share;
import evenside.cohort.SurvivalCurve;
import evenside.cohort.Tally;
import evenside.criteria.CriteriaSet;
import evenside.decision.Engine;
import evenside.quantity.Decimals;
import java.time.LocalDate;
import java.util.Comparator;
import java.util.List;
import java.util.OptionalInt;
import java.util.function.Consumer;

/** A clinic's own numbers as JSON, with small counts hidden. */
public final class CohortDocument {
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

  private final CanonicalWriter json;
  private final CohortNumbers numbers;
  private final int smallest;
  private final boolean tooFew;
  private final boolean enrolledHidden;

  private CohortDocument(CanonicalWriter json, CohortNumbers numbers, int smallest) {
    this.json = json;
    this.numbers = numbers;
    this.smallest = smallest;
    this.tooFew = small(numbers.decided());
    // Without this, enrolled minus decided would give the few away.
    this.enrolledHidden =
        small(numbers.enrolled()) || small(numbers.enrolled() - numbers.decided());
  }

  /**
   * What was asked.
   *
   * @param set the criteria set
   * @param from first date decided for
   * @param to last date decided for
   * @param filter writes which cases are enrolled
   */
  public record Asked(
      String schemaVersion,
      CriteriaSet set,
      LocalDate from,
      LocalDate to,
      Consumer<CanonicalWriter> filter) {}

  /**
   * The answer.
   *
   * @param smallest fewest people a shown count may have
   */
  public static Document of(Asked asked, CohortNumbers numbers, int smallest) {
    return Document.written(json -> new CohortDocument(json, numbers, smallest).write(asked));
  }

  private void write(Asked asked) {
    json.object();
    blocking();
    json.name("criteria").array(numbers.criteria(), (to, tally) -> criterion(tally));
    json.name("criteriaSet").object().put("id", asked.set().id());
    json.put("version", asked.set().version()).end();
    if (!tooFew) {
      json.put("decided", numbers.decided());
    }
    json.name("definitions").texts(DEFINITIONS);
    determinations(numbers.determined());
    json.put("engineVersion", Engine.VERSION);
    if (!enrolledHidden) {
      json.put("enrolled", numbers.enrolled());
    }
    asked.filter().accept(json.name("filter"));
    json.put("from", asked.from()).put("level", Share.LEVEL);
    json.put("milestone", asked.set().milestone());
    overall(numbers.overall());
    json.put("schemaVersion", asked.schemaVersion()).put("smallestCell", smallest);
    json.name("timeToMilestone").array();
    numbers.times().forEach(this::time);
    json.end().put("to", asked.to()).end();
  }

  private void criterion(Tally tally) {
    Cells cells = cells(tally);
    json.object().put("criterion", tally.criterion());
    counts(tally, cells);
    json.put("required", tally.required());
    suppressed(cells);
    json.put("title", tally.title());
    undetermined(cells);
    json.end();
  }

  private void overall(Tally tally) {
    Cells cells = cells(tally);
    json.name("overall").object();
    counts(tally, cells);
    suppressed(cells);
    undetermined(cells);
    json.end();
  }

  private void counts(Tally tally, Cells cells) {
    if (tooFew) {
      return;
    }
    put("met", cells.shown(0));
    if (tally.notApplicable() > 0) {
      put("notApplicable", cells.shown(3));
    }
    put("notMet", cells.shown(1));
    if (cells.shown(0).isPresent() && !enrolledHidden && numbers.enrolled() > 0) {
      share(json.name("ofEnrolled"), tally.met(), numbers.enrolled());
    }
    if (cells.shown(0).isPresent() && cells.shown(1).isPresent() && tally.tested() > 0) {
      share(json.name("ofTested"), tally.met(), tally.tested());
    }
  }

  private void suppressed(Cells cells) {
    json.put("suppressed", tooFew || cells.hides());
  }

  private void undetermined(Cells cells) {
    if (!tooFew) {
      put("undetermined", cells.shown(2));
    }
  }

  private Cells cells(Tally tally) {
    return Cells.of(
        smallest, tally.met(), tally.notMet(), tally.undetermined(), tally.notApplicable());
  }

  private void blocking() {
    List<Tally> most =
        numbers.criteria().stream()
            .filter(tally -> !tooFew && tally.required() && tally.notMet() > 0)
            .filter(tally -> cells(tally).shown(1).isPresent())
            .sorted(Comparator.comparingInt(Tally::notMet).reversed())
            .toList();
    json.name("blocking").array(most, (to, tally) -> blocking(tally));
  }

  private void blocking(Tally tally) {
    json.object();
    put("alone", Cells.of(smallest, tally.alone(), others(tally)).shown(0));
    json.put("criterion", tally.criterion()).put("notMet", tally.notMet());
    json.put("title", tally.title()).end();
  }

  private static int others(Tally tally) {
    return tally.notMet() - tally.alone();
  }

  private void determinations(Determined determined) {
    int all = determined.all();
    boolean hidden = tooFew || small(all) || small(numbers.decided() - all);
    Cells cells =
        Cells.of(smallest, determined.agreeing(), determined.cleared(), determined.otherwise());
    json.name("determinations").object();
    if (!hidden) {
      put("agreeing", cells.shown(0));
      put("clearedNotMet", cells.shown(1));
      json.put("determined", all);
      put("otherwiseDiffering", cells.shown(2));
    }
    json.put("suppressed", hidden || cells.hides()).end();
  }

  private void time(String milestone, SurvivalCurve curve) {
    Cells cells = Cells.of(smallest, curve.events(), curve.censored());
    boolean hidden = cells.hides() || enrolledHidden;
    json.object();
    if (!hidden) {
      json.put("censored", curve.censored());
      if (curve.median().isPresent()) {
        put("high", curve.medianHigh());
        put("low", curve.medianLow());
      }
      put("medianDays", curve.median());
      json.put("met", curve.events());
    }
    json.put("milestone", milestone).put("suppressed", hidden).end();
  }

  private static void share(CanonicalWriter json, int count, int of) {
    Share share = Share.of(count, of);
    json.object().put("count", count).put("high", Decimals.exact(share.high()));
    json.put("low", Decimals.exact(share.low())).put("of", of);
    json.put("percent", Decimals.exact(share.percent())).end();
  }

  private boolean small(int people) {
    return people > 0 && people < smallest;
  }

  private void put(String name, OptionalInt count) {
    count.ifPresent(value -> json.put(name, value));
  }
}
