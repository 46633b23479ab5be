package evenside.intake;

import evenside.document.Document;
import evenside.progression.Progression;
import evenside.progression.Progressions;
import evenside.schemas.Contract;
import evenside.training.Exercise;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import tools.jackson.databind.JsonNode;

/** The published progressions and exercises, read once. */
public final class TrainingCatalogue {
  private final Progressions progressions;
  private final Map<String, Exercise> exercises;
  private final Map<String, Document> documents = new LinkedHashMap<>();

  /** Reads what a contract publishes. */
  public TrainingCatalogue(Contract contract, CatalogueReader sources) {
    ProgressionReader reader =
        new ProgressionReader(sources, contract.catalogue("progression-inputs"));
    List<Progression> sets = new ArrayList<>();
    for (JsonNode json : contract.progressions()) {
      Document document = Document.of(json);
      Progression set = reader.read(json, document.sha256());
      sets.add(set);
      documents.put(set.name(), document);
    }
    this.progressions = new Progressions(sets, reader.inputs());
    this.exercises = reader.exercises(contract.catalogue("exercises"));
  }

  public Progressions progressions() {
    return progressions;
  }

  /** The exercise with this code. */
  public Optional<Exercise> exercise(String code) {
    return Optional.ofNullable(exercises.get(code));
  }

  /** Canonical bytes of a progression by {@code id/version}. */
  public Optional<Document> document(String name) {
    return Optional.ofNullable(documents.get(name));
  }
}
