package evenside.readiness.recording;

/**
 * Makes a repeated request harmless.
 *
 * @param key chosen by the caller, unique in its clinic
 * @param fingerprint SHA-256 of method, path and body, hexadecimal; tells a repeat from a reuse
 */
public record IdempotencyKey(String key, String fingerprint) {}
