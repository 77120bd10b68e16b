package org.faultwright.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
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
    return Files.writeString(folder.resolve("plan.yaml"), CASE).toString();
  }

  @Test
  void planSaysWhatToExpectAndGoesOnAfterEachOutcome() throws IOException {
    Shell.Result result =
        Shell.PLAIN.run("plan", "--depth", "2", "--least", "10", "--seconds", "0.1", file());

    assertThat(result.exitCode()).isZero();
    assertThat(result.out())
        .contains("WHAT TO EXPECT", "PLAN", "-> function back, ", ": close up, done", ": go to 2")
        .containsPattern("(?m)^  2  REPAIR: .*\n  when     after 1: ");
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
}
