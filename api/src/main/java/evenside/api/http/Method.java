package evenside.api.http;

/** The methods of the route table. HEAD and OPTIONS follow from them. */
public enum Method {
  GET,
  POST,
  PUT
}
