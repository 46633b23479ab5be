package evenside.readiness;

import evenside.decision.Caution;
import evenside.document.AdviceDocument;
import evenside.document.LoadDocument;
import evenside.load.LoadReport;
import evenside.progression.Advice;
import evenside.progression.Advisor;
import evenside.progression.History;
import evenside.progression.Progressions;
import evenside.training.Session;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.function.Function;
import java.util.stream.Collectors;
import tools.jackson.databind.node.ObjectNode;

/** From entries of a training record to advice, without clock and store. */
final class Advising {
  /** After so long a break the last session says little: common practice, no source. */
  private static final int LONG_BREAK_DAYS = 28;

  private final Progressions progressions;
  private final Advisor advisor;
  private final AdviceDocument documents;
  private final Map<String, Caution> cautions;

  Advising(Progressions progressions, List<Caution> cautions) {
    this.progressions = progressions;
    this.advisor = new Advisor(progressions);
    this.documents = new AdviceDocument(progressions.inputs());
    this.cautions = cautions.stream().collect(Collectors.toMap(Caution::code, Function.identity()));
  }

  Advice advice(List<Session> sessions, LocalDate asOf, AdviceQuestion question) {
    return advisor.advise(
        History.of(sessions, asOf),
        new Advisor.Question(asOf, question.plannedOn(), question.sets()));
  }

  /** The advice with the load, as a document without identifiers of its own. */
  ObjectNode document(
      List<Session> sessions, LocalDate asOf, AdviceQuestion question, String schemaVersion) {
    for (String name : question.sets()) {
      known(name);
    }
    History history = History.of(sessions, asOf);
    Advice advice = advice(sessions, asOf, question);
    LoadReport load =
        LoadReport.of(
            history.trainings(),
            history.restDays(),
            new LoadReport.Question(
                history.newestDay().orElse(asOf), question.sdMethod(), question.acuteChronic()));
    ObjectNode json = documents.of(advice, cautions(advice, question));
    json.put("schemaVersion", schemaVersion);
    json.set("load", LoadDocument.of(load));
    return json;
  }

  private void known(String name) {
    if (progressions.all().stream().noneMatch(set -> set.name().equals(name))) {
      throw Refused.because(Refusal.NOT_FOUND, "there is no progression " + name);
    }
  }

  private List<Caution> cautions(Advice advice, AdviceQuestion question) {
    List<Caution> found = new ArrayList<>();
    found.add(text("advice-is-convention"));
    if (!advice.standing().isEmpty()) {
      found.add(0, text("standing-red-flag"));
    }
    found.add(text("home-grading"));
    found.add(text("load-is-context"));
    if (question.acuteChronic()) {
      found.add(text("acute-chronic-descriptive"));
    }
    LocalDate last = advice.lastOn();
    if (last != null && ChronoUnit.DAYS.between(last, advice.asOf()) > LONG_BREAK_DAYS) {
      found.add(text("long-break"));
    }
    return found;
  }

  private Caution text(String code) {
    return Objects.requireNonNull(cautions.get(code), code);
  }
}
