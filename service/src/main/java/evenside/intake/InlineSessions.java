package evenside.intake;

import evenside.limb.Side;
import evenside.schemas.Fault;
import evenside.training.Session;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import tools.jackson.core.JsonPointer;
import tools.jackson.databind.JsonNode;

/** Entries of a training record that stand in a request, each checked beside the others. */
final class InlineSessions {
  private static final String AT = "/sessions/";

  private final TrainingCatalogue catalogue;
  private final JsonNode sessions;
  private final @Nullable Side side;
  private final @Nullable LocalDate surgery;
  private final Instant now;

  InlineSessions(
      TrainingCatalogue catalogue,
      JsonNode sessions,
      @Nullable Side side,
      @Nullable LocalDate surgery,
      Instant now) {
    this.catalogue = catalogue;
    this.sessions = sessions;
    this.side = side;
    this.surgery = surgery;
    this.now = now;
  }

  /**
   * Checks all.
   *
   * @param found the faults so far, those of the schema included; takes more
   * @param warned takes warnings
   */
  void check(List<Fault> found, List<Fault> warned) {
    for (int i = 0; i < sessions.size(); i++) {
      if (sessions.path(i).isObject()) {
        JsonPointer at = JsonPointer.compile(AT + i);
        RuleFaults faults = new RuleFaults(at);
        RuleFaults warnings = new RuleFaults(at);
        new SessionRules(catalogue, faults, warnings).check(sessions.path(i), side, surgery, now);
        found.addAll(faults.all());
        warned.addAll(warnings.all());
      }
    }
    List<String> faulty = found.stream().map(Fault::pointer).toList();
    List<Session> readable = new ArrayList<>();
    for (int i = 0; i < sessions.size(); i++) {
      String at = "#" + AT + i;
      boolean whole = faulty.stream().noneMatch(p -> p.equals(at) || p.startsWith(at + "/"));
      if (whole) {
        readable.add(SessionReader.read(AT + i, sessions.path(i)));
      }
    }
    for (int i = 0; i < sessions.size(); i++) {
      if (sessions.path(i).isObject()) {
        besideTheOthers(i, readable, found, warned);
      }
    }
  }

  private void besideTheOthers(
      int i, List<Session> readable, List<Fault> found, List<Fault> warned) {
    JsonPointer at = JsonPointer.compile(AT + i);
    RuleFaults faults = new RuleFaults(at);
    RuleFaults warnings = new RuleFaults(at);
    List<Session> others = readable.stream().filter(s -> !s.id().equals(AT + i)).toList();
    new RecordRules(catalogue, others, false, faults, warnings).check(sessions.path(i));
    found.addAll(faults.all());
    warned.addAll(warnings.all());
  }
}
