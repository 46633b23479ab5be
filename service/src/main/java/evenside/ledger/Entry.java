package evenside.ledger;

import evenside.merkle.Hash;
import java.nio.ByteBuffer;
import java.util.Optional;
import java.util.UUID;

/**
 * One entry of the ledger: 138 bytes of one reading only, with nothing about a person in them.
 *
 * <p>Shape, big-endian: 0 layout version 1; 1 type; 2 time in Unix milliseconds (8 bytes); 10 id
 * (16); 26 id it refers to, or zeros (16); 42 SHA-256 of the criteria set (32); 74 commitment to
 * the document (32); 106 commitment to its inputs (32). What a type does not fill is zero; see
 * {@link EntryType}.
 *
 * @param type what happened
 * @param recordedAt Unix milliseconds, never less than those of the entry before
 * @param id id of the record
 * @param refersTo id of the record it is about; present where the type says so
 * @param criteria SHA-256 of the bytes of the criteria set, or {@link #ZERO}
 * @param document commitment to the document, or as {@link EntryType} says, or {@link #ZERO}
 * @param inputs commitment to the inputs, or as {@link EntryType} says, or {@link #ZERO}
 */
public record Entry(
    EntryType type,
    long recordedAt,
    UUID id,
    Optional<UUID> refersTo,
    Hash criteria,
    Hash document,
    Hash inputs) {
  /** Bytes of an entry. */
  public static final int LENGTH = 138;

  /** A field that is not filled. */
  public static final Hash ZERO = Hash.of(new byte[Hash.LENGTH]);

  private static final byte LAYOUT = 1;
  private static final UUID NONE = new UUID(0, 0);

  /** Checks that exactly the fields of the type are filled. */
  public Entry {
    if (recordedAt < 0) {
      throw new IllegalArgumentException("an entry is not recorded before 1970: " + recordedAt);
    }
    if (id.equals(NONE)) {
      throw new IllegalArgumentException("an entry has an id");
    }
    check(type, "reference", type.refers(), refersTo.isPresent());
    check(type, "criteria set", type.fillsCriteria(), !criteria.equals(ZERO));
    check(type, "document", type.fillsDocument(), !document.equals(ZERO));
    check(type, "inputs", type.fillsInputs(), !inputs.equals(ZERO));
  }

  private static void check(EntryType type, String field, boolean wanted, boolean filled) {
    if (wanted != filled) {
      throw new IllegalArgumentException(
          "an entry of type " + type + (wanted ? " needs a " : " has no ") + field);
    }
  }

  /**
   * Reads the bytes of an entry.
   *
   * @throws IllegalArgumentException if they are none, saying which field is wrong
   */
  public static Entry parse(byte[] bytes) {
    if (bytes.length != LENGTH) {
      throw new IllegalArgumentException("an entry has 138 bytes, not " + bytes.length);
    }
    ByteBuffer in = ByteBuffer.wrap(bytes);
    byte layout = in.get();
    if (layout != LAYOUT) {
      throw new IllegalArgumentException("unknown layout version " + layout + " of an entry");
    }
    int code = in.get();
    EntryType type =
        EntryType.of(code)
            .orElseThrow(() -> new IllegalArgumentException("unknown type " + code + " of entry"));
    long recordedAt = in.getLong();
    UUID id = uuid(in);
    UUID refersTo = uuid(in);
    return new Entry(
        type,
        recordedAt,
        id,
        refersTo.equals(NONE) ? Optional.empty() : Optional.of(refersTo),
        hash(in),
        hash(in),
        hash(in));
  }

  private static UUID uuid(ByteBuffer in) {
    return new UUID(in.getLong(), in.getLong());
  }

  private static Hash hash(ByteBuffer in) {
    byte[] hash = new byte[Hash.LENGTH];
    in.get(hash);
    return Hash.of(hash);
  }

  /** The 138 bytes. */
  public byte[] bytes() {
    UUID reference = refersTo.orElse(NONE);
    return ByteBuffer.allocate(LENGTH)
        .put(LAYOUT)
        .put((byte) type.code())
        .putLong(recordedAt)
        .putLong(id.getMostSignificantBits())
        .putLong(id.getLeastSignificantBits())
        .putLong(reference.getMostSignificantBits())
        .putLong(reference.getLeastSignificantBits())
        .put(criteria.bytes())
        .put(document.bytes())
        .put(inputs.bytes())
        .array();
  }

  /** Its hash in the tree. */
  public Hash hash() {
    return Hash.leaf(bytes());
  }
}
