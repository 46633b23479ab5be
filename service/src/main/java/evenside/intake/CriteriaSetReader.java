package evenside.intake;

import evenside.criteria.About;
import evenside.criteria.Comparator;
import evenside.criteria.CriteriaSet;
import evenside.criteria.Criterion;
import evenside.criteria.FactCriterion;
import evenside.criteria.GradeBound;
import evenside.criteria.NumberBound;
import evenside.criteria.StudiedPeople;
import evenside.criteria.TimeSinceSurgery;
import evenside.criteria.TrainingCriterion;
import evenside.knee.Sex;
import evenside.measure.Aspect;
import evenside.measure.CatalogueEntry;
import evenside.measure.MeasureCatalogue;
import evenside.measure.ProtocolRule;
import evenside.signs.EffusionGrade;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;

/** Reads a criteria set that its schema has already accepted. */
public final class CriteriaSetReader {
  private final CatalogueReader catalogue;
  private final MeasureCatalogue measures;

  /**
   * A reader of sets over a catalogue.
   *
   * @param catalogue for the sources
   * @param measures what the criteria are about; a measure it does not have is for {@link
   *     evenside.criteria.Binding} to name
   */
  public CriteriaSetReader(CatalogueReader catalogue, MeasureCatalogue measures) {
    this.catalogue = catalogue;
    this.measures = measures;
  }

  /**
   * Reads one set.
   *
   * @param sha256 fingerprint of the set's canonical bytes
   * @throws IllegalArgumentException if a citation names no source
   */
  public CriteriaSet read(JsonNode json, String sha256) {
    Reading reading = new Reading(ownSources(json));
    List<Criterion> informative = new ArrayList<>();
    json.path("informative").forEach(item -> informative.add(reading.criterion(item)));
    JsonNode age = json.path("maxResultAgeDays");
    return new CriteriaSet(
        json.path("id").asString(),
        json.path("version").asString(),
        sha256,
        json.path("title").asString(),
        json.path("milestone").asString(),
        json.path("designedFor").asString(),
        json.path("population").asString(),
        studied(json.path("studied")),
        catalogue.citation(json.path("source"), reading.own),
        age.isNumber() ? age.asInt() : null,
        reading.criterion(json.path("criteria")),
        informative);
  }

  private static Map<String, JsonNode> ownSources(JsonNode json) {
    Map<String, JsonNode> own = new HashMap<>();
    json.path("sources").forEach(source -> own.put(source.path("key").asString(), source));
    return own;
  }

  private static @Nullable StudiedPeople studied(JsonNode json) {
    return json.isObject()
        ? new StudiedPeople(
            sex(json), CatalogueReader.text(json, "standard"), texts(json.path("sportLevels")))
        : null;
  }

  static @Nullable Sex sex(JsonNode json) {
    String sex = json.path("sex").asString("");
    return sex.isEmpty() ? null : Sex.valueOf(sex.toUpperCase(Locale.ROOT));
  }

  static ProtocolRule rule(JsonNode json) {
    return new ProtocolRule(
        texts(json.path("mode")),
        number(json.path("speed")),
        number(json.path("angle")),
        CatalogueReader.text(json, "context"));
  }

  private static @Nullable Double number(JsonNode quantity) {
    JsonNode value = quantity.path("value");
    return value.isNumber() ? value.asDouble() : null;
  }

  private static Set<String> texts(JsonNode array) {
    Set<String> texts = new LinkedHashSet<>();
    array.forEach(item -> texts.add(item.asString()));
    return texts;
  }

  /** Reads the tree of one set. */
  private final class Reading {
    private final Map<String, JsonNode> own;

    private Reading(Map<String, JsonNode> own) {
      this.own = own;
    }

    private Criterion criterion(JsonNode json) {
      String id = json.path("id").asString();
      String title = json.path("title").asString();
      String type = json.path("type").asString();
      return switch (type) {
        case "all" -> new Criterion.AllOf(id, title, children(json));
        case "any" -> new Criterion.AnyOf(id, title, children(json));
        case "at-least" ->
            new Criterion.AtLeast(id, title, json.path("count").asInt(), children(json));
        case "cut-off" -> cutOff(json);
        case "grade" ->
            new GradeBound(
                about(json),
                json.path("measure").asString(),
                comparator(json),
                EffusionGrade.of(json.path("bound").asString()));
        case "fact" ->
            new FactCriterion(about(json), entry(json), json.path("expected").asBoolean());
        case "time" ->
            new TimeSinceSurgery(
                about(json),
                comparator(json),
                json.path("bound").asInt(),
                json.path("unit").asString());
        case "training" ->
            new TrainingCriterion(
                about(json),
                json.path("fact").asString(),
                json.path("of").asString(""),
                comparator(json),
                json.path("bound").asInt(),
                json.path("unit").asString());
        default -> throw new IllegalArgumentException("criterion type " + type + " is not known");
      };
    }

    private List<Criterion> children(JsonNode json) {
      List<Criterion> children = new ArrayList<>();
      json.path("of").forEach(child -> children.add(criterion(child)));
      return children;
    }

    private NumberBound cutOff(JsonNode json) {
      return new NumberBound(
          about(json),
          entry(json),
          Aspect.of(json.path("aspect").asString()),
          rule(json.path("protocol")),
          comparator(json),
          json.path("bound").asDouble(),
          json.path("unit").asString());
    }

    private CatalogueEntry entry(JsonNode json) {
      return measures.entry(json.path("measure").asString());
    }

    private About about(JsonNode json) {
      return new About(
          json.path("id").asString(),
          json.path("title").asString(),
          catalogue.citation(json.path("citation"), own),
          json.path("verified").asBoolean(),
          CatalogueReader.text(json, "note"),
          sex(json.path("appliesTo")));
    }

    private static Comparator comparator(JsonNode json) {
      return Comparator.of(json.path("comparator").asString());
    }
  }
}
