package evenside.api;

import static org.assertj.core.api.Assertions.assertThat;

import evenside.api.openapi.Repository;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.EnabledIfEnvironmentVariable;
import org.junit.jupiter.api.extension.RegisterExtension;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/**
 * Clients that openapi-generator 7.14.0 makes of {@code openapi.yaml}, as an integrator makes them:
 * they compile, and go from submitting to a decision and its evidence. Each also reads a decision
 * with a member that it does not know, as a later service will send.
 *
 * <p>Needs node with npm, and python3 with pydantic, urllib3 and dateutil; CI installs them.
 */
@EnabledIfEnvironmentVariable(
    named = "EVENSIDE_ALL_TESTS",
    matches = "true",
    disabledReason = "fetches a generator and takes a minute")
class ClientsTest {
  private static final Path TARGET = Repository.path("api/target").toAbsolutePath();
  private static final Path TOOLS = TARGET.resolve("client-tools");
  private static final Path CLIENTS = TARGET.resolve("clients");
  private static final String JAVA_HOME = System.getProperty("java.home");

  @RegisterExtension static final LiveService SERVICE = new LiveService();

  private static Path future;

  @BeforeAll
  static void clear() throws IOException {
    if (Files.isDirectory(CLIENTS)) {
      Place.delete(CLIENTS);
    }
    Files.createDirectories(CLIENTS);
    String decision =
        Examples.changed(
            "valid/decision/on-strength-and-hops",
            json -> json.putObject("memberOfTomorrow").put("known", false));
    future = Files.writeString(CLIENTS.resolve("decision-of-tomorrow.json"), decision);
  }

  @Test
  void java_completesTheWalk() throws Exception {
    Path folder =
        generated(
            "java",
            "--library=native",
            "--additional-properties=openApiNullable=false,containerDefaultToNull=true"
                + ",useJakartaEe=true,apiPackage=evenside.client.api"
                + ",modelPackage=evenside.client.model,invokerPackage=evenside.client");
    Path walk = folder.resolve("Walk.java");
    Files.copy(resource("Walk.java.txt"), walk);
    List<String> compile = new ArrayList<>(List.of(jdk("javac"), "-proc:none", "-nowarn"));
    compile.addAll(List.of("-cp", TOOLS + "/*", "-d", folder.resolve("classes").toString()));
    compile.addAll(files(folder.resolve("src/main/java"), ".java"));
    compile.add(walk.toString());
    run(folder, Map.of(), compile);
    String classPath =
        folder.resolve("classes") + System.getProperty("path.separator") + TOOLS + "/*";
    check("java-1", walk(folder, Map.of(), jdk("java"), "-cp", classPath, "Walk"));
  }

  @Test
  void typeScript_completesTheWalk() throws Exception {
    Path folder = generated("typescript-fetch");
    for (String file : List.of("walk.ts", "tsconfig.json", "package.json")) {
      Files.copy(resource(file), folder.resolve(file));
    }
    run(
        folder,
        Map.of(),
        List.of(
            "npm", "install", "--ignore-scripts", "--no-audit", "--no-fund", "--no-package-lock"));
    run(folder, Map.of(), List.of("node", "node_modules/typescript/bin/tsc", "-p", "."));
    check("typescript-1", walk(folder, Map.of(), "node", "out/walk.js"));
  }

  @Test
  void python_completesTheWalk() throws Exception {
    Python python = Python.found();
    Path folder =
        generated(python.generator(), "--additional-properties=packageName=evenside_client");
    if (python.pydantic() == 1) {
      fitForPydantic1(folder);
    }
    Path walk = folder.resolve("walk.py");
    Files.copy(resource("walk.py"), walk);
    Map<String, String> path = Map.of("PYTHONPATH", folder.toString());
    check("python-1", walk(folder, path, python.command(), walk.toString()));
  }

  /**
   * A Python with what the generated client imports.
   *
   * @param command how it is called
   * @param pydantic major version of its pydantic; the generated code depends on it
   */
  private record Python(String command, int pydantic) {
    static Python found() throws Exception {
      for (String command : List.of("python3", "/usr/bin/python3")) {
        Ran ran =
            start(
                CLIENTS,
                Map.of(),
                List.of(
                    command, "-c", "import urllib3, dateutil, pydantic as p; print(p.VERSION)"));
        if (ran.exit() == 0) {
          return new Python(command, Integer.parseInt(ran.output().strip().split("\\.")[0]));
        }
      }
      throw new AssertionError(
          "no python3 has pydantic, urllib3 and dateutil; on Debian: apt-get install"
              + " python3-pydantic python3-urllib3 python3-dateutil");
    }

    String generator() {
      return pydantic == 1 ? "python-pydantic-v1" : "python";
    }
  }

  /**
   * The older code imports aenum, which Debian does not have, where the enum of the standard
   * library does as well once annotations are not evaluated.
   */
  private static void fitForPydantic1(Path folder) throws IOException {
    Files.writeString(folder.resolve("aenum.py"), "from enum import Enum\n\nno_arg = object()\n");
    for (String file : files(folder.resolve("evenside_client/models"), ".py")) {
      String text = Files.readString(Path.of(file));
      if (text.contains("from aenum import")) {
        Files.writeString(Path.of(file), "from __future__ import annotations\n" + text);
      }
    }
  }

