package evenside.store.clients;

import evenside.store.database.Instants;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.util.List;
import java.util.Optional;
import org.jdbi.v3.core.Handle;

/**
 * What a transaction can look up of the clients' keys. A key is found by its id without a clinic,
 * as it is what tells the clinic. Valid inside the transaction only.
 */
public sealed class ClientKeyReading permits ClientKeyWriting {
  private static final String KEYS =
      """
      select k.id, k.clinic, k.client, k.number, k.secret_sha256, k.scopes, k.issued_at,
        k.expires_at, r.revoked_at,
        (select max(u.used_on) from client_key_use u where u.id = k.id) as used_on
      from client_key k left join client_key_revocation r on r.id = k.id
      """;
  private static final String ORDER = " order by k.clinic, k.client, k.number";

  final Handle handle;

  /** Works in the transaction of the handle. */
  public ClientKeyReading(Handle handle) {
    this.handle = handle;
  }

  /** The key of an id; empty where there is none. */
  public Optional<StoredClientKey> key(String id) {
    return handle
        .createQuery(KEYS + "where k.id = :id")
        .bind("id", id)
        .map((row, context) -> key(row))
        .findOne();
  }

  /** All keys of all clinics, by clinic, client and number. */
  public List<StoredClientKey> all() {
    return handle.createQuery(KEYS + ORDER).map((row, context) -> key(row)).list();
  }

  /** All keys of one clinic, by client and number. */
  public List<StoredClientKey> of(String clinic) {
    return handle
        .createQuery(KEYS + "where k.clinic = :clinic" + ORDER)
        .bind("clinic", clinic)
        .map((row, context) -> key(row))
        .list();
  }

  private static StoredClientKey key(ResultSet row) throws SQLException {
    return new StoredClientKey(
        row.getString("id"),
        row.getString("clinic"),
        row.getString("client"),
        row.getInt("number"),
        row.getString("secret_sha256"),
        row.getString("scopes"),
        Instants.read(row, "issued_at"),
        Instants.read(row, "expires_at"),
        Optional.ofNullable(row.getObject("revoked_at", OffsetDateTime.class))
            .map(OffsetDateTime::toInstant),
        Optional.ofNullable(row.getObject("used_on", LocalDate.class)));
  }
}
