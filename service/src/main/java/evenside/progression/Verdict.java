package evenside.progression;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;

/**
 * What the rules say of one session.
 *
 * @param hits every rule that holds
 * @param unanswered what is not known and could turn a rule that counts
 */
record Verdict(List<Hit> hits, List<Unanswered> unanswered) {
  static final Verdict NONE = new Verdict(List.of(), List.of());

  Verdict {
    hits = List.copyOf(hits);
    unanswered = List.copyOf(unanswered);
  }

  Verdict and(Verdict that) {
    List<Hit> all = new ArrayList<>(hits);
    all.addAll(that.hits);
    Set<Unanswered> open = new LinkedHashSet<>(unanswered);
    open.addAll(that.unanswered);
    return new Verdict(all, List.copyOf(open));
  }

  List<Hit> counted() {
    return hits.stream().filter(Hit::counted).toList();
  }

  /** The most cautious outcome of the rules that count; nothing known calls for no step up. */
  Outcome outcome() {
    List<Outcome> outcomes = new ArrayList<>(counted().stream().map(Hit::outcome).toList());
    if (!unanswered.isEmpty()) {
      outcomes.add(Outcome.INSUFFICIENT_DATA);
    }
    return Outcome.mostCautious(outcomes);
  }
}
