package evenside.store;

import java.util.UUID;

/** A record that a sender may have given an id of its own, so that sending it again is harmless. */
public sealed interface SentRecord permits StoredBattery, StoredSession {
  /** Id given by the service. */
  UUID id();

  /** The case. */
  String caseId();

  /** Hash of the content as sent, hexadecimal; tells equal content. */
  String contentSha256();

  /** The bytes as served; not to be changed. */
  byte[] document();
}
