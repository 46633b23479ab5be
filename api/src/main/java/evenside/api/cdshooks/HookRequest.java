package evenside.api.cdshooks;

import evenside.api.problem.Problem;
import evenside.api.problem.ProblemType;
import evenside.schemas.Fault;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Pattern;
import tools.jackson.core.JsonPointer;
import tools.jackson.databind.JsonNode;

/**
 * A call of the service. Members that CDS Hooks does not name are passed over, as it asks; {@code
 * fhirServer} and {@code fhirAuthorization} are never used, since nothing is fetched.
 *
 * @param patientId the patient that the hook is about
 */
public record HookRequest(String patientId) {
  private static final Pattern UUID =
      Pattern.compile("[0-9a-fA-F]{8}(-[0-9a-fA-F]{4}){3}-[0-9a-fA-F]{12}");

  /**
   * Reads a call.
   *
   * @throws evenside.api.problem.ProblemException with every fault
   */
  public static HookRequest read(JsonNode json) {
    List<Fault> faults = new ArrayList<>();
    if (!json.isObject()) {
      faults.add(fault("", "type.wrong", "an object is needed"));
    }
    text(json, "", "hook", faults);
    String hook = json.path("hook").asString("");
    if (!hook.isEmpty() && !hook.equals(ReadinessHook.HOOK)) {
      faults.add(
          fault("/hook", "value.not-allowed", "this service does not answer this hook")
              .withLimit(ReadinessHook.HOOK));
    }
    text(json, "", "hookInstance", faults);
    String instance = json.path("hookInstance").asString("");
    if (!instance.isEmpty() && !UUID.matcher(instance).matches()) {
      faults.add(fault("/hookInstance", "text.wrong-form", "a UUID is needed"));
    }
    object(json, "context", true, faults);
    object(json, "prefetch", false, faults);
    object(json, "fhirAuthorization", false, faults);
    if (json.has("fhirAuthorization")) {
      text(json, "", "fhirServer", faults);
    }
    if (json.path("context").isObject()) {
      text(json.path("context"), "/context", "patientId", faults);
      text(json.path("context"), "/context", "userId", faults);
    }
    refuseIfAny(faults);
    return new HookRequest(withoutType(json.at("/context/patientId").asString()));
  }

  /** Some clients send the reference where the specification asks for the id alone. */
  private static String withoutType(String patientId) {
    return patientId.startsWith("Patient/") ? patientId.substring("Patient/".length()) : patientId;
  }

  private static void text(JsonNode json, String at, String name, List<Fault> faults) {
    JsonNode value = json.path(name);
    if (value.isMissingNode()) {
      faults.add(fault(at + "/" + name, "member.missing", "this member is needed"));
    } else if (!value.isString() || value.asString().isEmpty()) {
      faults.add(fault(at + "/" + name, "type.wrong", "a text that is not empty is needed"));
    }
  }

  private static void object(JsonNode json, String name, boolean needed, List<Fault> faults) {
    JsonNode value = json.path(name);
    if (value.isMissingNode()) {
      if (needed) {
        faults.add(fault("/" + name, "member.missing", "this member is needed"));
      }
    } else if (!value.isObject()) {
      faults.add(fault("/" + name, "type.wrong", "an object is needed"));
    }
  }

  private static Fault fault(String place, String code, String detail) {
    return Fault.at(JsonPointer.compile(place), code, detail);
  }

  private static void refuseIfAny(List<Fault> faults) {
    if (!faults.isEmpty()) {
      throw Problem.withFaults(
              ProblemType.INVALID_DOCUMENT,
              "The call does not follow CDS Hooks 2.0.",
              faults.stream().sorted(Fault.ORDER).toList(),
              false)
          .asException();
    }
  }
}
