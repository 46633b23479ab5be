package evenside.intake;

import evenside.knee.KneeCase;
import evenside.knee.KneeCase.SurgeonLimit;
import evenside.knee.Sex;
import evenside.limb.Side;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import tools.jackson.databind.JsonNode;

/** Reads a case that its schema and rules have already accepted. */
public final class CaseReader {
  private CaseReader() {}

  public static KneeCase read(JsonNode json) {
    Set<String> concomitant = new LinkedHashSet<>();
    json.path("concomitant").forEach(item -> concomitant.add(item.asString()));
    List<SurgeonLimit> limits = new ArrayList<>();
    for (JsonNode limit : json.path("surgeonLimits")) {
      String until = CatalogueReader.text(limit, "until");
      limits.add(
          new SurgeonLimit(
              limit.path("limit").asString(), until == null ? null : LocalDate.parse(until)));
    }
    return new KneeCase(
        LocalDate.parse(json.path("surgeryDate").asString()),
        Side.of(json.path("operatedSide").asString()),
        json.path("graft").asString(),
        json.has("graftHarvestSide") ? Side.of(json.path("graftHarvestSide").asString()) : null,
        json.path("revision").asBoolean(false),
        concomitant,
        json.path("otherKnee").asString(),
        Sex.valueOf(json.path("sex").asString().toUpperCase(Locale.ROOT).replace('-', '_')),
        json.path("birthYear").asInt(),
        CatalogueReader.text(json.path("sport"), "level"),
        CatalogueReader.text(json.path("sport"), "standard"),
        limits);
  }
}
