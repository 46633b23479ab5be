package evenside.readiness;

import evenside.assessment.AssessedBattery;
import evenside.measure.Aspect;
import evenside.measure.Gap;
import evenside.measure.Protocol;
import evenside.store.EvidenceRow;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;

/**
 * What a battery is filed under, so that the newest number for a criterion is found without reading
 * every battery of the case. Gaps are filed too: an explained absence is an answer.
 */
final class EvidenceRows {
  private EvidenceRows() {}

  static List<EvidenceRow> of(AssessedBattery assessed) {
    Set<EvidenceRow> rows = new LinkedHashSet<>();
    assessed.measured().forEach(m -> rows.add(row(m.measure(), m.aspect().code(), m.protocol())));
    assessed.gaps().forEach(gap -> rows.add(row(gap.measure(), aspect(gap), gap.protocol())));
    return List.copyOf(rows);
  }

  private static String aspect(Gap gap) {
    Aspect aspect = gap.aspect();
    return aspect == null ? EvidenceRow.NOT_PERFORMED : absent(aspect);
  }

  /** What the explained absence of a number is filed under. */
  static String absent(Aspect aspect) {
    return "no-" + aspect.code();
  }

  private static EvidenceRow row(String measure, String aspect, Protocol protocol) {
    return new EvidenceRow(
        measure,
        aspect,
        term(protocol, Protocol.MODE, String.class),
        term(protocol, Protocol.SPEED, Double.class),
        term(protocol, Protocol.ANGLE, Double.class),
        term(protocol, Protocol.CONTEXT, String.class));
  }

  private static <T> Optional<T> term(Protocol protocol, String name, Class<T> type) {
    return Optional.ofNullable(protocol.terms().get(name)).map(type::cast);
  }
}
