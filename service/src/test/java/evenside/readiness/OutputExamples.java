package evenside.readiness;

import evenside.example.Clinic;
import evenside.readiness.recording.Recorded;
import evenside.schemas.Contract;
import evenside.schemas.StrictJson;
import evenside.store.Store;
import evenside.store.database.StoreSettings;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.InstantSource;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import tools.jackson.core.util.DefaultIndenter;
import tools.jackson.core.util.DefaultPrettyPrinter;
import tools.jackson.core.util.Separators;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.ObjectWriter;
import tools.jackson.databind.json.JsonMapper;

/**
 * What the service answers to the published examples of what is sent: the published examples of the
 * answers. Identifiers, which are new each time, are replaced by fixed ones.
 *
 * <p>Run {@code mvn -pl service -am test-compile exec:java@examples} to write them again after a
 * change of words or rules.
 */
final class OutputExamples {
  private static final String CASE = "knee-1";
  private static final String BATTERY_ID = "019a0000-0000-7000-8000-000000000001";
  private static final String DECISION_ID = "019a0000-0000-7000-8000-000000000002";
  private static final Instant NOW = Instant.parse("2026-08-19T09:30:00Z");

  private final Path examples;
  private final ReadinessService service;
  private final Map<String, JsonNode> made = new LinkedHashMap<>();

  private OutputExamples(Path examples, Store store) {
    this.examples = examples;
    this.service = ReadinessService.of(Contract.published(), store, InstantSource.fixed(NOW));
  }

  /** The answers by their path below the folder of valid examples. */
  static Map<String, JsonNode> of(Path examples, Path data) {
    try (Store store = Store.open(StoreSettings.inFolder(data))) {
      OutputExamples outputs = new OutputExamples(examples, store);
      outputs.record();
      outputs.withoutRecord();
      outputs.made.putAll(RecoveryExamples.of(data.resolve("recovery")));
      return outputs.made;
    }
  }

  private void record() {
    Recorded kneeCase =
        service.cases().put(Office.CLINIC, CASE, read("valid/case/minimal"), Optional.empty());
    keep("case-record/of-the-minimal-case", kneeCase, "");
    JsonNode sent = read("valid/battery/strength-and-hops");
    Recorded battery = service.batteries().add(Office.CLINIC, CASE, sent, Optional.empty());
    keep("battery-record/of-strength-and-hops", battery, battery.id());
    JsonNode request = Office.request("delaware-oslo/2020.1");
    Recorded decision = service.decisions().decide(Office.CLINIC, CASE, request, Optional.empty());
    keep("decision/on-strength-and-hops", decision, battery.id());
  }

  private void withoutRecord() {
    JsonNode request = read("valid/assessment-request/two-sets-side-by-side");
    made.put("assessment/of-two-sets-side-by-side", Clinic.read(service.desk().assess(request)));
    check("of-a-valid-battery", "valid/battery/not-everything-done");
    check("of-seven-faults", "invalid/battery/seven-at-once");
  }

  private void check(String name, String example) {
    JsonNode report = service.desk().check("battery", read(example)).toJson();
    made.put("check-report/" + name, report);
  }

  private void keep(String name, Recorded recorded, String batteryId) {
    String text = recorded.document().toString().replace(recorded.id(), idOf(name));
    if (!batteryId.isEmpty()) {
      text = text.replace(batteryId, BATTERY_ID);
    }
    // The inputs name the battery by its new id, so their fingerprint is new each time too.
    text = text.replaceAll("(?<=\"inputsSha256\":\")[0-9a-f]{64}", "0".repeat(64));
    made.put(name, tree(text.getBytes(StandardCharsets.UTF_8)));
  }

  private static String idOf(String name) {
    return name.startsWith("decision")
        ? DECISION_ID
        : name.startsWith("battery") ? BATTERY_ID : CASE;
  }

  private JsonNode read(String example) {
    return file(examples.resolve(example + ".json"));
  }

  static JsonNode file(Path file) {
    try {
      return tree(Files.readAllBytes(file));
    } catch (IOException unreadable) {
      throw new UncheckedIOException("cannot read " + file, unreadable);
    }
  }

  private static JsonNode tree(byte[] bytes) {
    return StrictJson.read(bytes, StrictJson.Limits.OWN);
  }

  /** Writes the examples into a folder laid out like {@code schemas/examples}. */
  public static void main(String[] args) throws IOException {
    Path examples = Path.of(args[0]);
    Path data = Files.createTempDirectory("examples");
    ObjectWriter writer = JsonMapper.shared().writer().with(printer());
    for (Map.Entry<String, JsonNode> one : of(examples, data).entrySet()) {
      Path file = examples.resolve("valid/" + one.getKey() + ".json");
      Files.createDirectories(file.getParent());
      Files.writeString(file, writer.writeValueAsString(one.getValue()) + "\n");
    }
  }

  private static DefaultPrettyPrinter printer() {
    DefaultIndenter indenter = new DefaultIndenter("  ", "\n");
    Separators separators =
        Separators.createDefaultInstance()
            .withObjectNameValueSpacing(Separators.Spacing.AFTER)
            .withObjectEmptySeparator("")
            .withArrayEmptySeparator("");
    return new DefaultPrettyPrinter(separators)
        .withObjectIndenter(indenter)
        .withArrayIndenter(indenter);
  }
}
