package evenside.api.bulk;

/**
 * One line of a body.
 *
 * @param number from 1, empty lines counted too
 * @param bytes the line without its end; not to be changed. Cut off where it is too long
 * @param tooLong whether it has more than {@link LineReader#MAX_BYTES}
 */
@SuppressWarnings("ArrayRecordComponent") // never compared, and the bytes are never changed
record Line(int number, byte[] bytes, boolean tooLong) {}
