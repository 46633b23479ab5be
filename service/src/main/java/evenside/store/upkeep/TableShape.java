package evenside.store.upkeep;

import evenside.store.database.StoreException;
import java.sql.Connection;
import java.sql.DatabaseMetaData;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Types;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.UUID;
import java.util.stream.Collectors;

/**
 * A table of the record as its database describes it, so that a table of a later migration is
 * copied too.
 *
 * @param name its name
 * @param columns name and Java type of each column, in their order
 * @param key the columns of its primary key, in their order
 */
record TableShape(String name, Map<String, Class<?>> columns, List<String> key) {
  private static final String SCHEMA = "public";

  /** The tool's own table, which opening the store makes. */
  private static final String MIGRATIONS = "flyway_schema_history";

  /** Every table of the record, each after those that its foreign keys point at. */
  static List<TableShape> all(Connection connection) throws SQLException {
    DatabaseMetaData meta = connection.getMetaData();
    Map<String, Set<String>> needs = new TreeMap<>();
    try (ResultSet tables =
        meta.getTables(null, SCHEMA, "%", new String[] {"TABLE", "BASE TABLE"})) {
      while (tables.next()) {
        needs.put(tables.getString("TABLE_NAME"), new HashSet<>());
      }
    }
    needs.remove(MIGRATIONS);
    for (Map.Entry<String, Set<String>> table : needs.entrySet()) {
      try (ResultSet keys = meta.getImportedKeys(null, SCHEMA, table.getKey())) {
        while (keys.next()) {
          table.getValue().add(keys.getString("PKTABLE_NAME"));
        }
      }
    }
    List<TableShape> ordered = new ArrayList<>();
    for (String name : inOrder(needs)) {
      ordered.add(new TableShape(name, columns(meta, name), key(meta, name)));
    }
    return ordered;
  }

  private static List<String> inOrder(Map<String, Set<String>> needs) {
    List<String> ordered = new ArrayList<>();
    while (ordered.size() < needs.size()) {
      int before = ordered.size();
      needs.forEach(
          (name, needed) -> {
            if (!ordered.contains(name) && ordered.containsAll(needed)) {
              ordered.add(name);
            }
          });
      if (ordered.size() == before) {
        throw new StoreException("tables refer to each other in a circle: " + needs.keySet());
      }
    }
    return ordered;
  }

  private static Map<String, Class<?>> columns(DatabaseMetaData meta, String table)
      throws SQLException {
    Map<String, Class<?>> columns = new LinkedHashMap<>();
    try (ResultSet rows = meta.getColumns(null, SCHEMA, table, "%")) {
      while (rows.next()) {
        String column = rows.getString("COLUMN_NAME");
        columns.put(
            column,
            type(table + "." + column, rows.getInt("DATA_TYPE"), rows.getString("TYPE_NAME")));
      }
    }
    return columns;
  }

  private static Class<?> type(String column, int type, String name) {
    if (name.toLowerCase(Locale.ROOT).equals("uuid")) {
      return UUID.class;
    }
    return switch (type) {
      case Types.VARCHAR -> String.class;
      case Types.BINARY, Types.VARBINARY -> byte[].class;
      case Types.TIMESTAMP, Types.TIMESTAMP_WITH_TIMEZONE -> OffsetDateTime.class;
      case Types.DATE -> LocalDate.class;
      case Types.INTEGER -> Integer.class;
      case Types.BIGINT -> Long.class;
      case Types.DOUBLE -> Double.class;
      case Types.BOOLEAN, Types.BIT -> Boolean.class;
      default -> throw new StoreException("column " + column + " has a type not copied: " + name);
    };
  }

  private static List<String> key(DatabaseMetaData meta, String table) throws SQLException {
    Map<Integer, String> columns = new TreeMap<>();
    try (ResultSet rows = meta.getPrimaryKeys(null, SCHEMA, table)) {
      while (rows.next()) {
        columns.put(rows.getInt("KEY_SEQ"), rows.getString("COLUMN_NAME"));
      }
    }
    if (columns.isEmpty()) {
      throw new StoreException("table " + table + " has no primary key");
    }
    return List.copyOf(columns.values());
  }

  /** Reads every row in the order of its key, which is the same in both databases. */
  String select(boolean postgres) {
    String order =
        key.stream()
            .map(column -> column + (postgres && text(column) ? " collate \"C\"" : ""))
            .collect(Collectors.joining(", "));
    return "select " + String.join(", ", columns.keySet()) + " from " + name + " order by " + order;
  }

  private boolean text(String column) {
    return String.class.equals(columns.get(column));
  }

  /** Adds one row. */
  String insert() {
    return "insert into "
        + name
        + " ("
        + String.join(", ", columns.keySet())
        + ") values ("
        + "?, ".repeat(columns.size() - 1)
        + "?)";
  }
}
