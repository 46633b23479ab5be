package evenside.api.settings;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Collectors;

/** The settings in force, and where each came from. */
public final class Settings {
  private static final String PREFIX = "EVENSIDE_";

  /** Names a settings file in the environment; it cannot stand in a file itself. */
  public static final String FILE_VARIABLE = PREFIX + "SETTINGS";

  private static final String DEFAULT = "default";

  private final Map<String, Given> given;
  private final List<String> strange;

  /** A value that was given, as text, and its place. */
  private record Given(String text, String from) {}

  /**
   * One setting as it is in force.
   *
   * @param name the setting
   * @param value its value as it may be shown
   * @param from where the value came from
   */
  public record Line(String name, String value, String from) {
    /** Whether somebody gave it. */
    public boolean isGiven() {
      return !from.equals(DEFAULT);
    }

    /** For a log. */
    public String inWords() {
      return name + " = " + value + " (" + from + ")";
    }
  }

  private Settings(Map<String, Given> given, List<String> strange) {
    this.given = Map.copyOf(given);
    this.strange = List.copyOf(strange);
  }

  /** Nothing set: every default. */
  public static Settings defaults() {
    return new Settings(Map.of(), List.of());
  }

  /**
   * Takes settings from all places; the later argument wins.
   *
   * @param file a settings file
   * @param environment environment variables; empty ones count as not set
   * @param flags values by the name of the setting
   * @throws BadSettings if anything in them is unfit, naming every fault
   */
  public static Settings from(
      Optional<Path> file, Map<String, String> environment, Map<String, String> flags) {
    List<String> faults = new ArrayList<>();
    Map<String, Given> given = new LinkedHashMap<>();
    file.ifPresent(
        path ->
            SettingsFile.read(path, names(), faults)
                .forEach(
                    (name, entry) ->
                        given.put(name, new Given(entry.value(), path + ":" + entry.line()))));
    for (Setting<?> setting : Catalogue.all()) {
      String variable = environment.getOrDefault(setting.variable(), "");
      if (!variable.isEmpty()) {
        given.put(setting.name(), new Given(variable, "environment " + setting.variable()));
      }
      String flag = flags.get(setting.name());
      if (flag != null) {
        given.put(setting.name(), new Given(flag, "flag --" + setting.name()));
      }
    }
    Settings settings = new Settings(given, strange(environment.keySet()));
    settings.check(faults);
    return settings;
  }

  /** The same settings with another value of one. */
  public <T> Settings with(Setting<T> setting, String text) {
    Map<String, Given> more = new TreeMap<>(given);
    more.put(setting.name(), new Given(text, "the program"));
    Settings settings = new Settings(more, strange);
    settings.check(new ArrayList<>());
    return settings;
  }

  /** The value of a setting. */
  public <T> T get(Setting<T> setting) {
    return setting.read(given(setting).text());
  }

  /** Every setting as it is in force, in the order of the catalogue. */
  public List<Line> lines() {
    return Catalogue.all().stream().map(this::line).toList();
  }

  /** Variables that look like ours and are none, so have no effect. */
  public List<String> strangeVariables() {
    return strange;
  }

  /** What is in force and where it came from, as a table for a person. */
  public String table() {
    int name = width(lines().stream().map(Line::name).toList());
    int value = width(lines().stream().map(Line::value).toList());
    String form = "%-" + name + "s  %-" + value + "s  %s";
    String table =
        lines().stream()
            .map(line -> form.formatted(line.name(), line.value(), line.from()))
            .collect(Collectors.joining("\n"));
    return strange.isEmpty()
        ? table
        : table + "\nnot settings, without effect: " + String.join(", ", strange);
  }

  private Line line(Setting<?> setting) {
    Given one = given(setting);
    return new Line(setting.name(), setting.show(one.text()), one.from());
  }

  private Given given(Setting<?> setting) {
    return given.getOrDefault(setting.name(), new Given(setting.fallback(), DEFAULT));
  }

  private void check(List<String> faults) {
    for (Setting<?> setting : Catalogue.all()) {
      Given one = given(setting);
      try {
        setting.read(one.text());
      } catch (IllegalArgumentException e) {
        faults.add(
            setting.name()
                + " "
                + e.getMessage()
                + ", not "
                + setting.quote(one.text())
                + " ("
                + one.from()
                + ")");
      }
    }
    if (!faults.isEmpty()) {
      throw new BadSettings(faults);
    }
  }

  private static Set<String> names() {
    return Catalogue.all().stream().map(Setting::name).collect(Collectors.toSet());
  }

  private static List<String> strange(Set<String> variables) {
    Set<String> known = Catalogue.all().stream().map(Setting::variable).collect(Collectors.toSet());
    return new TreeSet<>(variables)
        .stream()
            .filter(name -> name.startsWith(PREFIX) && !name.equals(FILE_VARIABLE))
            .filter(name -> !known.contains(name))
            .toList();
  }

  private static int width(List<String> texts) {
    return texts.stream().mapToInt(String::length).max().orElse(1);
  }
}
