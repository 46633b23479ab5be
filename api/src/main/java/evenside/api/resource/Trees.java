package evenside.api.resource;

import evenside.document.Document;
import evenside.schemas.StrictJson;
import evenside.schemas.StrictJson.Limits;
import tools.jackson.databind.JsonNode;

/** Documents of our own as trees, to be looked into. */
final class Trees {
  private Trees() {}

  static JsonNode of(Document document) {
    return StrictJson.read(document.bytes(), Limits.OWN);
  }
}
