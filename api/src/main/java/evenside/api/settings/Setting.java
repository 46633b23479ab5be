package evenside.api.settings;

import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Collectors;

/**
 * One thing that can be set: its name, its meaning, its default and how its text is read. In a file
 * it is {@code name = value}, in the environment {@code EVENSIDE_NAME}, as a flag {@code --name}. A
 * secret has no flag, as everyone on the machine can read the flags of a process.
 *
 * @param <T> what its text is read into
 */
public final class Setting<T> {
  private final String name;
  private final String placeholder;
  private final String meaning;
  private final String fallback;
  private final Function<String, T> reader;
  private final Function<String, String> shown;
  private final boolean secret;

  private Setting(
      String name,
      String placeholder,
      String meaning,
      String fallback,
      Function<String, T> reader,
      Function<String, String> shown,
      boolean secret) {
    this.name = name;
    this.placeholder = placeholder;
    this.meaning = meaning;
    this.fallback = fallback;
    this.reader = reader;
    this.shown = shown;
    this.secret = secret;
  }

  private static <T> Setting<T> of(
      String name,
      String placeholder,
      String meaning,
      String fallback,
      Function<String, T> reader) {
    return new Setting<>(name, placeholder, meaning, fallback, reader, text -> text, false);
  }

  /** A whole number within bounds, both included. */
  public static Setting<Integer> number(
      String name, int fallback, int least, int most, String meaning) {
    return of(name, "N", meaning, Integer.toString(fallback), text -> number(text, least, most));
  }

  /** A whole number within bounds, or nothing. */
  public static Setting<Optional<Integer>> optionalNumber(
      String name, int least, int most, String meaning) {
    return of(name, "N", meaning, "", optional(text -> number(text, least, most)));
  }

  /** Any text. */
  public static Setting<String> text(
      String name, String placeholder, String fallback, String meaning) {
    return of(name, placeholder, meaning, fallback, text -> text);
  }

  /** Any text, or nothing. */
  public static Setting<Optional<String>> optionalText(
      String name, String placeholder, String meaning) {
    return of(name, placeholder, meaning, "", optional(text -> text));
  }

  /** A file or folder. */
  public static Setting<Path> path(
      String name, String placeholder, String fallback, String meaning) {
    return of(name, placeholder, meaning, fallback, Setting::path);
  }

  /** A file or folder, or nothing. */
  public static Setting<Optional<Path>> optionalPath(
      String name, String placeholder, String meaning) {
    return of(name, placeholder, meaning, "", optional(Setting::path));
  }

  /** Texts between commas; none by default. */
  public static Setting<List<String>> list(String name, String placeholder, String meaning) {
    return of(
        name,
        placeholder,
        meaning,
        "",
        text ->
            Arrays.stream(text.split(",")).map(String::strip).filter(s -> !s.isEmpty()).toList());
  }

  /** Yes or no; no by default. */
  public static Setting<Boolean> yes(String name, String meaning) {
    return of(name, "", meaning, "false", Setting::yesOrNo);
  }

  /** One of an enum, written in lower case. */
  public static <E extends Enum<E>> Setting<E> choice(String name, E fallback, String meaning) {
    List<E> choices = List.of(fallback.getDeclaringClass().getEnumConstants());
    String all = choices.stream().map(Setting::spelled).collect(Collectors.joining("|"));
    return of(
        name,
        all,
        meaning,
        spelled(fallback),
        text ->
            choices.stream()
                .filter(choice -> spelled(choice).equals(text))
                .findFirst()
                .orElseThrow(() -> new IllegalArgumentException("must be one of " + all)));
  }

  /** The same setting, never shown and without a flag. */
  public Setting<T> secretly() {
    return new Setting<>(name, placeholder, meaning, fallback, reader, text -> "********", true);
  }

  /** The same setting, shown in this way because a part of it may be secret. */
  public Setting<T> shownAs(Function<String, String> form) {
    return new Setting<>(name, placeholder, meaning, fallback, reader, form, secret);
  }

  /** Name in a file, {@code database-url}. */
  public String name() {
    return name;
  }

  /** Name in the environment, {@code EVENSIDE_DATABASE_URL}. */
  public String variable() {
    return "EVENSIDE_" + name.toUpperCase(Locale.ROOT).replace('-', '_');
  }

  /** The flag, {@code --database-url}, unless it is a secret. */
  public Optional<String> flag() {
    return secret ? Optional.empty() : Optional.of("--" + name);
  }

  /** What stands for its value in a help text; empty for yes or no. */
  public String placeholder() {
    return placeholder;
  }

  /** What it is for, in sentences. */
  public String meaning() {
    return meaning;
  }

  /** The text that holds where nothing is said; may be empty. */
  public String fallback() {
    return fallback;
  }

  /** The value of a text; an unfit one is an {@link IllegalArgumentException}. */
  T read(String text) {
    return reader.apply(text);
  }

  /** A text as it may be shown. */
  String show(String text) {
    return text.isEmpty() ? "(none)" : shown.apply(text);
  }

  /** A text that could not be read, as it may be shown in a message. */
  String quote(String text) {
    return secret ? "what was given" : '"' + shown.apply(text) + '"';
  }

  private static <T> Function<String, Optional<T>> optional(Function<String, T> reader) {
    return text -> text.isEmpty() ? Optional.empty() : Optional.of(reader.apply(text));
  }

  private static int number(String text, int least, int most) {
    String range = "must be a whole number from " + least + " to " + most;
    try {
      int number = Integer.parseInt(text);
      if (number >= least && number <= most) {
        return number;
      }
    } catch (NumberFormatException e) {
      throw new IllegalArgumentException(range, e);
    }
    throw new IllegalArgumentException(range);
  }

  private static Path path(String text) {
    try {
      return Path.of(text);
    } catch (InvalidPathException e) {
      throw new IllegalArgumentException("must be a path", e);
    }
  }

  private static boolean yesOrNo(String text) {
    return switch (text) {
      case "true" -> true;
      case "false" -> false;
      default -> throw new IllegalArgumentException("must be true or false");
    };
  }

  private static String spelled(Enum<?> choice) {
    return choice.name().toLowerCase(Locale.ROOT).replace('_', '-');
  }
}
