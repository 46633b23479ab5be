package evenside.store.evidence;

import java.time.Instant;
import java.util.List;
import java.util.Optional;

/**
 * Which evidence is asked for. An absent member means any.
 *
 * @param measure code of the measure
 * @param aspect which number of the measure
 * @param modes modes of strength testing that count; empty means any
 * @param speed angular speed, deg/s
 * @param angle knee angle, deg
 * @param context situation of a pain rating
 * @param notAfter newest time allowed, inclusive
 * @param notBefore oldest time allowed, inclusive
 */
public record EvidenceQuery(
    String measure,
    String aspect,
    List<String> modes,
    Optional<Double> speed,
    Optional<Double> angle,
    Optional<String> context,
    Instant notAfter,
    Optional<Instant> notBefore) {
  /** Keeps its own copy of the modes. */
  public EvidenceQuery {
    modes = List.copyOf(modes);
  }

  /** Whether a row, of a time that is asked about, is an answer. */
  public boolean isAnsweredBy(EvidenceRow row) {
    return row.measure().equals(measure)
        && (row.aspect().equals(EvidenceRow.NOT_PERFORMED)
            || row.aspect().equals(EvidenceRow.notPerformed(aspect))
            || (row.aspect().equals(aspect)
                && (modes.isEmpty() || row.mode().filter(modes::contains).isPresent())
                && (speed.isEmpty() || speed.equals(row.speed()))
                && (angle.isEmpty() || angle.equals(row.angle()))
                && (context.isEmpty() || context.equals(row.context()))));
  }

  /**
   * Any way of testing, however old.
   *
   * @param measure code of the measure
   * @param aspect which number of the measure
   * @param notAfter newest time allowed, inclusive
   * @return the question
   */
  public static EvidenceQuery of(String measure, String aspect, Instant notAfter) {
    return new EvidenceQuery(
        measure,
        aspect,
        List.of(),
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        notAfter,
        Optional.empty());
  }
}
