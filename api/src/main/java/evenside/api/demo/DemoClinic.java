package evenside.api.demo;

import evenside.readiness.ReadinessService;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.time.LocalDate;
import java.util.Optional;
import java.util.stream.IntStream;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ObjectNode;

/**
 * A dozen invented cases at different stages, each with its batteries and decisions. The files say
 * how long ago things happened; dates are set from today, so that the answers stay interesting.
 */
public final class DemoClinic {
  /** The clinic's name in the store: no real clinic is called this. */
  public static final String NAME = "demo";

  private static final int CASES = 12;

  private final ReadinessService service;
  private final LocalDate today;
  private final String schemaVersion;

  /** The clinic as of a day; tests of that day may still lie ahead, so none is set on it. */
  public DemoClinic(ReadinessService service, LocalDate today) {
    this.service = service;
    this.today = today;
    this.schemaVersion = service.desk().contract().schemaVersion();
  }

  /** Records all of it, through the same use cases as any other record. */
  public void record() {
    IntStream.rangeClosed(1, CASES).mapToObj("knee-%02d"::formatted).forEach(this::record);
  }

  private void record(String caseId) {
    JsonNode story = read(caseId);
    ObjectNode kneeCase = kneeCase(story);
    service.cases().put(NAME, caseId, kneeCase, Optional.empty());
    for (JsonNode session : story.path("batteries")) {
      ObjectNode battery = battery(session, kneeCase.path("operatedSide"));
      service.batteries().add(NAME, caseId, battery, Optional.empty());
    }
    for (JsonNode asked : story.path("decisions")) {
      ObjectNode request = copy(asked).put("schemaVersion", schemaVersion);
      service.decisions().decide(NAME, caseId, request, Optional.empty());
    }
  }

  private ObjectNode kneeCase(JsonNode story) {
    LocalDate surgery = today.minusMonths(story.path("monthsSinceSurgery").asInt());
    return copy(story.path("case"))
        .put("schemaVersion", schemaVersion)
        .put("surgeryDate", surgery.toString())
        .put("birthYear", today.getYear() - story.path("ageYears").asInt());
  }

  private ObjectNode battery(JsonNode session, JsonNode operatedSide) {
    LocalDate day = today.minusDays(session.path("daysAgo").asInt());
    ObjectNode battery = copy(session.path("battery"));
    battery.put("schemaVersion", schemaVersion);
    battery.put("performedAt", day + "T09:00:00Z");
    battery.set("operatedSide", operatedSide);
    return battery;
  }

  private static ObjectNode copy(JsonNode object) {
    return ((ObjectNode) object).deepCopy();
  }

  private static JsonNode read(String caseId) {
    String name = "/evenside/api/demo/" + caseId + ".json";
    try (InputStream file = DemoClinic.class.getResourceAsStream(name)) {
      if (file == null) {
        throw new IllegalStateException(name + " is not in the jar");
      }
      return JsonMapper.shared().readTree(file);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
