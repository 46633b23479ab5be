package evenside.api;

import static io.restassured.RestAssured.given;

import evenside.api.access.ApiKeys;
import evenside.api.access.Authentication;
import evenside.api.access.BearerTokens;
import evenside.api.access.Scope;
import evenside.api.access.TokenKind;
import evenside.api.http.Cursors;
import evenside.api.openapi.OpenApiFilter;
import evenside.clients.ClientKeys;
import evenside.ledger.Ledger;
import evenside.ledger.LedgerSettings;
import evenside.note.SigningKey;
import evenside.note.VerifierKey;
import evenside.readiness.ReadinessService;
import evenside.schemas.Contract;
import evenside.store.Store;
import evenside.store.database.StoreSettings;
import io.javalin.Javalin;
import io.restassured.builder.RequestSpecBuilder;
import io.restassured.config.DecoderConfig;
import io.restassured.config.EncoderConfig;
import io.restassured.config.RestAssuredConfig;
import io.restassured.response.Response;
import io.restassured.specification.RequestSpecification;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Duration;
import java.time.Instant;
import java.time.InstantSource;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.UUID;
import java.util.stream.Stream;
import org.junit.jupiter.api.extension.AfterAllCallback;
import org.junit.jupiter.api.extension.BeforeAllCallback;
import org.junit.jupiter.api.extension.ExtensionContext;

/**
 * The real service on a free port with a real H2 store, its clock standing still. Every exchange
 * through {@link #http} is held to {@code openapi.yaml}.
 */
public final class LiveService implements BeforeAllCallback, AfterAllCallback {
  /** The day after the last date in the published examples. */
  public static final Instant NOW = Instant.parse("2026-12-01T12:00:00Z");

  /** One contract for all test classes, as compiling its schemas takes its time. */
  public static final Contract CONTRACT = Contract.published();

  private Path folder = Path.of("");
  private StoreSettings settings = StoreSettings.inFolder(folder);
  private final SigningKey key = SigningKey.generate();
  private Store store;
  private Ledger ledger;
  private Javalin app;

  private final boolean guarded;
  private final List<TokenKind> otherTokens;
  private ClientKeys clientKeys;

  /** Without authentication: everybody is the one client of the clinic {@code local}. */
  public LiveService() {
    this(false, List.of());
  }

  private LiveService(boolean guarded, List<TokenKind> otherTokens) {
    this.guarded = guarded;
    this.otherTokens = otherTokens;
  }

  /** With authentication: by keys of {@link #key}, and by other tokens. */
  public static LiveService guarded(TokenKind... otherTokens) {
    return new LiveService(true, List.of(otherTokens));
  }

  @Override
  public void beforeAll(ExtensionContext context) throws IOException {
    folder = Files.createTempDirectory("evenside-test");
    settings = StoreSettings.inFolder(folder);
    store = Store.open(settings);
    LedgerSettings signing = new LedgerSettings(folder, LedgerSettings.DEFAULT_NAME, List.of(key));
    ledger = Ledger.open(store, signing, InstantSource.fixed(NOW));
    clientKeys = new ClientKeys(store, InstantSource.fixed(NOW));
    ReadinessService service =
        ReadinessService.of(CONTRACT, store, ledger, InstantSource.fixed(NOW));
    app = Api.create(new Api.Dependencies(service, new Cursors(new byte[32]), authentication()));
    app.start("127.0.0.1", 0);
  }

  private Authentication authentication() {
    if (!guarded) {
      ledger.prepare("local");
      return Authentication.none("local");
    }
    List<TokenKind> kinds = new ArrayList<>(otherTokens);
    kinds.add(new ApiKeys(clientKeys, InstantSource.fixed(NOW)));
    return new BearerTokens(kinds, ledger::prepare);
  }

  /** The bearer token of a new key, living for a day. */
  public String key(String clinic, String client, Scope... scopes) {
    List<String> names = Stream.of(scopes).map(Scope::wireName).toList();
    return clientKeys.issue(clinic, client, names, NOW.plus(Duration.ofDays(1))).token();
  }

