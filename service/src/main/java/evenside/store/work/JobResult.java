package evenside.store.work;

/**
 * What came of a line.
 *
 * @param line its number in the body, from 1
 * @param status HTTP status
 * @param result the line of the answer; not to be changed
 */
@SuppressWarnings("ArrayRecordComponent") // never compared, and the bytes are never changed
public record JobResult(int line, int status, byte[] result) {}
