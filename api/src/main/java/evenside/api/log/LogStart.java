package evenside.api.log;

import ch.qos.logback.classic.LoggerContext;
import ch.qos.logback.classic.spi.Configurator;
import ch.qos.logback.classic.spi.ConfiguratorRank;
import ch.qos.logback.core.spi.ContextAwareBase;

/**
 * How the log looks from its first line, found by the log's library. Made in code: reading a file
 * of settings takes a twentieth of the whole start.
 */
@ConfiguratorRank(ConfiguratorRank.CUSTOM_HIGH_PRIORITY)
public final class LogStart extends ContextAwareBase implements Configurator {
  /** Found by its name. */
  public LogStart() {}

  /** Tests, and whoever names a file to the library, have a log of their own. */
  @Override
  public ExecutionStatus configure(LoggerContext log) {
    if (System.getProperty("logback.configurationFile") != null
        || LogStart.class.getResource("/logback-test.xml") != null) {
      return ExecutionStatus.INVOKE_NEXT_IF_ANY;
    }
    LogForm.chosen().make(log);
    return ExecutionStatus.DO_NOT_INVOKE_NEXT_IF_ANY;
  }
}
