package evenside.api.metrics;

import evenside.api.http.Finished;
import io.micrometer.core.instrument.FunctionCounter;
import io.micrometer.core.instrument.Gauge;
import io.micrometer.core.instrument.Timer;
import io.micrometer.core.instrument.binder.jvm.ClassLoaderMetrics;
import io.micrometer.core.instrument.binder.jvm.JvmGcMetrics;
import io.micrometer.core.instrument.binder.jvm.JvmMemoryMetrics;
import io.micrometer.core.instrument.binder.jvm.JvmThreadMetrics;
import io.micrometer.core.instrument.binder.system.FileDescriptorMetrics;
import io.micrometer.core.instrument.binder.system.ProcessorMetrics;
import io.micrometer.core.instrument.binder.system.UptimeMetrics;
import io.micrometer.prometheusmetrics.PrometheusConfig;
import io.micrometer.prometheusmetrics.PrometheusMeterRegistry;
import java.time.Duration;
import java.util.List;
import java.util.function.Consumer;
import java.util.function.Supplier;
import java.util.function.ToDoubleFunction;

/** Counts and times what the service does. Safe for use by many threads. */
public final class Metrics implements Consumer<Finished>, AutoCloseable {
  /** Media type of the text. */
  public static final String TEXT = "text/plain";

  /** The same with its parameters (Prometheus text format 0.0.4). */
  public static final String MEDIA_TYPE = TEXT + "; version=0.0.4; charset=utf-8";

  private static final String REQUESTS = "evenside.http.requests";

  private final PrometheusMeterRegistry registry =
      new PrometheusMeterRegistry(PrometheusConfig.DEFAULT);
  private final JvmGcMetrics collections = new JvmGcMetrics();

  /** Numbers of the process alone, to begin with. */
  public Metrics() {
    List.of(
            new JvmMemoryMetrics(),
            new JvmThreadMetrics(),
            new ClassLoaderMetrics(),
            new ProcessorMetrics(),
            new UptimeMetrics(),
            new FileDescriptorMetrics(),
            collections)
        .forEach(source -> source.bindTo(registry));
  }

  /** Takes in a request that has ended. */
  @Override
  public void accept(Finished request) {
    Timer.builder(REQUESTS)
        .description("Requests, from the first byte to the last of the answer")
        .tag("method", request.method())
        .tag("route", request.route())
        .tag("status", request.status() / 100 + "xx")
        .serviceLevelObjectives(
            Duration.ofMillis(5),
            Duration.ofMillis(10),
            Duration.ofMillis(25),
            Duration.ofMillis(50),
            Duration.ofMillis(100),
            Duration.ofMillis(250),
            Duration.ofMillis(500),
            Duration.ofSeconds(1),
            Duration.ofMillis(2500),
            Duration.ofSeconds(10))
        .register(registry)
        .record(request.duration());
  }

  /** Shows a number as it is whenever it is asked for. */
  public void show(String name, String description, Supplier<Number> number) {
    Gauge.builder(name, number).description(description).register(registry);
  }

  /** Shows a number that only grows. */
  public <T> void count(String name, String description, T source, ToDoubleFunction<T> number) {
    FunctionCounter.builder(name, source, number).description(description).register(registry);
  }

  /** All of it, as text for Prometheus. */
  public String text() {
    return registry.scrape("text/plain; version=0.0.4");
  }

  @Override
  public void close() {
    collections.close();
    registry.close();
  }
}
