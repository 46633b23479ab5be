package evenside.readiness.recording;

/** Why a use case was refused. Only the outer world knows what status that is. */
public enum Refusal {
  /** The document has faults. */
  INVALID,
  /** The document follows a schema version that is not known. */
  UNSUPPORTED_VERSION,
  /** There is no such thing, or not for this clinic. */
  NOT_FOUND,
  /** It was there, and was erased on purpose. */
  ERASED,
  /** The same identifier stands for other content already. */
  CONFLICT,
  /** The current fingerprint must be named to change this. */
  PRECONDITION_REQUIRED,
  /** It was changed in between. */
  PRECONDITION_FAILED,
  /** The idempotency key was used for another request. */
  KEY_REUSED,
  /** The first request with this idempotency key is still running. */
  KEY_IN_FLIGHT,
  /** The record cannot be reached now. */
  UNAVAILABLE
}
