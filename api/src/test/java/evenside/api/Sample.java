package evenside.api;

import io.restassured.response.Response;
import io.restassured.specification.RequestSpecification;
import java.util.Optional;
import java.util.UUID;
import java.util.function.UnaryOperator;

/**
 * A request that succeeds, to be sent as it is or spoilt in one place.
 *
 * @param method HTTP method
 * @param path path with its ids filled in
 * @param unknown path of something that is not there; empty if the operation always finds its thing
 * @param body JSON body, if it takes one
 */
record Sample(String method, String path, String unknown, Optional<String> body) {
  static Sample get(String path, String unknown) {
    return new Sample("GET", path, unknown, Optional.empty());
  }

  static Sample post(String path, String unknown, String body) {
    return new Sample("POST", path, unknown, Optional.of(body));
  }

  static Sample put(String path, String unknown, String body) {
    return new Sample("PUT", path, unknown, Optional.of(body));
  }

  Sample at(String otherPath) {
    return new Sample(method, otherPath, unknown, body);
  }

  Sample with(String otherBody) {
    return new Sample(method, path, unknown, Optional.of(otherBody));
  }

  Response send(LiveService service) {
    return send(service, request -> request);
  }

  Response send(LiveService service, UnaryOperator<RequestSpecification> change) {
    RequestSpecification request = body.map(service::json).orElseGet(service::http);
    if (path.endsWith("/fhir-observations")) {
      request.contentType("application/fhir+json");
    } else if (path.startsWith("/v1/bulk")) {
      request.contentType("application/x-ndjson");
    }
    if (method.equals("POST")) {
      // Asked for where something is recorded, and passed over elsewhere.
      request.header("Idempotency-Key", UUID.randomUUID().toString());
    }
    return change.apply(request).request(method, path);
  }
}
