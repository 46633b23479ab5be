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
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/**
 * A dozen invented cases at different stages, each with its batteries and decisions, some with
 * training. The files say how long ago things happened; dates are set from today, so that the
 * answers stay interesting.
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
    JsonNode side = kneeCase.path("operatedSide");
    for (JsonNode visit : story.path("batteries")) {
      service.batteries().add(NAME, caseId, battery(visit, side), Optional.empty());
    }
    for (JsonNode training : story.path("sessions")) {
      service.sessions().add(NAME, caseId, session(training, side), Optional.empty());
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

  private ObjectNode battery(JsonNode visit, JsonNode operatedSide) {
    ObjectNode battery = copy(visit.path("battery"));
    battery.put("schemaVersion", schemaVersion);
    battery.put("performedAt", daysAgo(visit) + "T09:00:00Z");
    battery.set("operatedSide", operatedSide);
    return battery;
  }

  /** One entry of the training record, with the knee's answer of the next morning. */
  private ObjectNode session(JsonNode training, JsonNode operatedSide) {
    LocalDate day = daysAgo(training);
    ObjectNode entry = copy(training.path("entry"));
    ObjectNode response = (ObjectNode) entry.at("/training/response");
    response.put("nextMorningAt", day.plusDays(1) + "T07:00:00Z");
    ObjectNode session = JsonNodeFactory.instance.objectNode();
    session.put("schemaVersion", schemaVersion);
    session.put("performedAt", day + "T17:30:00Z");
    session.set("operatedSide", operatedSide);
    session.set("entry", entry);
    return session;
  }

  private LocalDate daysAgo(JsonNode event) {
    return today.minusDays(event.path("daysAgo").asInt());
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
