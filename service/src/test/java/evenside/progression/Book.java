package evenside.progression;

import evenside.intake.CatalogueReader;
import evenside.intake.SessionReader;
import evenside.intake.TrainingCatalogue;
import evenside.schemas.Contract;
import evenside.training.Session;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import tools.jackson.databind.JsonNode;

/** The published rules, and advice on invented entries. */
final class Book {
  static final Contract CONTRACT = Contract.published();
  static final TrainingCatalogue CATALOGUE = catalogue();
  static final Progressions RULES = CATALOGUE.progressions();

  private static final LocalDate LATER = LocalDate.parse("2026-12-31");

  private Book() {}

  private static TrainingCatalogue catalogue() {
    return new TrainingCatalogue(CONTRACT, new CatalogueReader(CONTRACT));
  }

  static List<Session> read(List<? extends JsonNode> documents) {
    List<Session> sessions = new ArrayList<>();
    documents.forEach(
        json -> sessions.add(SessionReader.read("id-" + json.path("recordId").asString(), json)));
    return sessions;
  }

  static Advice advice(List<? extends JsonNode> documents) {
    return advice(documents, Advisor.Question.on(LATER));
  }

  static Advice advice(List<? extends JsonNode> documents, Advisor.Question question) {
    return new Advisor(RULES).advise(History.of(read(documents), question.asOf()), question);
  }

  static Advice advice(List<? extends JsonNode> documents, String... chosen) {
    return advice(documents, new Advisor.Question(LATER, Optional.empty(), Set.of(chosen)));
  }

  static Progression set(String id) {
    return RULES.find(id, null).orElseThrow();
  }

  /** Names of the counted rules of a set that hold for a work. */
  static List<String> rules(Advice.Work work, String set) {
    return work.reasons().stream()
        .filter(hit -> hit.progression().id().equals(set))
        .map(hit -> hit.rule().id())
        .toList();
  }
}
