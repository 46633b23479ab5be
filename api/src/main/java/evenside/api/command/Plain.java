package evenside.api.command;

/** Text of others on a terminal, where a control character could forge a line or hide one. */
final class Plain {
  private Plain() {}

  /** The text with a visible escape in the place of what is no visible character. */
  static String text(String text) {
    StringBuilder plain = new StringBuilder(text.length());
    text.codePoints()
        .forEach(
            c -> {
              if (isVisible(c)) {
                plain.appendCodePoint(c);
              } else {
                plain.append("\\u{%x}".formatted(c));
              }
            });
    return plain.toString();
  }

  private static boolean isVisible(int c) {
    return switch (Character.getType(c)) {
      case Character.CONTROL,
          Character.FORMAT,
          Character.LINE_SEPARATOR,
          Character.PARAGRAPH_SEPARATOR ->
          false;
      default -> true;
    };
  }
}
