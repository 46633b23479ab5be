package evenside.readiness;

import evenside.document.Document;
import evenside.schemas.Contract;
import evenside.schemas.StrictJson;
import java.util.LinkedHashSet;
import java.util.Optional;
import java.util.Set;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/** All that the catalogue knows of one measure, in one document. */
final class MeasureSheet {
  private final Contract contract;

  MeasureSheet(Contract contract) {
    this.contract = contract;
  }

  Optional<Document> of(String code) {
    for (JsonNode measure : contract.catalogue("measures").path("measures")) {
      if (measure.path("code").asString().equals(code)) {
        return Optional.of(Document.of(sheet((ObjectNode) measure)));
      }
    }
    return Optional.empty();
  }

  private ObjectNode sheet(ObjectNode measure) {
    Set<String> cited = new LinkedHashSet<>();
    measure.path("sources").forEach(source -> cited.add(source.asString()));
    if (measure.path("example").has("trials")) {
      measure.set("invalidReasons", invalidReasons());
    }
    ArrayNode errors = measure.putArray("measurementErrors");
    for (JsonNode error : contract.catalogue("measurement-errors").path("errors")) {
      if (error.path("measure").equals(measure.path("code"))) {
        errors.add(error);
        cited.add(error.path("source").asString());
      }
    }
    ArrayNode references = measure.putArray("referenceValues");
    for (JsonNode value : contract.catalogue("reference-values").path("values")) {
      if (value.path("measures").valueStream().anyMatch(measure.path("code")::equals)) {
        references.add(value);
        cited.add(value.path("source").asString());
      }
    }
    for (JsonNode instrument : contract.instruments()) {
      if (gives(instrument, measure.path("code"))) {
        measure.set("instrument", instrument);
        instrument.path("sources").forEach(source -> cited.add(source.asString()));
        instrument.findValues("source").forEach(source -> cited.add(source.asString()));
      }
    }
    ArrayNode sources = measure.putArray("citations");
    for (JsonNode source : contract.catalogue("sources").path("sources")) {
      if (cited.contains(source.path("key").asString())) {
        sources.add(source);
      }
    }
    measure.put("schemaVersion", contract.schemaVersion());
    return measure;
  }

  /** Why a trial may not count, as the schema lists it. */
  private JsonNode invalidReasons() {
    JsonNode common = StrictJson.read(contract.schema("common"), StrictJson.Limits.OWN);
    return common.at("/$defs/invalidReason/enum");
  }

  private static boolean gives(JsonNode instrument, JsonNode measure) {
    return instrument
        .path("scores")
        .valueStream()
        .anyMatch(score -> score.path("measure").equals(measure));
  }
}
