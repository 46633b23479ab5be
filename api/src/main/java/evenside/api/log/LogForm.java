package evenside.api.log;

import ch.qos.logback.classic.LoggerContext;
import ch.qos.logback.classic.joran.JoranConfigurator;
import ch.qos.logback.core.joran.spi.JoranException;
import java.net.URL;
import org.slf4j.LoggerFactory;

/** How the log of the service looks. */
public enum LogForm {
  /** A line for a person. */
  PLAIN,
  /** A JSON object a line, for a machine. */
  JSON;

  /** Makes the log of this process look so from now on. */
  public void use() {
    String file = this == PLAIN ? "/logback.xml" : "/evenside/api/logback-json.xml";
    URL configuration = LogForm.class.getResource(file);
    if (configuration == null) {
      throw new IllegalStateException(file + " is not in the jar");
    }
    LoggerContext context = (LoggerContext) LoggerFactory.getILoggerFactory();
    context.reset();
    JoranConfigurator configurator = new JoranConfigurator();
    configurator.setContext(context);
    try {
      configurator.doConfigure(configuration);
    } catch (JoranException e) {
      throw new IllegalStateException(file + " is faulty", e);
    }
  }
}
