package evenside.questionnaire;

import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/** All questionnaires that are known. */
public final class Instruments {
  private final Map<String, Instrument> byCode = new LinkedHashMap<>();

  public Instruments(Collection<Instrument> instruments) {
    instruments.forEach(instrument -> byCode.put(instrument.code(), instrument));
  }

  public Optional<Instrument> find(String code) {
    return Optional.ofNullable(byCode.get(code));
  }

  /**
   * The instrument with this code.
   *
   * @throws IllegalArgumentException if there is none
   */
  public Instrument get(String code) {
    return find(code)
        .orElseThrow(() -> new IllegalArgumentException("instrument " + code + " is not known"));
  }

  public Set<String> codes() {
    return Set.copyOf(byCode.keySet());
  }

  public Collection<Instrument> all() {
    return List.copyOf(byCode.values());
  }
}
