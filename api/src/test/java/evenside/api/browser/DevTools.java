package evenside.api.browser;

import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.WebSocket;
import java.util.Map;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CompletionStage;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicInteger;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/** Calls of the debugging protocol and their answers, over one web socket. */
final class DevTools implements WebSocket.Listener {
  private final Map<Integer, CompletableFuture<JsonNode>> waiting = new ConcurrentHashMap<>();
  private final AtomicInteger ids = new AtomicInteger();
  private final StringBuilder message = new StringBuilder();
  private WebSocket socket;

  private DevTools() {}

  static DevTools connect(URI uri) {
    DevTools tools = new DevTools();
    tools.socket = HttpClient.newHttpClient().newWebSocketBuilder().buildAsync(uri, tools).join();
    return tools;
  }

  static ObjectNode object() {
    return JsonNodeFactory.instance.objectNode();
  }

  /** Calls a method and waits for its result. */
  JsonNode call(String method, ObjectNode parameters) throws Exception {
    int id = ids.incrementAndGet();
    CompletableFuture<JsonNode> answer = new CompletableFuture<>();
    waiting.put(id, answer);
    ObjectNode call = object().put("id", id).put("method", method);
    call.set("params", parameters);
    socket.sendText(call.toString(), true).join();
    JsonNode all = answer.get(120, TimeUnit.SECONDS);
    if (all.has("error")) {
      throw new AssertionError(method + ": " + all.path("error"));
    }
    return all.path("result");
  }

  @Override
  public CompletionStage<?> onText(WebSocket from, CharSequence part, boolean last) {
    message.append(part);
    if (last) {
      JsonNode answer = JsonMapper.shared().readTree(message.toString());
      message.setLength(0);
      CompletableFuture<JsonNode> caller = waiting.remove(answer.path("id").asInt(0));
      if (caller != null) {
        caller.complete(answer);
      }
    }
    from.request(1);
    return null;
  }

  void close() {
    socket.abort();
  }
}