  /** The client of a language; nothing is left out of it. */
  private static Path generated(String generator, String... options) throws Exception {
    Path folder = CLIENTS.resolve(generator);
    List<String> command =
        new ArrayList<>(
            List.of(jdk("java"), "-XX:TieredStopAtLevel=1", "-XX:+UseSerialGC", "-jar"));
    command.add(TOOLS.resolve("generator.jar").toString());
    command.addAll(List.of("generate", "-g", generator, "-o", folder.toString()));
    command.addAll(List.of("-i", description(generator).toString()));
    command.add(
        "--global-property=apis,models,supportingFiles,apiTests=false,modelTests=false"
            + ",apiDocs=false,modelDocs=false");
    command.addAll(List.of(options));
    run(CLIENTS, Map.of(), command);
    return folder;
  }

  /**
   * What a client is generated from. For Java without the lines that say whether an object is open,
   * as the guide tells: else each class is a map, and Jackson fills the map instead of its members.
   * The client passes over what it does not know all the same.
   */
  private static Path description(String generator) throws IOException {
    Path openApi = Repository.path("openapi.yaml").toAbsolutePath();
    if (!generator.equals("java")) {
      return openApi;
    }
    List<String> lines =
        Files.readAllLines(openApi).stream()
            .filter(line -> !line.matches(" *additionalProperties: (true|false)"))
            .toList();
    return Files.write(CLIENTS.resolve("openapi-for-java.yaml"), lines);
  }

  private static JsonNode walk(Path folder, Map<String, String> environment, String... command)
      throws Exception {
    List<String> all = new ArrayList<>(List.of(command));
    all.add("http://127.0.0.1:" + SERVICE.port());
    // Without a record id of the sender's: the same day of tests is posted by each client.
    String battery =
        Examples.changed("valid/battery/strength-and-hops", json -> json.remove("recordId"));
    all.add(example("valid/case/minimal"));
    all.add(Files.writeString(CLIENTS.resolve("battery.json"), battery).toString());
    all.add(example("valid/decision-request/by-milestone"));
    all.add(future.toString());
    return JsonMapper.shared().readTree(run(folder, environment, all));
  }

  private static String example(String path) {
    return Repository.path("schemas/examples/" + path + ".json").toAbsolutePath().toString();
  }

  /** What the client saw is what the service holds. */
  private static void check(String caseId, JsonNode seen) {
    assertThat(seen.path("caseId").asString()).isEqualTo(caseId);
    String decisionId = seen.path("decisionId").asString();
    JsonNode decision = get("/v1/decisions/" + decisionId);
    assertThat(decision.path("caseId").asString()).isEqualTo(caseId);
    assertThat(seen.path("outcome").asString()).isEqualTo(decision.path("outcome").asString());
    assertThat(decision.path("batteries").toString()).contains(seen.path("batteryId").asString());
    assertThat(seen.path("evidenceIndex").asInt(-1))
        .isEqualTo(get("/v1/decisions/" + decisionId + "/evidence").path("index").asInt());
    assertThat(seen.path("future").asString())
        .isEqualTo(JsonMapper.shared().readTree(future).path("decisionId").asString());
  }

  private static JsonNode get(String path) {
    return JsonMapper.shared().readTree(SERVICE.http().get(path).asByteArray());
  }

  private record Ran(int exit, String output, String errors) {}

  private static String run(Path folder, Map<String, String> environment, List<String> command)
      throws Exception {
    Ran ran = start(folder, environment, command);
    assertThat(ran.exit()).as("%s%n%s%n%s", command.get(0), ran.output(), ran.errors()).isZero();
    return ran.output();
  }

  private static Ran start(Path folder, Map<String, String> environment, List<String> command)
      throws Exception {
    Path output = Files.createTempFile(CLIENTS, "output", ".txt");
    Path errors = Files.createTempFile(CLIENTS, "errors", ".txt");
    ProcessBuilder builder =
        new ProcessBuilder(command)
            .directory(folder.toFile())
            .redirectOutput(output.toFile())
            .redirectError(errors.toFile());
    builder.environment().putAll(environment);
    Process process;
    try {
      process = builder.start();
    } catch (IOException e) {
      return new Ran(127, "", e.toString());
    }
    if (!process.waitFor(3, TimeUnit.MINUTES)) {
      process.destroyForcibly();
      throw new AssertionError(command.get(0) + " does not end");
    }
    return new Ran(process.exitValue(), Files.readString(output), Files.readString(errors));
  }

  private static List<String> files(Path folder, String suffix) throws IOException {
    try (Stream<Path> files = Files.walk(folder)) {
      return files.map(Path::toString).filter(f -> f.endsWith(suffix)).collect(Collectors.toList());
    }
  }

  private static Path resource(String name) {
    return Repository.path("api/src/test/resources/clients/" + name);
  }

  private static String jdk(String tool) {
    return Path.of(JAVA_HOME, "bin", tool).toString();
  }
}
