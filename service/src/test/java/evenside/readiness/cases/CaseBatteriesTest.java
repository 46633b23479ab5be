package evenside.readiness.cases;

import static org.assertj.core.api.Assertions.assertThat;

import evenside.example.Clinic;
import evenside.example.TestDay;
import evenside.readiness.Office;
import evenside.store.StoredBattery;
import evenside.store.StoredCase;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.api.AutoClose;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tools.jackson.databind.node.ObjectNode;

/**
 * The newest battery of a time, worked out from what was asked before, is the one that the store
 * gives: among batteries of one instant, of corrected ones and of corrections that moved it.
 * Invented batteries; the seed is arbitrary.
 */
class CaseBatteriesTest {
  private static final int HOURS = 8;

  @AutoClose private static Office office;

  @BeforeAll
  static void open(@TempDir Path folder) {
    office = Office.in(folder);
  }

  private static String at(int hour) {
    return "2026-10-20T%02d:00:00+02:00".formatted(hour + 1);
  }

  private static Instant time(int hour, int micros) {
    return Instant.parse("2026-10-19T23:00:00Z")
        .plusSeconds(3_600L * hour)
        .plusNanos(micros * 1_000L);
  }

  private static void fill(String caseId, Random random) {
    List<String> standing = new ArrayList<>();
    for (int i = 0; i < 10; i++) {
      ObjectNode json = TestDay.at(at(random.nextInt(HOURS))).tTest(10 + i / 10.0).json();
      if (random.nextInt(3) == 0 && !standing.isEmpty()) {
        json.put("replaces", standing.remove(random.nextInt(standing.size())));
      }
      standing.add(
          office.service.batteries().add(Office.CLINIC, caseId, json, Optional.empty()).id());
    }
  }

  @Test
  void newest_isThatOfTheStore_inAnyOrderOfAsking() {
    Random random = new Random(20_261_126);
    for (int one = 0; one < 5; one++) {
      String caseId = office.newCase(Clinic.person());
      fill(caseId, random);
      for (int order = 0; order < 20; order++) {
        office.store.<Boolean>read(
            reading -> {
              StoredCase stored = reading.latestCase(Office.CLINIC, caseId).orElseThrow();
              CaseBatteries known = new CaseBatteries(reading, stored);
              for (int asked = 0; asked < 12; asked++) {
                Instant until = time(random.nextInt(HOURS + 2), random.nextInt(3) - 1);
                assertThat(known.newest(until).map(found -> found.stored().id()))
                    .as("up to %s", until)
                    .isEqualTo(
                        reading.newestBattery(Office.CLINIC, caseId, until).map(StoredBattery::id));
              }
              return true;
            });
      }
    }
  }
}
