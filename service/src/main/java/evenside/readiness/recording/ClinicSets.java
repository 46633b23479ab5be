package evenside.readiness.recording;

import evenside.criteria.CriteriaSet;
import evenside.document.Document;
import evenside.intake.Intake;
import evenside.readiness.computing.Published;
import evenside.schemas.StrictJson;
import evenside.store.StoredCriteriaSet;
import java.util.Optional;
import java.util.function.BiFunction;
import tools.jackson.databind.JsonNode;

/** The criteria sets that a clinic can use, by {@code id/version}: the published, and its own. */
public final class ClinicSets {
  private final Published published;
  private final BiFunction<String, String, Optional<StoredCriteriaSet>> own;

  /**
   * The sets of a clinic.
   *
   * @param own finds one of its own by id and version
   */
  ClinicSets(Published published, BiFunction<String, String, Optional<StoredCriteriaSet>> own) {
    this.published = published;
    this.own = own;
  }

  /** A set by {@code id/version}. */
  public Optional<CriteriaSet> find(String name) {
    return published.set(name).or(() -> own(name).map(stored -> read(published, stored)));
  }

  /** One of a clinic's own, as it was kept. */
  public static CriteriaSet read(Published published, StoredCriteriaSet stored) {
    JsonNode json = StrictJson.read(stored.document(), StrictJson.Limits.OWN);
    return published.read(json, stored.sha256());
  }

  /** The bytes of a set by {@code id/version}. */
  public Optional<Document> document(String name) {
    return published
        .setDocument(name)
        .or(() -> own(name).map(stored -> Document.ofCanonical(stored.document())));
  }

  /** The set that a request names, or the usual one of its milestone. */
  public CriteriaSet asked(JsonNode request) {
    JsonNode named = request.path("criteriaSet");
    Optional<CriteriaSet> set =
        named.isObject()
            ? find(Intake.name(named))
            : published.usualSet(request.path("milestone").asString());
    return set.orElseThrow(() -> Records.notFound("criteria set"));
  }

  private Optional<StoredCriteriaSet> own(String name) {
    int slash = name.indexOf('/');
    return own.apply(name.substring(0, slash), name.substring(slash + 1));
  }
}
