package evenside.intake;

import evenside.criteria.Binding;
import evenside.criteria.CriteriaSet;
import evenside.measure.MeasureCatalogue;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ObjectNode;

/** What a criteria set's schema cannot say. */
final class CriteriaSetRules {
  private final CatalogueReader sources;
  private final MeasureCatalogue catalogue;
  private final RuleFaults faults;

  CriteriaSetRules(CatalogueReader sources, MeasureCatalogue catalogue, RuleFaults faults) {
    this.sources = sources;
    this.catalogue = catalogue;
    this.faults = faults;
  }

  void check(JsonNode json) {
    Set<String> own = new HashSet<>();
    json.path("sources").forEach(source -> own.add(source.path("key").asString()));
    JsonNode readable = json.deepCopy();
    citations(readable, "", own);
    unverified(json.path("criteria"), "/criteria");
    CriteriaSet set = new CriteriaSetReader(sources, catalogue).read(readable, "");
    for (Binding.Misfit misfit : Binding.misfits(set, catalogue)) {
      faults.add(misfit.pointer(), code(misfit.kind()), misfit.detail());
    }
  }

  /** Puts a source that is there in the place of each that is not, so that the rest can be read. */
  private void citations(JsonNode json, String pointer, Set<String> own) {
    if (json.isArray()) {
      for (int i = 0; i < json.size(); i++) {
        citations(json.path(i), pointer + "/" + i, own);
      }
      return;
    }
    for (Map.Entry<String, JsonNode> member : List.copyOf(json.properties())) {
      String below = pointer + "/" + member.getKey();
      boolean names = member.getKey().equals("source") && member.getValue().isString();
      String key = member.getValue().asString("");
      if (names && !own.contains(key) && !sources.hasSource(key)) {
        faults.add(
            below, RuleCode.SOURCE_UNKNOWN, "neither the catalogue nor this set has such a source");
        ((ObjectNode) json).put(member.getKey(), sources.anySource());
      } else if (!names) {
        citations(member.getValue(), below, own);
      }
    }
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
