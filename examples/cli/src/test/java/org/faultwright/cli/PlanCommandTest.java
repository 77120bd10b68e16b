package org.faultwright.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The plan as it is printed. */
class PlanCommandTest {

  private static final String CASE =
      """
      case: plan
      format: 1
      pack: wren-handset/charging
      facts:
        - complaint: does-not-charge
        - outcome: look-into-port
          is: lint
      """;

  @TempDir private Path folder;

  private String file() throws IOException {
    return file(CASE);
  }

  private String file(String text) throws IOException {
    return Files.writeString(folder.resolve("plan.yaml"), text).toString();
  }

  @Test
  void planSaysWhatToExpectAndGoesOnAfterEachOutcome() throws IOException {
    Shell.Result result =
        Shell.PLAIN.run("plan", "--depth", "2", "--least", "10", "--seconds", "3", file());

    assertThat(result.exitCode()).isZero();
    assertThat(result.out())
        .contains("WHAT TO EXPECT", "PLAN", "-> function back, ", ": close up, done", ": go to 2")
        .containsPattern("(?m)^  2  REPAIR: .*\n  when     after 1: ");
  }

  @Test
  void consentsTakenAsGiven_areNamedOnScreenInJsonAndOnPaper() throws IOException {
    String[] call = {"plan", "--depth", "2", "--least", "10", "--seconds", "0.2", file()};
    assertThat(Shell.PLAIN.run(call).out()).doesNotContain("NOT AGREED YET");
    assertThat(json(call).path("asIfAgreed")).isEmpty();

    String[] agreed =
        Stream.concat(Stream.of(call), Stream.of("--as-if-agreed")).toArray(String[]::new);
    assertThat(Shell.PLAIN.run(agreed).out())
        .contains("NOT AGREED YET\n", "Ask first:", "The device may be opened");
    assertThat(json(agreed).path("asIfAgreed")).extracting(JsonNode::textValue).contains("opening");

    Path page = folder.resolve("plan.md");
    String[] paper =
        Stream.concat(Stream.of(agreed), Stream.of("--page", page.toString()))
            .toArray(String[]::new);
    assertThat(Shell.PLAIN.run(paper).exitCode()).isZero();
    assertThat(page)
        .content()
        .contains(
            "NOT AGREED YET", "Not agreed yet, and needed for this: ", "The device may be opened");
  }

  private static JsonNode json(String... call) throws IOException {
    String[] args = Stream.concat(Stream.of(call), Stream.of("--json")).toArray(String[]::new);
    return new ObjectMapper().readTree(Shell.PLAIN.run(args).out());
  }

  @Test
  void dangersStandBeforeThePlan_andCautionsBesideItsSteps() throws IOException {
    Shell.Result result =
        Shell.PLAIN.run(
            "plan",
            "--depth",
            "1",
            "--seconds",
            "0.1",
            "../../examples/cases/wren-swollen-battery.yaml");

    assertThat(result.out()).startsWith("ALARM  NOW: charger unplugged!\nHOLD   Swollen battery");
    assertThat(result.out()).contains("BEFORE THE PLAN\n  MAKE SAFE: Charger unplugged");
  }

  @Test
  void branchesOfEachPlaceSumToOne_inJson() throws IOException {
    Shell.Result result =
        Shell.PLAIN.run(
            "plan", "--depth", "2", "--least", "10", "--seconds", "0.1", "--json", file());
    JsonNode plan = new ObjectMapper().readTree(result.out());
    double ended = 0;
    for (JsonNode p : plan.get("endings")) {
      ended += p.asDouble();
    }

    assertThat(ended).isBetween(1 - 1e-9, 1 + 1e-9);
    assertThat(plan.get("first").get("cost").asDouble())
        .isEqualTo(plan.get("expectedCost").asDouble());
    assertThat(plan.get("first").get("cautions").findValuesAsText("caution")).contains("mains");
  }

  @Test
  void depthBelowOne_isRefused() throws IOException {
    Shell.Result result = Shell.PLAIN.run("plan", "--depth", "0", file());

    assertThat(result.exitCode()).isEqualTo(2);
    assertThat(result.err()).contains("--depth must be at least 1: 0");
  }

  @Test
  void consentToAskFor_isNamed_whenNothingIsOpen() throws IOException {
    String estimate = CASE.replace("facts:", "goal: estimate\nfacts:");
    Shell.Result result = Shell.PLAIN.run("plan", "--seconds", "0.1", file(estimate));

    assertThat(result.exitCode()).isEqualTo(1);
    assertThat(result.out())
        .contains(
            "NO STEP TO PLAN",
            "WHAT STANDS IN THE WAY",
            "The customer wants a price first. Way out: when the customer has agreed to",
            "Ask the customer: The device may be opened; it may lose its seal against");
    JsonNode json =
        new ObjectMapper()
            .readTree(Shell.PLAIN.run("plan", "--seconds", "0.1", "--json", file(estimate)).out());
    assertThat(json.get("noPlan").asText()).isEqualTo("nothing open");
    assertThat(json.get("obstacles").get(0).get("kind").asText()).isEqualTo("goal");
    assertThat(json.get("obstacles").get(0).get("opens").size()).isPositive();
    assertThat(json.get("end").get("ending").asText()).isEqualTo("sentOn");
  }

