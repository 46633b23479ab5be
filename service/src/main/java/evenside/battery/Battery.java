package evenside.battery;

import evenside.limb.Side;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * One day of tests of one case.
 *
 * @param id identifier of the record, or its place in a request
 * @param performedAt when, with the clinic's offset
 * @param bodyMass kg, or null
 * @param height cm, or null
 * @param limbLength cm by side; empty where not given
 * @param shankLength cm, or null
 * @param results per measure and side
 * @param questionnaires filled in on the day
 * @param notPerformed what was meant to be done and was not
 */
public record Battery(
    String id,
    OffsetDateTime performedAt,
    @Nullable Double bodyMass,
    @Nullable Double height,
    Map<Side, Double> limbLength,
    @Nullable Double shankLength,
    List<Result> results,
    List<FilledIn> questionnaires,
    List<NotPerformed> notPerformed) {
  public Battery {
    limbLength = Map.copyOf(limbLength);
    results = List.copyOf(results);
    questionnaires = List.copyOf(questionnaires);
    notPerformed = List.copyOf(notPerformed);
  }

  /** The day of the tests on the clinic's calendar. */
  public LocalDate performedOn() {
    return performedAt.toLocalDate();
  }
}
