package evenside.api.access;

import evenside.clients.ClientKeys;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Function;
import tools.jackson.databind.JsonNode;

/**
 * Which clinic each client of the authorization server belongs to. A file of the operator, as a
 * token must not choose its clinic by itself:
 *
 * <pre>{"clients": [{"clientId": "7f3c", "clinic": "north", "client": "gym-software"}]}</pre>
 *
 * @param members by {@code client_id}
 */
record ClientMap(Map<String, Member> members) {
  private static final int MOST = 10_000;
  private static final int LONGEST_ID = 256;
  private static final Set<String> NAMES = new TreeSet<>(Set.of("clientId", "clinic", "client"));

  /**
   * A client of a clinic.
   *
   * @param clinic whose records it may touch
   * @param client its name in the access trail
   */
  record Member(String clinic, String client) {}

  ClientMap {
    members = Map.copyOf(members);
  }

  Optional<Member> of(String clientId) {
    return Optional.ofNullable(members.get(clientId));
  }

  /**
   * Reads the file.
   *
   * @throws IllegalArgumentException naming the place of the first fault
   */
  static ClientMap parse(byte[] bytes) {
    JsonNode root = OperatorJson.read(bytes);
    demand(
        root.isObject() && names(root).equals(Set.of("clients")),
        "#",
        "must have the member clients and no other");
    JsonNode clients = root.path("clients");
    boolean list = clients.isArray() && !clients.isEmpty() && clients.size() <= MOST;
    demand(list, "#/clients", "must be a list of 1 to " + MOST + " clients");
    Map<String, Member> members = new LinkedHashMap<>();
    for (int i = 0; i < clients.size(); i++) {
      String place = "#/clients/" + i;
      JsonNode client = clients.path(i);
      demand(
          client.isObject() && names(client).equals(NAMES),
          place,
          "must have the members " + String.join(", ", NAMES) + " and no other");
      String id = text(client, "clientId", place, ClientMap::faultOfId);
      Member member =
          new Member(
              text(client, "clinic", place, ClientKeys::faultOfClinic),
              text(client, "client", place, ClientKeys::faultOfClient));
      demand(members.put(id, member) == null, place + "/clientId", "stands there twice");
    }
    return new ClientMap(members);
  }

  private static Set<String> names(JsonNode object) {
    return new TreeSet<>(object.propertyNames());
  }

  private static String text(
      JsonNode client, String name, String place, Function<String, Optional<String>> fault) {
    JsonNode value = client.path(name);
    demand(value.isString(), place + "/" + name, "must be text");
    fault.apply(value.asString()).ifPresent(why -> demand(false, place + "/" + name, why));
    return value.asString();
  }

  private static Optional<String> faultOfId(String id) {
    boolean fits = !id.isEmpty() && id.length() <= LONGEST_ID;
    return fits ? Optional.empty() : Optional.of("must have 1 to " + LONGEST_ID + " characters");
  }

  private static void demand(boolean condition, String place, String fault) {
    if (!condition) {
      throw new IllegalArgumentException(place + ": " + fault);
    }
  }
}
