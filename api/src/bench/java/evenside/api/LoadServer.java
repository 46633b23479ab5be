package evenside.api;

import static evenside.api.http.Route.post;

import com.networknt.schema.Schema;
import com.networknt.schema.SchemaLocation;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SchemaRegistryConfig;
import com.networknt.schema.SpecificationVersion;
import evenside.api.access.Authentication;
import evenside.api.http.Call;
import evenside.api.http.Cursors;
import evenside.api.http.Reply;
import evenside.api.http.Route;
import evenside.api.server.Front;
import evenside.document.Document;
import evenside.ledger.Ledger;
import evenside.ledger.LedgerSettings;
import evenside.note.SigningKey;
import evenside.readiness.ReadinessService;
import evenside.schemas.Contract;
import evenside.store.Store;
import evenside.store.StoredCriteriaSet;
import evenside.store.database.StoreSettings;
import io.javalin.Javalin;
import io.zonky.test.db.postgres.embedded.EmbeddedPostgres;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.InstantSource;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;

/**
 * The real service with four more routes, the ceilings that ours are measured against: each does
 * one thing more than the one before, through the same server and into the same store. Prints its
 * port and runs until its input ends. Argument: {@code h2} or {@code postgresql}.
 */
final class LoadServer {
  private static final String CLINIC = "local";
  private static final String KIND = "assessment-request";

  private final Contract contract = Contract.published();
  private final Schema reference = reference(contract);
  private final Store store;
  private volatile @Nullable Document assessment;

  private LoadServer(Store store) {
    this.store = store;
  }

  public static void main(String[] args) throws IOException {
    Path folder = Files.createTempDirectory("evenside-load");
    StoreSettings where = StoreSettings.inFolder(folder);
    EmbeddedPostgres server = null;
    if (args[0].equals("postgresql")) {
      // As a server for records is run: every commit waits for the disk.
      server =
          EmbeddedPostgres.builder()
              .setServerConfig("fsync", "on")
              .setServerConfig("synchronous_commit", "on")
              .setServerConfig("full_page_writes", "on")
              .start();
      where = StoreSettings.at(server.getJdbcUrl("postgres", "postgres"), "postgres", "postgres");
    }
    LedgerSettings signing =
        new LedgerSettings(folder, LedgerSettings.DEFAULT_NAME, List.of(SigningKey.generate()));
    try (Store store = Store.open(where);
        Ledger ledger = Ledger.open(store, signing, InstantSource.system())) {
      ledger.prepare(CLINIC);
      Javalin app = new LoadServer(store).start(ledger);
      System.out.println("port " + app.port());
      while (System.in.read() >= 0) {
        // until the one who started this is gone
      }
      app.stop();
    } finally {
      if (server != null) {
        server.close();
      }
      Place.delete(folder);
    }
  }

  private Javalin start(Ledger ledger) {
    ReadinessService service = ReadinessService.of(contract, store, ledger, InstantSource.system());
    Authentication everybody = Authentication.none(CLINIC);
    List<Route> routes = new ArrayList<>();
    routes.add(post("/bench/echo", LoadServer::echo).openToAnyone());
    routes.add(post("/bench/validator", this::validator).openToAnyone());
    routes.add(post("/bench/answer", call -> answerAtHand(call, service)).openToAnyone());
    routes.add(post("/bench/schema", this::schema).openToAnyone());
    routes.add(post("/bench/insert", this::insert).openToAnyone());
    Api.Dependencies dependencies =
        new Api.Dependencies(service, new Cursors(new byte[32]), everybody);
    routes.addAll(Api.routes(dependencies));
    return Api.create(everybody, dependencies.operations(), routes, Front.LOOPBACK)
        .start("127.0.0.1", 0);
  }

  /** Reads the tree and writes it. */
  private static Reply echo(Call call) {
    return Reply.of(call.json());
  }

  /** Reads the tree and has the general validator judge it, as was done before the acceptor. */
  private Reply validator(Call call) {
    JsonNode json = call.json();
    return answer(reference.validate(json).isEmpty());
  }

  /** The same, with the assessment for an answer, but one that is at hand: nothing is computed. */
  private Reply answerAtHand(Call call, ReadinessService service) {
    JsonNode json = call.json();
    if (!reference.validate(json).isEmpty()) {
      throw new IllegalStateException("the payload must be valid");
    }
    Document known = assessment;
    if (known == null) {
      known = service.desk().assess(json);
      assessment = known;
    }
    return Reply.ofPassing(known);
  }

  /** Reads the tree and checks it against its schema as the service does. */
  private Reply schema(Call call) {
    return answer(contract.validate(KIND, call.json()).isEmpty());
  }

  /** The same, and one row with the document, on disk before the answer. */
  private Reply insert(Call call) {
    JsonNode json = call.json();
    boolean valid = contract.validate(KIND, json).isEmpty();
    byte[] bytes = json.toString().getBytes(StandardCharsets.UTF_8);
    String id = UUID.randomUUID().toString();
    store.write(
        writing -> {
          writing.insertCriteriaSet(
              new StoredCriteriaSet(CLINIC, id, "1", Document.sha256(bytes), bytes, Instant.now()));
          return id;
        });
    return answer(valid);
  }

  private static Reply answer(boolean valid) {
    if (!valid) {
      throw new IllegalStateException("the payload must be valid");
    }
    return new Reply(
        200, Route.JSON, "{\"valid\":true}".getBytes(StandardCharsets.UTF_8), Map.of());
  }

  private static Schema reference(Contract contract) {
    Map<String, String> texts = new LinkedHashMap<>();
    List<String> names = new ArrayList<>(contract.kinds());
    names.add("common");
    for (String name : names) {
      String text = new String(contract.schema(name), StandardCharsets.UTF_8);
      texts.put(id(contract, name), text);
    }
    SchemaRegistryConfig config =
        SchemaRegistryConfig.builder()
            .formatAssertionsEnabled(true)
            .preloadSchema(true)
            .cacheRefs(true)
            .build();
    Schema schema =
        SchemaRegistry.withDefaultDialect(
                SpecificationVersion.DRAFT_2020_12,
                builder -> builder.schemas(texts).schemaRegistryConfig(config))
            .getSchema(SchemaLocation.of(id(contract, KIND)));
    schema.initializeValidators();
    return schema;
  }

  private static String id(Contract contract, String name) {
    return "https://evenside.example/schemas/"
        + contract.schemaVersion()
        + "/"
        + name
        + ".schema.json";
  }
}
