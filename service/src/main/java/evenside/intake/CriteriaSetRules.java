package evenside.intake;

import evenside.criteria.Binding;
import evenside.criteria.CriteriaSet;
import evenside.measure.MeasureCatalogue;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import tools.jackson.core.JsonPointer;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ObjectNode;

/** What a criteria set's schema cannot say. */
final class CriteriaSetRules {
  private static final String SOURCE = "source";

  private final CatalogueReader sources;
  private final MeasureCatalogue catalogue;
  private final RuleFaults faults;

  CriteriaSetRules(CatalogueReader sources, MeasureCatalogue catalogue, RuleFaults faults) {
    this.sources = sources;
    this.catalogue = catalogue;
    this.faults = faults;
  }

  void check(JsonNode json) {
    List<JsonPointer> unknown = unknownSources(json);
    for (JsonPointer place : unknown) {
      faults.add(
          place.toString(),
          RuleCode.SOURCE_UNKNOWN,
          "neither the catalogue nor this set has such a source");
    }
    unverified(json.path("criteria"), "/criteria");
    CriteriaSet set = new CriteriaSetReader(sources, catalogue).read(readable(json, unknown), "");
    for (Binding.Misfit misfit : Binding.misfits(set, catalogue)) {
      faults.add(misfit.pointer(), code(misfit.kind()), misfit.detail());
    }
  }

  /** Where a source is named that neither the catalogue nor the set itself has. */
  private List<JsonPointer> unknownSources(JsonNode json) {
    Set<String> own = new HashSet<>();
    json.path("sources").forEach(source -> own.add(source.path("key").asString()));
    List<JsonPointer> unknown = new ArrayList<>();
    collect(json, JsonPointer.empty(), own, unknown);
    return unknown;
  }

  private void collect(JsonNode json, JsonPointer at, Set<String> own, List<JsonPointer> unknown) {
    for (int i = 0; json.isArray() && i < json.size(); i++) {
      collect(json.path(i), at.appendIndex(i), own, unknown);
    }
    for (Map.Entry<String, JsonNode> member : json.properties()) {
      JsonPointer below = at.appendProperty(member.getKey());
      JsonNode value = member.getValue();
      if (!member.getKey().equals(SOURCE) || !value.isString()) {
        collect(value, below, own, unknown);
      } else if (!own.contains(value.asString()) && !sources.hasSource(value.asString())) {
        unknown.add(below);
      }
    }
  }

  /** A copy with a source that is there in the place of each that is not, to read the rest. */
  private JsonNode readable(JsonNode json, List<JsonPointer> unknown) {
    JsonNode copy = json.deepCopy();
    for (JsonPointer place : unknown) {
      ((ObjectNode) copy.at(place.head())).put(SOURCE, sources.anySource());
    }
    return copy;
  }

  /** A figure from memory may be shown; it may not decide. */
  private void unverified(JsonNode criterion, String pointer) {
    if (criterion.has("verified") && !criterion.path("verified").asBoolean()) {
      faults.add(
          pointer + "/verified",
          RuleCode.CRITERION_UNVERIFIED,
          "a figure that was not read in its source may only stand among the informative criteria");
    }
    JsonNode of = criterion.path("of");
    for (int i = 0; i < of.size(); i++) {
      unverified(of.path(i), pointer + "/of/" + i);
    }
  }

  private static RuleCode code(Binding.Kind kind) {
    return switch (kind) {
      case MEASURE_UNKNOWN -> RuleCode.MEASURE_UNKNOWN;
      case MEASURE_WRONG_FAMILY -> RuleCode.MEASURE_WRONG_FAMILY;
      case ASPECT_NOT_OFFERED -> RuleCode.ASPECT_NOT_OFFERED;
      case UNIT_NOT_OF_MEASURE -> RuleCode.UNIT_NOT_OF_MEASURE;
      case BOUND_IMPLAUSIBLE -> RuleCode.VALUE_IMPLAUSIBLE;
      case COUNT_TOO_LARGE -> RuleCode.COUNT_TOO_LARGE;
      case CRITERION_DUPLICATE -> RuleCode.CRITERION_DUPLICATE;
      case FACT_INCOMPLETE -> RuleCode.FACT_INCOMPLETE;
    };
  }
}
