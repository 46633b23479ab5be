package evenside.trend;

import evenside.schemas.StrictJson;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.List;
import tools.jackson.databind.JsonNode;

/** Numbers made by other programs; where from stands in each file. */
final class Golden {
  private Golden() {}

  static JsonNode read(String name) {
    try (InputStream in = Golden.class.getResourceAsStream("/golden/" + name + ".json")) {
      return StrictJson.read(in.readAllBytes(), StrictJson.Limits.OWN);
    } catch (IOException unreadable) {
      throw new UncheckedIOException(unreadable);
    }
  }

  static List<Reading> readings(JsonNode set) {
    List<Reading> readings = new ArrayList<>();
    for (int i = 0; i < set.path("x").size(); i++) {
      readings.add(new Reading(set.path("x").path(i).asDouble(), set.path("y").path(i).asDouble()));
    }
    return readings;
  }
}
