package evenside.readiness.training;

import static evenside.training.Diary.DAY_0;
import static evenside.training.Diary.check;
import static evenside.training.Diary.clearance;
import static evenside.training.Diary.flags;
import static evenside.training.Diary.morning;
import static evenside.training.Diary.run;
import static evenside.training.Diary.with;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import evenside.readiness.recording.Refused;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.PreparedStatement;
import java.sql.SQLException;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * Entries of the time when only the whole record was kept, with the advice in it, are worth as much
 * as those kept as they were sent. Invented entries.
 */
class EarlierEntriesTest extends TrainingRecord {
  private static final List<ObjectNode> ENTRIES =
      List.of(
          run(DAY_0, 1),
          morning(DAY_0),
          run(DAY_0.plusDays(2), 2),
          with(
              check("calf", DAY_0.plusDays(3) + "T09:00:00+01:00"),
              entry -> flags(entry).put("calfPain", "yes").put("calfSwelling", "yes")));

  private static ObjectNode cleared(String name) {
    return clearance("cleared", DAY_0.plusDays(60) + "T09:00:00+01:00", name);
  }

  /** As a row of before the column is. */
  private void keepOnlyTheWhole() throws SQLException {
    var where = OPEN.settings();
    try (Connection connection =
            DriverManager.getConnection(where.url(), where.user(), where.password());
        PreparedStatement update =
            connection.prepareStatement(
                "update training_session set content = null where clinic = ?")) {
      update.setString(1, clinic);
      assertThat(update.executeUpdate()).isPositive();
    }
  }

  @Test
  void advice_isTheSame() throws Exception {
    ENTRIES.forEach(this::post);
    String before = advice("k-1").toString();
    keepOnlyTheWhole();

    assertThat(advice("k-1")).hasToString(before);
    assertThat(before).contains("stop-and-refer");
  }

  @Test
  void newEntry_meetsTheOldOnesThatItNames() throws Exception {
    ENTRIES.forEach(this::post);
    ENTRIES.forEach(entry -> post("k-2", other(entry)));
    keepOnlyTheWhole();

    assertThat(post(cleared("calf")).path("warnings")).isEmpty();
    assertThat(advice("k-1").path("outcome").asString()).isNotEqualTo("stop-and-refer");
    assertThat(advice("k-2").path("outcome").asString()).isEqualTo("stop-and-refer");
  }

  /** The same under another name. */
  private static ObjectNode other(ObjectNode entry) {
    ObjectNode other = entry.deepCopy().put("recordId", "other-" + name(entry.path("recordId")));
    JsonNode completes = entry.at("/entry/kneeCheck/completes");
    if (completes.isString()) {
      other.withObject("/entry/kneeCheck").put("completes", "other-" + name(completes));
    }
    return other;
  }

  private static String name(JsonNode json) {
    return json.asString();
  }

  @Test
  void laterDayOfSurgery_isStillHeldAgainstThem() throws Exception {
    ENTRIES.forEach(this::post);
    keepOnlyTheWhole();
    ObjectNode later = (ObjectNode) tree(service.cases().get(clinic, "k-1")).path("case");
    later.put("surgeryDate", DAY_0.plusDays(1).toString());
    Optional<String> seen = Optional.of(service.cases().get(clinic, "k-1").sha256());

    assertThatThrownBy(() -> service.cases().put(clinic, "k-1", later, seen))
        .isInstanceOf(Refused.class)
        .extracting(e -> ((Refused) e).faults().get(0).limit())
        .asString()
        .contains(DAY_0.toString());
  }
}
