package evenside.api;

import evenside.api.openapi.Repository;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.util.function.Consumer;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ObjectNode;

/** The published examples as bodies of requests. */
public final class Examples {
  private Examples() {}

  /** The text of {@code schemas/examples/<path>.json}. */
  public static String text(String path) {
    try {
      return Files.readString(Repository.path("schemas/examples/" + path + ".json"));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** The same, changed. */
  public static String changed(String path, Consumer<ObjectNode> change) {
    ObjectNode document = (ObjectNode) JsonMapper.shared().readTree(text(path));
    change.accept(document);
    return document.toString();
  }

  public static String kneeCase() {
    return text("valid/case/minimal");
  }

  public static String battery() {
    return text("valid/battery/strength-and-hops");
  }

  /** A version of an invented clinic's own criteria set. */
  public static String ownCriteriaSet(String version) {
    return changed(
        "valid/criteria-set/at-least-three-of-four", json -> json.put("version", version));
  }

  public static String session() {
    return text("valid/session/first-run");
  }

  /** A Bundle with one hop, about the subject of {@link #kneeCase}. */
  public static String fhirObservations(String recordId, double distance) {
    return fhir("one-hop")
        .replace("RECORD", recordId)
        .replace("126", java.math.BigDecimal.valueOf(distance).toPlainString());
  }

  /** The text of a FHIR payload of the tests. */
  public static String fhir(String name) {
    try {
      return Files.readString(
          Repository.path("api/src/test/resources/evenside/api/fhir/" + name + ".json"));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  public static String decisionRequest() {
    return text("valid/decision-request/by-milestone");
  }

  public static String adoptedPlan() {
    return text("valid/adopted-plan/as-proposed");
  }

  public static String assessmentRequest() {
    return text("valid/assessment-request/two-sets-side-by-side");
  }
}
