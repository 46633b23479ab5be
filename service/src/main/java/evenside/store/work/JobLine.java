package evenside.store.work;

import java.util.Optional;

/**
 * A line that waits to be done.
 *
 * @param line its number in the body, from 1
 * @param caseId the case it is about, if it names one
 * @param request the line as it was sent; not to be changed
 */
@SuppressWarnings("ArrayRecordComponent") // never compared, and the bytes are never changed
public record JobLine(int line, Optional<String> caseId, byte[] request) {}
