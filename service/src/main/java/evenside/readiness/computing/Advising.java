package evenside.readiness.computing;

import evenside.decision.Caution;
import evenside.document.AdviceDocument;
import evenside.document.Document;
import evenside.intake.TrainingCatalogue;
import evenside.knee.KneeCase;
import evenside.load.HoldReport;
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
import org.jspecify.annotations.Nullable;

/** From entries of a training record to advice, without clock and store. */
public final class Advising {
  /** After so long a break the last session says little: common practice, no source. */
  private static final int LONG_BREAK_DAYS = 28;

  private final TrainingCatalogue catalogue;
  private final Progressions progressions;
  private final Advisor advisor;
  private final AdviceDocument documents;
  private final Map<String, Caution> cautions;

  Advising(TrainingCatalogue catalogue, List<Caution> cautions) {
    this.catalogue = catalogue;
    this.progressions = catalogue.progressions();
    this.advisor = new Advisor(progressions);
    this.documents = new AdviceDocument(progressions.inputs());
    this.cautions = cautions.stream().collect(Collectors.toMap(Caution::code, Function.identity()));
  }

  /** What the rules say about the next training. */
  public Advice advice(List<Session> sessions, LocalDate asOf, AdviceQuestion question) {
    return advice(History.of(sessions, asOf), asOf, question);
  }

  private Advice advice(History history, LocalDate asOf, AdviceQuestion question) {
    return advisor.advise(
        history, new Advisor.Question(asOf, question.plannedOn(), question.sets()));
  }

  /**
   * The advice with the load, as a document.
   *
   * @param caseId the case, or null for one that is not recorded
   */
  public Document document(
      @Nullable String caseId,
      KneeCase kneeCase,
      List<Session> sessions,
      LocalDate asOf,
      AdviceQuestion question,
      String schemaVersion) {
    History history = History.of(sessions, asOf);
    Advice advice = advice(history, asOf, question);
    LocalDate end = history.newestDay().orElse(asOf);
    LoadReport load =
        LoadReport.of(
            history.trainings(),
            history.restDays(),
            new LoadReport.Question(end, question.sdMethod(), question.acuteChronic()));
    List<HoldReport> holds = HoldReport.of(history.trainings(), end, catalogue::exercise, kneeCase);
    List<Caution> found = cautions(advice, kneeCase, question);
    return documents.of(
        new AdviceDocument.Found(schemaVersion, caseId, advice, found, load, holds));
  }

  private List<Caution> cautions(Advice advice, KneeCase kneeCase, AdviceQuestion question) {
    List<Caution> found = new ArrayList<>();
    List<String> limits = kneeCase.limitsOn(advice.asOf());
    if (!limits.isEmpty()) {
      found.add(text("surgeon-limits").with("Limits: " + String.join(", ", limits) + "."));
    }
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
