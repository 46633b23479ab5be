package evenside.api.resource;

import evenside.api.http.Call;
import evenside.api.problem.Problems;
import evenside.schemas.Contract;
import java.util.regex.Pattern;

/** Reads ids out of paths. What cannot be an id names nothing, so it is not found. */
public final class Ids {
  private static final Pattern CASE = Pattern.compile("[A-Za-z0-9][A-Za-z0-9._:-]{0,63}");
  private static final Pattern UUID =
      Pattern.compile("[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}");
  private static final Pattern CODE = Pattern.compile("[a-z0-9][a-z0-9-]{1,63}");
  private static final Pattern VERSION = Pattern.compile("[0-9][0-9.]{0,15}");

  private Ids() {}

  /** Whether a case can have this id. */
  public static boolean isCaseId(String id) {
    return CASE.matcher(id).matches();
  }

  /** Whether it is an id as the service gives them. */
  public static boolean isUuid(String id) {
    return UUID.matcher(id).matches();
  }

  static String caseId(Call call) {
    return matching(CASE, call.id("caseId"));
  }

  static String uuid(Call call, String name) {
    return matching(UUID, call.id(name));
  }

  static String code(Call call, String name) {
    return matching(CODE, call.id(name));
  }

  /** A kind of document; asked before the body is read. */
  static String kind(Call call, Contract contract) {
    String kind = call.id("kind");
    if (!contract.kinds().contains(kind)) {
      throw Problems.NOTHING_HERE.asException();
    }
    return kind;
  }

  static String version(Call call) {
    return matching(VERSION, call.id("version"));
  }

  private static String matching(Pattern form, String id) {
    if (!form.matcher(id).matches()) {
      throw Problems.NOTHING_HERE.asException();
    }
    return id;
  }
}
