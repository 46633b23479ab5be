package evenside.store;

import evenside.store.cohort.FindingRow;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.sql.Date;
import java.sql.PreparedStatement;
import java.sql.SQLException;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jdbi.v3.core.Handle;

/**
 * Writes many decisions with one statement per table, for a store that is filled to be measured.
 * The rows are those that {@link Writing} writes one by one.
 */
public final class ManyRows {
  private static final Pattern INDEX =
      Pattern.compile(
          "create index if not exists \\w+\\s+on (decision|determination|ledger_entry)\\s[^;]*");

  private ManyRows() {}

  /**
   * Adds decisions with their findings and the batteries they looked at.
   *
   * @param findings of each decision, the same for all
   * @param batteries by id of the decision
   */
  public static void decisions(
      Writing writing,
      List<StoredDecision> decisions,
      List<FindingRow> findings,
      Map<UUID, UUID> batteries) {
    try {
      decisions(writing.handle, decisions);
      findings(writing.handle, decisions, findings);
      batteries(writing.handle, decisions, batteries);
    } catch (SQLException e) {
      throw new IllegalStateException(e);
    }
  }

  private static void decisions(Handle handle, List<StoredDecision> decisions) throws SQLException {
    try (PreparedStatement insert =
        handle
            .getConnection()
            .prepareStatement(
                """
                insert into decision (clinic, id, case_id, criteria_set, criteria_version,
                  criteria_sha256, milestone, outcome, as_of, decided_at, document, inputs)
                values (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)
                """)) {
      for (StoredDecision one : decisions) {
        insert.setString(1, one.clinic());
        insert.setObject(2, one.id());
        insert.setString(3, one.caseId());
        insert.setString(4, one.criteriaSet());
        insert.setString(5, one.criteriaVersion());
        insert.setString(6, one.criteriaSha256());
        insert.setString(7, one.milestone());
        insert.setString(8, one.outcome());
        insert.setDate(9, Date.valueOf(one.asOf()));
        insert.setObject(10, OffsetDateTime.ofInstant(one.decidedAt(), ZoneOffset.UTC));
        insert.setBytes(11, one.document());
        insert.setBytes(12, one.inputs());
        insert.addBatch();
      }
      insert.executeBatch();
    }
  }

  private static void findings(
      Handle handle, List<StoredDecision> decisions, List<FindingRow> findings)
      throws SQLException {
    try (PreparedStatement insert =
        handle
            .getConnection()
            .prepareStatement(
                """
                insert into found (clinic, decision_id, findings) values (?, ?, ?)
                """)) {
      String lines = FindingRow.lines(findings);
      String rest = lines.substring(lines.indexOf('\n'));
      for (StoredDecision one : decisions) {
        insert.setString(1, one.clinic());
        insert.setObject(2, one.id());
        insert.setString(3, FindingRow.WHOLE_SET + " " + one.outcome() + " required" + rest);
        insert.addBatch();
      }
      insert.executeBatch();
    }
  }

  private static void batteries(
      Handle handle, List<StoredDecision> decisions, Map<UUID, UUID> batteries)
      throws SQLException {
    try (PreparedStatement insert =
        handle
            .getConnection()
            .prepareStatement(
                "insert into decision_battery (clinic, battery_id, decision_id)"
                    + " values (?, ?, ?)")) {
      for (StoredDecision one : decisions) {
        insert.setString(1, one.clinic());
        insert.setObject(2, batteries.get(one.id()));
        insert.setObject(3, one.id());
        insert.addBatch();
      }
      insert.executeBatch();
    }
  }

  /**
   * Fills a store without the indexes of its largest tables, and makes them again afterwards: in
   * one pass over the rows that is many times cheaper. H2 uses the room of old pages at once
   * meanwhile, so that its file does not grow to several times its content.
   */
  public static void filling(Store store, boolean embedded, Runnable fill) {
    List<String> indexes = indexes();
    for (String index : indexes) {
      run(store, "drop index " + index.replaceFirst("(?s).*if not exists (\\w+).*", "$1"));
    }
    if (embedded) {
      run(store, "set retention_time 0");
    }
    fill.run();
    indexes.forEach(index -> run(store, index));
    if (embedded) {
      run(store, "set retention_time 45000");
    }
    run(store, "analyze");
  }

  /** As the migrations make them. */
  private static List<String> indexes() {
    List<String> found = new ArrayList<>();
    for (String migration : List.of("V1__tables.sql", "V3__ledger.sql", "V4__trends.sql")) {
      Matcher index = INDEX.matcher(text("migration/" + migration));
      while (index.find()) {
        found.add(index.group());
      }
    }
    return found;
  }

  private static String text(String resource) {
    try (InputStream in = ManyRows.class.getResourceAsStream(resource)) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static void run(Store store, String statement) {
    store.<Integer>write(writing -> writing.handle.execute(statement));
  }
}
