package evenside.api.server;

import evenside.api.http.Finished;
import evenside.api.http.Notes;
import java.util.List;
import java.util.function.Consumer;
import org.eclipse.jetty.server.Request;
import org.eclipse.jetty.server.RequestLog;
import org.eclipse.jetty.server.Response;

/** Tells those who watch of each request that has ended. */
record Ending(List<Consumer<Finished>> watchers) implements RequestLog {
  @Override
  public void log(Request request, Response response) {
    Finished finished = Notes.finished(request, response.getStatus());
    watchers.forEach(watcher -> watcher.accept(finished));
  }
}
