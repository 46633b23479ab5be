package evenside.intake;

import evenside.criteria.Citation;
import evenside.decision.Caution;
import evenside.decision.Milestone;
import evenside.measure.Aggregation;
import evenside.measure.Aspect;
import evenside.measure.Better;
import evenside.measure.Measure;
import evenside.measure.Measure.SymmetryRule;
import evenside.measure.MeasureCatalogue;
import evenside.measure.MeasurementError;
import evenside.schemas.Contract;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;

/** Reads the published catalogue: measures with their errors, sources, cautions, milestones. */
public final class CatalogueReader {
  private final Contract contract;
  private final Map<String, JsonNode> sources = new HashMap<>();

  public CatalogueReader(Contract contract) {
    this.contract = contract;
    contract.catalogue("sources").path("sources").forEach(this::source);
  }

  private void source(JsonNode source) {
    sources.put(source.path("key").asString(), source);
  }

  /** Measures with their published errors. */
  public MeasureCatalogue measures() {
    List<Measure> measures = new ArrayList<>();
    contract.catalogue("measures").path("measures").forEach(json -> measures.add(measure(json)));
    List<MeasurementError> errors = new ArrayList<>();
    contract
        .catalogue("measurement-errors")
        .path("errors")
        .forEach(json -> errors.addAll(errors(json)));
    return new MeasureCatalogue(measures, errors, new ReferenceReader(contract, this::cite).all());
  }

  /** The cautions with their texts. */
  public List<Caution> cautions() {
    List<Caution> cautions = new ArrayList<>();
    for (JsonNode json : contract.catalogue("cautions").path("cautions")) {
      String source = json.path("source").asString("");
      cautions.add(
          new Caution(
              json.path("code").asString(),
              json.path("text").asString(),
              json.path("urgent").asBoolean(),
              source.isEmpty() ? null : cite(source),
              ""));
    }
    return cautions;
  }

  /** Milestone to the name {@code id/version} of its usual criteria set, where there is one. */
  public Map<String, String> usualCriteriaSets() {
    Map<String, String> usual = new HashMap<>();
    for (JsonNode json : contract.catalogue("milestones").path("milestones")) {
      JsonNode set = json.path("usualCriteriaSet");
      if (set.isObject()) {
        String name = set.path("id").asString() + "/" + set.path("version").asString();
        usual.put(json.path("code").asString(), name);
      }
    }
    return usual;
  }

  /** The gates in their usual order. */
  public List<Milestone> milestones() {
    List<Milestone> milestones = new ArrayList<>();
    for (JsonNode json : contract.catalogue("milestones").path("milestones")) {
      milestones.add(
          new Milestone(
              json.path("code").asString(),
              json.path("title").asString(),
              json.path("order").asInt(),
              text(json, "note")));
    }
    milestones.sort(java.util.Comparator.comparingInt(Milestone::order));
    return milestones;
  }

  /**
   * A citation with the source in full.
   *
   * @param own sources the document brings along, by key
   * @throws IllegalArgumentException if the key names no source
   */
  Citation citation(JsonNode json, Map<String, JsonNode> own) {
    String key = json.path("source").asString();
    JsonNode source = own.getOrDefault(key, sources.get(key));
    if (source == null) {
      throw new IllegalArgumentException("no source has the key " + key);
    }
    return new Citation(
        key,
        source.path("citation").asString(),
        text(source, "doi"),
        text(json, "place"),
        text(json, "printedAs"));
  }

  boolean hasSource(String key) {
    return sources.containsKey(key);
  }

  String anySource() {
    return sources.keySet().iterator().next();
  }

  static @Nullable String text(JsonNode json, String member) {
    String text = json.path(member).asString("");
    return text.isEmpty() ? null : text;
  }

  private String cite(String key) {
    JsonNode source = sources.get(key);
    if (source == null) {
      throw new IllegalArgumentException("no source has the key " + key);
    }
    String doi = source.path("doi").asString("");
    String text = source.path("citation").asString();
    return doi.isEmpty() ? text : text + ", doi " + doi;
  }

  private static Measure measure(JsonNode json) {
    JsonNode plausible = json.path("plausible");
    return new Measure(
        json.path("code").asString(),
        json.path("title").asString(),
        json.path("family").asString(),
        json.path("unit").asString("1"),
        json.path("sides").asString().equals("each"),
        Better.valueOf(constant(json, "better")),
        SymmetryRule.valueOf(constant(json, "symmetry")),
        Aggregation.valueOf(constant(json, "aggregation")),
        plausible.path("min").asDouble(-Double.MAX_VALUE),
        plausible.path("max").asDouble(Double.MAX_VALUE),
        json.path("recordOnly").asBoolean(false));
  }

  /** One entry per mode, since an error may be published for several modes at once. */
  private List<MeasurementError> errors(JsonNode json) {
    JsonNode modes = json.path("protocol").path("mode");
    if (modes.isEmpty()) {
      return List.of(error(json, null));
    }
    List<MeasurementError> errors = new ArrayList<>();
    modes.forEach(mode -> errors.add(error(json, mode.asString())));
    return errors;
  }

  private MeasurementError error(JsonNode json, @Nullable String mode) {
    JsonNode speed = json.path("protocol").path("speed").path("value");
    return new MeasurementError(
        json.path("measure").asString(),
        Aspect.of(json.path("aspect").asString()),
        json.path("unit").asString(),
        json.path("sem").asDouble(),
        json.path("relative").asBoolean(false),
        json.path("z").asDouble(),
        mode,
        speed.isNumber() ? speed.asDouble() : null,
        json.has("aggregation") ? Aggregation.of(json.path("aggregation").asString()) : null,
        json.path("population").asString(),
        cite(json.path("source").asString()),
        json.path("verified").asBoolean());
  }

  private static String constant(JsonNode json, String member) {
    return json.path(member).asString().toUpperCase(Locale.ROOT);
  }
}
