package evenside.api.command;

import evenside.api.settings.Catalogue;
import evenside.api.settings.Setting;
import java.util.LinkedHashMap;
import java.util.Map;
import picocli.CommandLine.IModelTransformer;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.OptionSpec;
import picocli.CommandLine.ParseResult;

/** Gives a command a flag for each setting that may have one. */
final class SettingFlags implements IModelTransformer {
  @Override
  public CommandSpec transform(CommandSpec command) {
    for (Setting<?> setting : Catalogue.all()) {
      setting.flag().ifPresent(flag -> command.addOption(option(setting, flag)));
    }
    return command;
  }

  private static OptionSpec option(Setting<?> setting, String flag) {
    boolean bare = setting.placeholder().isEmpty();
    String fallback =
        bare || setting.fallback().isEmpty() ? "" : " Default: " + setting.fallback() + ".";
    OptionSpec.Builder option =
        OptionSpec.builder(flag).type(String.class).description(setting.meaning() + fallback);
    return bare
        ? option.arity("0..1").paramLabel("true|false").fallbackValue("true").build()
        : option.arity("1").paramLabel(setting.placeholder()).build();
  }

  /** The values of the flags that were given, by the name of the setting. */
  static Map<String, String> given(ParseResult parsed) {
    Map<String, String> given = new LinkedHashMap<>();
    for (Setting<?> setting : Catalogue.all()) {
      setting
          .flag()
          .filter(parsed::hasMatchedOption)
          .ifPresent(flag -> given.put(setting.name(), parsed.matchedOptionValue(flag, "")));
    }
    return given;
  }
}
