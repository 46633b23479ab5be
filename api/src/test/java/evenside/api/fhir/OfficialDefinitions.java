package evenside.api.fhir;

import ca.uhn.fhir.context.FhirContext;
import ca.uhn.fhir.context.support.DefaultProfileValidationSupport;
import ca.uhn.fhir.validation.FhirValidator;
import ca.uhn.fhir.validation.ResultSeverityEnum;
import ca.uhn.fhir.validation.SingleValidationMessage;
import evenside.schemas.Contract;
import java.nio.charset.StandardCharsets;
import java.util.List;
import org.hl7.fhir.common.hapi.validation.support.CommonCodeSystemsTerminologyService;
import org.hl7.fhir.common.hapi.validation.support.InMemoryTerminologyServerValidationSupport;
import org.hl7.fhir.common.hapi.validation.support.PrePopulatedValidationSupport;
import org.hl7.fhir.common.hapi.validation.support.ValidationSupportChain;
import org.hl7.fhir.common.hapi.validation.validator.FhirInstanceValidator;
import org.hl7.fhir.r4.model.CodeSystem;
import tools.jackson.databind.JsonNode;

/**
 * The validator of HAPI FHIR 8.8.1 over the definitions of FHIR R4 (4.0.1) that its resources jar
 * carries, with our local code systems beside them. Nothing is fetched. The first validation takes
 * seconds, so all tests share one.
 */
public final class OfficialDefinitions {
  private static final FhirContext R4 = FhirContext.forR4();
  private static final FhirValidator VALIDATOR = validator();

  private OfficialDefinitions() {}

  private static FhirValidator validator() {
    PrePopulatedValidationSupport local = new PrePopulatedValidationSupport(R4);
    for (JsonNode system : new Codes(Contract.published(), true).systems()) {
      local.addCodeSystem(R4.newJsonParser().parseResource(CodeSystem.class, text(system)));
    }
    FhirInstanceValidator module =
        new FhirInstanceValidator(
            new ValidationSupportChain(
                new DefaultProfileValidationSupport(R4),
                new InMemoryTerminologyServerValidationSupport(R4),
                new CommonCodeSystemsTerminologyService(R4),
                local));
    module.setAnyExtensionsAllowed(false);
    return R4.newValidator().registerValidatorModule(module);
  }

  /** The context of R4, for what else its library offers. */
  static FhirContext r4() {
    return R4;
  }

  /** Errors of a resource or Bundle, each with its place; empty if it is valid. */
  public static List<String> errors(String resource) {
    return VALIDATOR.validateWithResult(resource).getMessages().stream()
        .filter(message -> message.getSeverity().compareTo(ResultSeverityEnum.ERROR) >= 0)
        .map(OfficialDefinitions::words)
        .toList();
  }

  static List<String> errors(JsonNode resource) {
    return errors(text(resource));
  }

  private static String text(JsonNode resource) {
    return new String(Fhir.bytes(resource), StandardCharsets.UTF_8);
  }

  private static String words(SingleValidationMessage message) {
    return message.getLocationString() + ": " + message.getMessage();
  }
}
