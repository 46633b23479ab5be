package evenside.progression;

import evenside.criteria.Truth;
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
    if (bout.response().effusion().now() != null) {
      // What is usual for the knee lies in other entries, which may say less than this one.
      inputs.put("effusion-usual", Known.NOTHING);
      double now = ((Known.Range) inputs.value("effusion-now")).high();
      inputs.put("effusion-rise", new Known.Range(-now, now));
    } else {
      inputs.put("effusion-now", new Known.Range(0, 0));
      inputs.put("effusion-usual", new Known.Range(0, 0));
      inputs.put("effusion-rise", new Known.Range(0, 0));
    }
    return judge.kneeSets().stream()
        .flatMap(set -> set.rules().stream())
        .filter(rule -> rule.outcome() == Outcome.STOP_AND_REFER)
        .anyMatch(rule -> rule.on(inputs) != Truth.NOT_MET);
  }
}
