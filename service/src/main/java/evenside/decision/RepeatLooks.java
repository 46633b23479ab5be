package evenside.decision;

import evenside.quantity.Decimals;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.Comparator;
import java.util.List;

/**
 * How often the knee was tested shortly before a decision. Every look is a chance of a result that
 * turned by error alone.
 *
 * @param batteries batteries in the {@link #DAYS} days that end with the as-of date
 */
public record RepeatLooks(int batteries) {
  /** Length of the time looked at: own proposal, about the interval between two retests. */
  public static final int DAYS = 14;

  private static final double LEVEL = 0.95;

  public RepeatLooks {
    if (batteries < 0) {
      throw new IllegalArgumentException("number of batteries " + batteries + " is below zero");
    }
  }

  /**
   * Counts by the clinic's calendar.
   *
   * @param performed when the batteries of the case were done, in any order
   * @param asOf the date decided for
   */
  public static RepeatLooks among(List<OffsetDateTime> performed, LocalDate asOf) {
    ZoneOffset clinic = calendar(performed, asOf);
    long count =
        performed.stream()
            .map(at -> at.withOffsetSameInstant(clinic).toLocalDate())
            .filter(day -> !day.isBefore(firstDay(asOf)) && !day.isAfter(asOf))
            .count();
    return new RepeatLooks(Math.toIntExact(count));
  }

  /** The offset of the newest battery of that date or before, which counts the days. */
  public static ZoneOffset calendar(List<OffsetDateTime> performed, LocalDate asOf) {
    return performed.stream()
        .filter(at -> !at.toLocalDate().isAfter(asOf))
        .max(Comparator.comparing(OffsetDateTime::toInstant))
        .map(OffsetDateTime::getOffset)
        .orElse(ZoneOffset.UTC);
  }

  /** The first day looked at. */
  public static LocalDate firstDay(LocalDate asOf) {
    return asOf.minusDays(DAYS - 1L);
  }

  /**
   * Chance of a false change over so many looks.
   *
   * <p>Shape: {@code 100 * (1 - 0.95^m)}, m looks judged at the 95 % level, independent of each
   * other.
   *
   * <p>Unit: percent.
   *
   * <p>Not computable: never.
   *
   * <p>Error: tests a few days apart share part of their error, so the true chance is smaller.
   *
   * <p>Source: probability of at least one of several independent events.
   */
  public double chanceOfFalseChange() {
    return Decimals.exact(100 * (1 - Math.pow(LEVEL, batteries)));
  }
}
