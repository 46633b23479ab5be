package evenside.api.fhir;

import static org.assertj.core.api.Assertions.assertThat;

import evenside.api.LiveService;
import evenside.api.RunningService;
import evenside.api.TestSettings;
import evenside.api.settings.Catalogue;
import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse.BodyHandlers;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** The FHIR form of every decision of the demo clinic, with its batteries and criteria sets. */
class FhirDemoTest {
  private static final HttpClient HTTP = HttpClient.newHttpClient();

  @TempDir Path folder;

  private static JsonNode get(String url, String accept) throws IOException, InterruptedException {
    HttpRequest request = HttpRequest.newBuilder(URI.create(url)).header("Accept", accept).build();
    var answer = HTTP.send(request, BodyHandlers.ofString());
    assertThat(answer.statusCode()).as(url).isEqualTo(200);
    return JsonMapper.shared().readTree(answer.body());
  }

  @Test
  void decisions_ofTheDemoClinic_areValidAndCoded() throws IOException, InterruptedException {
    RunningService service =
        RunningService.start(TestSettings.in(folder).with(Catalogue.DEMO, "true"));
    try {
      String at = service.url();
      List<JsonNode> systems = resources(get(at + "/v1/fhir/CodeSystem", "application/fhir+json"));
      PublishedCodes codes =
          new PublishedCodes(LiveService.CONTRACT.catalogue("fhir-codes"), systems);
      JsonNode decisions = get(at + "/v1/decisions?limit=200", "application/json").path("items");
      assertThat(decisions).hasSizeGreaterThan(11);
      Map<String, JsonNode> forms = new LinkedHashMap<>();
      for (JsonNode decision : decisions) {
        String path = at + "/v1/decisions/" + decision.path("decisionId").asString();
        for (JsonNode one : resources(get(path, "application/fhir+json"))) {
          assertThat(codes.strangeIn(one)).as(path).isEmpty();
          forms.putIfAbsent(FhirTest.form(one), one);
        }
      }
      forms.forEach(
          (form, one) -> assertThat(OfficialDefinitions.errors(one.toString())).as(form).isEmpty());
    } finally {
      service.stop();
    }
  }

  private static List<JsonNode> resources(JsonNode bundle) {
    List<JsonNode> resources = new ArrayList<>();
    bundle.path("entry").forEach(entry -> resources.add(entry.path("resource")));
    return resources;
  }
}
