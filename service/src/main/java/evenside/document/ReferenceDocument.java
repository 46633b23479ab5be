package evenside.document;

import evenside.measure.ReferenceValue;
import java.util.Locale;

/** A published figure about other people, as it stands beside a finding. */
final class ReferenceDocument {
  private static final Fragments<ReferenceValue> VALUES = new Fragments<>(ReferenceDocument::value);

  private ReferenceDocument() {}

  static void write(CanonicalWriter json, ReferenceValue value) {
    json.written(VALUES.of(value));
  }

  private static void value(CanonicalWriter json, ReferenceValue value) {
    json.object().putIfAny("high", value.high()).put("id", value.id());
    json.putIfAny("low", value.low()).putIfAny("mean", value.mean());
    json.put("note", value.note()).put("population", value.population());
    json.putIfAny("sd", value.sd());
    if (value.sex() != null) {
      json.put("sex", value.sex().name().toLowerCase(Locale.ROOT));
    }
    json.put("source", value.source()).put("statistic", value.statistic());
    json.put("unit", value.unit()).putIfAny("value", value.value());
    json.put("verified", value.verified()).end();
  }
}
