package evenside.progression;

import evenside.criteria.Truth;
import evenside.signs.EffusionGrade;
import evenside.training.Answer;
import evenside.training.Entry;
import evenside.training.RedFlags;
import evenside.training.Session;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/**
 * Tells the entries that may call for a stop, by themselves or with others, from those that cannot.
 * The former are looked at however old they are.
 */
public final class RedFlagWatch {
  private final Progressions progressions;
  private final Judge judge;

  public RedFlagWatch(Progressions progressions) {
    this.progressions = progressions;
    this.judge = new Judge(progressions, java.util.Set.of());
  }

  /** True for an entry that may call for a stop, and for a clearance. */
  public boolean concerns(Session session) {
    if (session.entry() instanceof Entry.Clearance) {
      return true;
    }
    Bout bout = new Bout(session, List.of());
    return bout.redFlags(any -> true).anyYes() || mayStop(bout);
  }

  /** With no question answered yes, what else was stated may still call for a stop. */
  private boolean mayStop(Bout bout) {
    Map<String, Answer> none = new HashMap<>();
    progressions.inputs().redFlags().forEach(question -> none.put(question, Answer.NO));
    RedFlags flags = new RedFlags(none, bout.redFlags(any -> true).temperature());
    Inputs inputs = new KneeInputs(List.copyOf(none.keySet()), List.of(), bout).with(flags);
    EffusionGrade worst = bout.response().effusion().worst();
    int rank = worst == null ? 0 : worst.rank();
    // What is usual for the knee lies in other entries, which may say less than this one.
    inputs.put("effusion-worst", Known.number(rank));
    inputs.put("effusion-usual", new Known.Range(0, rank));
    inputs.put("effusion-rise-worst", new Known.Range(0, rank));
    return judge.kneeSets().stream()
        .flatMap(set -> set.rules().stream())
        .filter(rule -> rule.outcome() == Outcome.STOP_AND_REFER)
        .anyMatch(rule -> rule.on(inputs) != Truth.NOT_MET);
  }
}
