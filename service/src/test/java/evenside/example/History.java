package evenside.example;

import java.time.LocalDate;
import java.time.LocalTime;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.function.Consumer;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * A random course of recovery: batteries before and after surgery, each with some of the tests,
 * done in changing ways, some not performed, many of them around midnight at clinics all over the
 * world.
 */
public final class History {
  private static final List<String> OFFSETS = List.of("-12:00", "-05:00", "Z", "+05:30", "+14:00");
  private static final List<String> MIDNIGHT =
      List.of("00:00:00", "23:59:59.999", "00:30", "12:00");
  private static final List<String> GRADES = List.of("zero", "trace", "1+", "2+", "3+");
  private static final List<String> FACTS =
      List.of(
          "on-field-programme-completed",
          "movement-quality-acceptable",
          "ikdc-within-reference-range",
          "locking",
          "gives-way");
  private static final List<String> SCORES =
      List.of("kos-adls", "global-rating", "ikdc-subjective", "acl-rsi");
  private static final List<String> HOPS =
      List.of("single-hop-distance", "triple-hop-distance", "crossover-hop-distance");
  private static final List<String> LEFT_OUT =
      List.of(
          "single-hop-distance",
          "timed-6m-hop",
          "knee-extension-peak-torque",
          "knee-flexion-peak-torque",
          "knee-effusion-grade",
          "locking",
          "kos-adls",
          "knee-pain",
          "agility-t-test");

  private static final List<String> SIDES = List.of("left", "right");
  private static final List<String> SIDED =
      List.of("single-hop-distance", "knee-extension-peak-torque", "knee-effusion-grade");

  private final Random random;

  public History(long seed) {
    random = new Random(seed);
  }

  /** Batteries on the days from 60 before surgery to a last day, in no order of time. */
  public List<TestDay> batteries(int count, LocalDate surgery, LocalDate last) {
    List<TestDay> days = new ArrayList<>();
    int span = (int) ChronoUnit.DAYS.between(surgery.minusDays(60), last);
    for (int i = 0; i < count; i++) {
      // Few days, so that several batteries meet on one of them.
      LocalDate day =
          last.minusDays(random.nextBoolean() ? random.nextInt(4) : random.nextInt(span));
      days.add(battery(day));
    }
    return days;
  }

  private TestDay battery(LocalDate day) {
    LocalTime time = LocalTime.parse(pick(MIDNIGHT));
    OffsetDateTime at = OffsetDateTime.of(day, time, ZoneOffset.of(pick(OFFSETS)));
    TestDay battery =
        TestDay.at(at.format(java.time.format.DateTimeFormatter.ISO_OFFSET_DATE_TIME));
    if (random.nextBoolean()) {
      battery.bodyMass(70 + random.nextInt(20)).height(165 + random.nextInt(30));
    }
    strength(battery);
    hops(battery);
    signs(battery);
    SCORES.stream().filter(s -> seldom()).forEach(s -> questionnaire(battery, s));
    FACTS.stream().filter(f -> seldom()).forEach(f -> battery.fact(f, random.nextBoolean()));
    LEFT_OUT.stream()
        .filter(m -> random.nextInt(12) == 0)
        .forEach(m -> battery.without(r -> isAbout(m, r)).notPerformed(m, "time"));
    SIDED.stream()
        .filter(m -> random.nextInt(12) == 0)
        .forEach(m -> leaveOut(battery, m, pick(SIDES)));
    if (battery.json().path("results").isEmpty()) {
      battery.score("kos-adls", 88);
    }
    return battery;
  }

  private static void leaveOut(TestDay battery, String measure, String side) {
    battery.without(measure, side).notPerformed(measure, side, "fear");
  }

  /** What was not performed has no result, and of a questionnaire not one answer. */
  private static boolean isAbout(String measure, JsonNode result) {
    return TestDay.isOf(measure, result) || result.path("instrument").asString("").equals(measure);
  }

  private void questionnaire(TestDay battery, String code) {
    if (random.nextInt(5) == 0 && !code.equals("global-rating")) {
      battery.tooFewAnswers(code);
    } else {
      battery.score(code, 60 + random.nextInt(41));
    }
  }

  private void strength(TestDay battery) {
    for (int speed : new int[] {60, 180, 300}) {
      if (seldom()) {
        sides(battery, side -> battery.extension(side, speed, 120 + random.nextInt(100)));
      }
      if (seldom()) {
        sides(battery, side -> battery.flexion(side, speed, 70 + random.nextInt(60)));
      }
    }
    if (seldom()) {
      String method = random.nextBoolean() ? "fixed-dynamometer" : "hand-held-dynamometer";
      sides(
          battery, side -> battery.isometricExtension(side, 90, method, 150 + random.nextInt(80)));
    }
  }

  private void hops(TestDay battery) {
    for (String hop : HOPS) {
      if (seldom()) {
        sides(battery, side -> battery.hop(hop, side, 100 + random.nextInt(90)));
      }
    }
    if (seldom()) {
      sides(battery, side -> battery.timedHop(side, (170 + random.nextInt(80)) / 100.0));
    }
    if (seldom()) {
      battery.tTest((105 + random.nextInt(10)) / 10.0).landing(2 + random.nextInt(6));
    }
  }

  private void signs(TestDay battery) {
    if (seldom()) {
      battery.effusion(TestDay.OPERATED, pick(GRADES));
    }
    if (seldom()) {
      battery.pain(TestDay.OPERATED, pick(List.of("rest", "worst-24h")), random.nextInt(5));
    }
    if (seldom()) {
      sides(battery, side -> battery.flexionRange(side, 120 + random.nextInt(25)));
      sides(battery, side -> battery.extensionDeficit(side, random.nextInt(4) - 1));
    }
  }

  /** Both sides, or one of them, now and then on another device. */
  private void sides(TestDay battery, Consumer<String> test) {
    int which = random.nextInt(6);
    for (String side : List.of(TestDay.OPERATED, TestDay.OTHER)) {
      if (which != (side.equals(TestDay.OPERATED) ? 0 : 1)) {
        test.accept(side);
        battery.last(this::device);
      }
    }
  }

  private void device(ObjectNode result) {
    boolean torque = result.path("unit").asString().equals("N.m");
    if (torque && random.nextInt(4) == 0) {
      result.put("device", "dyn-" + random.nextInt(2));
    } else if (result.has("timing") && random.nextInt(4) == 0) {
      result.put("timing", "hand");
    } else if (random.nextInt(6) == 0 && !torque && !result.has("method")) {
      result.put("brace", true);
    }
  }

  private boolean seldom() {
    return random.nextInt(4) == 0;
  }

  private <T> T pick(List<T> all) {
    return all.get(random.nextInt(all.size()));
  }
}
