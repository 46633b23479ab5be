package evenside.store.clients;

import evenside.store.database.Failures;
import evenside.store.database.StoreConflict;
import evenside.store.database.StoreConflict.Kind;
import java.time.Instant;
import java.time.LocalDate;
import org.jdbi.v3.core.Handle;

/** What a transaction can add of the clients' keys. */
public final class ClientKeyWriting extends ClientKeyReading {
  /** Works in the transaction of the handle. */
  public ClientKeyWriting(Handle handle) {
    super(handle);
  }

  /**
   * Adds a key; whether it is revoked or was used is not among what is added.
   *
   * @throws StoreConflict {@link Kind#CLIENT_KEY_TAKEN} if the client has a key of that number
   */
  public void insert(StoredClientKey key) {
    Failures.insert(
        handle
            .createUpdate(
                """
                insert into client_key
                  (id, clinic, client, number, secret_sha256, scopes, issued_at, expires_at)
                values (:id, :clinic, :client, :number, :secret_sha256, :scopes, :issued_at,
                  :expires_at)
                """)
            .bind("id", key.id())
            .bind("clinic", key.clinic())
            .bind("client", key.client())
            .bind("number", key.number())
            .bind("secret_sha256", key.secretSha256())
            .bind("scopes", key.scopes())
            .bind("issued_at", key.issuedAt())
            .bind("expires_at", key.expiresAt()),
        Kind.CLIENT_KEY_TAKEN);
  }

  /** Revokes a key that is there; the first time counts. */
  public void revoke(String id, Instant at) {
    handle
        .createUpdate(
            "insert into client_key_revocation (id, revoked_at) values (:id, :at)"
                + " on conflict do nothing")
        .bind("id", id)
        .bind("at", at)
        .execute();
  }

  /** Notes that a key that is there was used on a day. */
  public void used(String id, LocalDate day) {
    handle
        .createUpdate(
            "insert into client_key_use (id, used_on) values (:id, :day) on conflict do nothing")
        .bind("id", id)
        .bind("day", day)
        .execute();
  }
}
