package evenside.api.fhir;

import tools.jackson.databind.node.ObjectNode;

/** Our software, which is the author of what it works out; never a practitioner. */
public final class Devices {
  private static final String ID = "evenside";

  private Devices() {}

  static ObjectNode reference() {
    return Fhir.reference("Device", ID);
  }

  /** The service with the version of its rules of computation. */
  public static ObjectNode service(String engineVersion) {
    ObjectNode json = Fhir.resource("Device", ID).put("status", "active");
    json.putArray("deviceName")
        .addObject()
        .put("name", "Evenside")
        .put("type", "user-friendly-name");
    json.putArray("version").addObject().put("value", engineVersion);
    return json;
  }
}