  @Test
  void ceilingThatOpensAStep_isNamed_whenEveryRepairCostsMore() throws IOException {
    String tight = CASE.replace("facts:", "ceiling: 2\nfacts:");
    Shell.Result result = Shell.PLAIN.run("plan", "--seconds", "0.1", file(tight));
    JsonNode json =
        new ObjectMapper()
            .readTree(Shell.PLAIN.run("plan", "--seconds", "0.1", "--json", file(tight)).out());

    assertThat(result.exitCode()).isEqualTo(1);
    assertThat(result.out()).contains("more than the 2 that the customer will", "a ceiling of ");
    assertThat(json.get("noPlan").asText()).isEqualTo("above ceiling");
    double opens = json.get("ceilingThatOpens").asDouble();
    assertThat(opens).isGreaterThan(2);
    String enough = CASE.replace("facts:", "ceiling: " + Math.ceil(opens) + "\nfacts:");
    assertThat(Shell.PLAIN.run("plan", "--seconds", "0.1", file(enough)).exitCode()).isZero();
  }

  @Test
  void clash_isShown_whenTheFactsCannotAllBeTrue() throws IOException {
    String both = CASE + "  - outcome: look-into-port\n    is: clean\n";
    Shell.Result result = Shell.PLAIN.run("plan", "--seconds", "0.1", file(both));

    assertThat(result.exitCode()).isEqualTo(1);
    assertThat(result.out())
        .contains("THESE FACTS CANNOT ALL BE TRUE", "fact 2, Look into the port", "fact 3, Look");
    JsonNode json =
        new ObjectMapper()
            .readTree(Shell.PLAIN.run("plan", "--seconds", "0.1", "--json", file(both)).out());
    assertThat(json.get("clash").get(0).asText()).isEqualTo("#2");
  }

  @Test
  void complaint_isAskedFor_whenNoneIsTold() throws IOException {
    String none = CASE.substring(0, CASE.indexOf("facts:")) + "facts: []\n";
    Shell.Result result = Shell.PLAIN.run("plan", "--seconds", "0.1", file(none));

    assertThat(result.exitCode()).isEqualTo(1);
    assertThat(result.out()).contains("complaint: does-not-charge");
  }

  @Test
  void jobThatIsBestEndedAtOnce_isCleanAndSaysWhatGoingOnWouldCost() throws IOException {
    Shell.Result result =
        Shell.PLAIN.run(
            "plan", "--seconds", "0.1", file(CASE.replace("facts:", "device-value: 1\nfacts:")));

    assertThat(result.exitCode()).isZero();
    assertThat(result.out())
        .contains("to end the job is cheaper than to go on", "return as it is, 1 expected");
  }

  @Test
  void deviceIsHandedOver_whenTheFunctionIsBack() throws IOException {
    String repaired =
        CASE + "  - did: pick-out-lint\n" + "  - outcome: draws-current\n    is: passed\n";
    Shell.Result result = Shell.PLAIN.run("plan", "--seconds", "0.1", file(repaired));

    assertThat(result.out()).contains("no function is lost any more", "close up and hand over");
    assertThat(result.exitCode()).isZero();
  }

  @Test
  void rulesOfThumbAndWhereARepairBeginsToPay_standBesideThePlan_inJson() throws IOException {
    Shell.Result result =
        Shell.PLAIN.run(
            "plan",
            "--depth",
            "2",
            "--least",
            "10",
            "--seconds",
            "0.1",
            "--compare",
            "--devices",
            "100",
            "--json",
            file());
    JsonNode plan = new ObjectMapper().readTree(result.out());
    JsonNode compared = plan.get("compared");

    assertThat(compared).hasSize(4);
    assertThat(compared.get(0).get("way").asText()).isEqualTo("plan");
    for (JsonNode way : compared) {
      double ended = 0;
      for (JsonNode p : way.get("endings")) {
        ended += p.asDouble();
      }
      assertThat(ended).isBetween(1 - 1e-9, 1 + 1e-9);
      assertThat(way.get("simulated").get("devices").asInt()).isEqualTo(100);
    }
    assertThat(plan.get("repairOrNot").get("verdict").asText()).isEqualTo("notStated");
    assertThat(plan.get("repairOrNot").get("quote").get("nineInTen").asDouble())
        .isGreaterThanOrEqualTo(plan.get("repairOrNot").get("quote").get("halfOfCases").asDouble());
  }

  @Test
  void devicesWithoutCompare_areRefused() throws IOException {
    Shell.Result result = Shell.PLAIN.run("plan", "--devices", "100", file());

    assertThat(result.exitCode()).isEqualTo(2);
    assertThat(result.err()).contains("--devices needs --compare");
  }
}
