package evenside.schemas;

import java.util.Optional;
import java.util.regex.Pattern;
import java.util.stream.Stream;

/** The forms that ids and codes have, as the patterns of {@code common.schema.json}, in words. */
public enum Form {
  /** What a sender chooses: ids of cases and records. */
  IDENTIFIER(
      "[A-Za-z0-9][A-Za-z0-9._:-]*",
      64,
      "takes letters of the English alphabet, digits and . _ : - without spaces, and begins with a"
          + " letter or digit"),
  CODE(
      "[a-z0-9][a-z0-9-]*",
      64,
      "takes small letters, digits and hyphens, as in return-to-competition"),
  VERSION("[0-9][0-9.]*", 16, "takes digits and dots, as in 2020.1"),
  /** What the service gives. */
  UUID(
      "[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}",
      36, "must be an identifier that the service gave: a UUID in small letters"),
  SHA256("[0-9a-f]{64}", 64, "must be a SHA-256, as 64 hexadecimal digits in small letters");

  private final Pattern pattern;
  private final int longest;
  private final String words;

  Form(String pattern, int longest, String words) {
    this.pattern = Pattern.compile(pattern);
    this.longest = longest;
    this.words = words;
  }

  /** The form that a pattern of the schemas asks for. */
  static Optional<Form> of(String pattern) {
    return Stream.of(values()).filter(form -> form.anchored().equals(pattern)).findFirst();
  }

  /** As the schemas write it. */
  String anchored() {
    return "^" + pattern + "$";
  }

  /** Most characters. */
  public int longest() {
    return longest;
  }

  /** What it asks for, as the end of a sentence about the text. */
  public String words() {
    return words;
  }

  /** Whether a text has this form and is not too long. */
  public boolean fits(String text) {
    return text.length() <= longest && pattern.matcher(text).matches();
  }
}
