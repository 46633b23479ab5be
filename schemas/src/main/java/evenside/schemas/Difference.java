package evenside.schemas;

/**
 * One thing in which two versions of a schema differ, for those who hold to it.
 *
 * @param kind kind of document
 * @param place where in a document: a JSON Pointer in which {@code *} stands for every item of a
 *     list or every other member
 * @param breaks whether a document that was taken may now be refused, or a reader may now miss what
 *     it was promised
 * @param detail what differs, in words
 */
public record Difference(String kind, String place, boolean breaks, String detail) {
  /** For a person. */
  public String inWords() {
    return (breaks ? "BREAK  " : "       ") + kind + " " + place + ": " + detail;
  }

  /** As {@code changes.json} declares a break: kind and place. */
  public String key() {
    return kind + " " + place;
  }
}
