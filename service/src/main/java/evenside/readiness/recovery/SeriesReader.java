package evenside.readiness.recovery;

import evenside.measure.Aspect;
import evenside.measure.Measure;
import evenside.measure.MeasureCatalogue;
import evenside.readiness.cases.Way;
import evenside.readiness.decision.DecisionInputs;
import evenside.store.Reading;
import evenside.store.StoredCase;
import evenside.store.evidence.EvidenceSearch;
import evenside.store.evidence.FiledNumber;
import evenside.store.evidence.FoundEvidence;
import evenside.trend.Series;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;

/**
 * Puts the filed numbers of a case together as series. Reads the newest rows of each measure by
 * index and no document, so its cost does not grow with the case.
 */
final class SeriesReader {
  /** Most rows read of one measure: at three rows a test, 130 tests. Own choice. */
  static final int MOST_ROWS = 400;

  private final Reading reading;
  private final StoredCase stored;
  private final LocalDate surgery;
  private final LocalDate asOf;

  SeriesReader(Reading reading, StoredCase stored, LocalDate surgery, LocalDate asOf) {
    this.reading = reading;
    this.stored = stored;
    this.surgery = surgery;
    this.asOf = asOf;
  }

  /** Every series of the case up to the date, in the order of the catalogue. */
  List<Series> all(MeasureCatalogue catalogue) {
    List<Measure> numbers =
        catalogue.all().stream().filter(one -> !one.family().equals("clinicianFact")).toList();
    EvidenceSearch search = reading.evidence(stored.clinic(), stored.caseId());
    Set<String> filed = search.filed(numbers.stream().map(Measure::code).toList());
    List<Series> all = new ArrayList<>();
    for (Measure measure : numbers) {
      if (filed.contains(measure.code())) {
        all.addAll(of(measure, search));
      }
    }
    return all;
  }

  private List<Series> of(Measure measure, EvidenceSearch search) {
    List<FoundEvidence> rows = search.series(measure.code(), DecisionInputs.endOf(asOf), MOST_ROWS);
    Map<String, Map<UUID, List<FoundEvidence>>> byWay = new LinkedHashMap<>();
    for (FoundEvidence row : rows) {
      row.row()
          .number()
          .filter(number -> !number.performedOn().isAfter(asOf))
          .ifPresent(
              number ->
                  byWay
                      .computeIfAbsent(number.way(), any -> new LinkedHashMap<>())
                      .computeIfAbsent(row.batteryId(), any -> new ArrayList<>())
                      .add(row));
    }
    boolean cut = rows.size() == MOST_ROWS;
    return byWay.entrySet().stream().map(way -> series(measure, way, cut)).toList();
  }

  private Series series(
      Measure measure, Map.Entry<String, Map<UUID, List<FoundEvidence>>> byBattery, boolean cut) {
    Way way = Way.parse(byBattery.getKey());
    List<Series.Test> tests =
        byBattery.getValue().values().stream()
            .sorted(
                Comparator.comparing((List<FoundEvidence> rows) -> rows.get(0).performedAt())
                    .thenComparing(rows -> rows.get(0).batteryId()))
            .map(this::test)
            .toList();
    return new Series(measure, way.protocol(), way.aggregation(), tests, cut);
  }

  private Series.Test test(List<FoundEvidence> rows) {
    Map<Aspect, Double> numbers = new EnumMap<>(Aspect.class);
    for (FoundEvidence row : rows) {
      row.row()
          .number()
          .ifPresent(number -> numbers.put(Aspect.of(row.row().aspect()), number.amount()));
    }
    FiledNumber any = rows.get(0).row().number().orElseThrow();
    double weeks = ChronoUnit.DAYS.between(surgery, any.performedOn()) / 7.0;
    return new Series.Test(rows.get(0).batteryId().toString(), any.performedOn(), weeks, numbers);
  }
}