  public ClientKeys clientKeys() {
    return clientKeys;
  }

  /** The same keys, looked at by another clock. */
  public ClientKeys clientKeysAt(InstantSource clock) {
    return new ClientKeys(store, clock);
  }

  @Override
  public void afterAll(ExtensionContext context) {
    QuickStop.of(app);
    ledger.close();
    store.close();
    Place.delete(folder);
  }

  /** The key to pin. */
  public VerifierKey verifier() {
    return key.verifier(LedgerSettings.DEFAULT_NAME + "/local");
  }

  public int port() {
    return app.port();
  }

  /** Takes the store away under the running service. */
  public void closeStore() {
    store.close();
  }

  /** A request. */
  public RequestSpecification http() {
    RestAssuredConfig config =
        RestAssuredConfig.config()
            // What a test sends is what goes out: no charset added, no encoding asked for.
            .encoderConfig(
                EncoderConfig.encoderConfig()
                    .appendDefaultContentCharsetToContentTypeIfUndefined(false))
            .decoderConfig(DecoderConfig.decoderConfig().noContentDecoders());
    return given()
        .spec(
            new RequestSpecBuilder()
                .setConfig(config)
                .setBaseUri("http://127.0.0.1")
                .setPort(app.port())
                .setUrlEncodingEnabled(false)
                .build())
        .filter(new OpenApiFilter());
  }

  /** A request with a JSON body. */
  public RequestSpecification json(String body) {
    return http()
        .contentType("application/json")
        .body(body.getBytes(java.nio.charset.StandardCharsets.UTF_8));
  }

  /** A request that records: with a JSON body and a fresh key. */
  public RequestSpecification record(String body) {
    return json(body).header("Idempotency-Key", UUID.randomUUID().toString());
  }

  /** All that a client can see of an answer, but the request's own id and time. */
  public static String seen(Response response) {
    StringBuilder seen = new StringBuilder().append(response.statusCode()).append('\n');
    response.headers().asList().stream()
        .filter(header -> !List.of("Request-Id", "Date").contains(header.getName()))
        .map(header -> header.getName() + ": " + header.getValue() + "\n")
        .sorted()
        .forEach(seen::append);
    return seen + response.asString().replaceFirst("urn:uuid:[0-9a-f-]+", "");
  }

  /** Leaves a request with this key unfinished until the returned thing is closed. */
  public AutoCloseable holdKey(String key) throws SQLException {
    Connection connection =
        DriverManager.getConnection(settings.url(), settings.user(), settings.password());
    connection.setAutoCommit(false);
    try (PreparedStatement insert =
        connection.prepareStatement(
            "insert into idempotency (clinic, idempotency_key, fingerprint, kind, record_id,"
                + " created_at) values ('local', ?, ?, 'decision', ?, current_timestamp)")) {
      insert.setString(1, key);
      insert.setString(2, "0".repeat(64));
      insert.setString(3, UUID.randomUUID().toString());
      insert.executeUpdate();
    }
    return () -> {
      connection.rollback();
      connection.close();
    };
  }

  /** Rows of every table of the store. */
  public Map<String, Long> rows() {
    Map<String, Long> rows = new TreeMap<>();
    try (Connection connection =
            DriverManager.getConnection(settings.url(), settings.user(), settings.password());
        Statement statement = connection.createStatement()) {
      try (ResultSet tables =
          connection.getMetaData().getTables(null, "public", "%", new String[] {"BASE TABLE"})) {
        while (tables.next()) {
          rows.put(tables.getString("TABLE_NAME"), 0L);
        }
      }
      for (String table : rows.keySet()) {
        try (ResultSet count = statement.executeQuery("select count(*) from \"" + table + "\"")) {
          count.next();
          rows.put(table, count.getLong(1));
        }
      }
      return rows;
    } catch (SQLException e) {
      throw new IllegalStateException(e);
    }
  }
}
