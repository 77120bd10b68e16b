package org.faultwright.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What {@code network} shows, and what it says where it cannot. */
class NetworkTest {

  private static final String PACKS = "src/test/resources/packs";
  private static final String PACK = PACKS + "/plover-tablet/sound/pack.yaml";
  private static final String CLINIC = "../models/chest-clinic.bif";
  private static final String TANK = "../models/pressure-tank.xml";
  private static final ObjectMapper MAPPER = new ObjectMapper();

  @TempDir private Path folder;

  /**
   * S. L. Lauritzen, D. J. Spiegelhalter, JRSS B 50(2), 1988: tables as printed; posteriors from a
   * published run of an open library and recomputed (second hand).
   */
  @ParameterizedTest
  @CsvSource({
    "'',                          .0104,     .055,      .45,       .064828,   .11029004",
    "'asia=yes dysp=yes',         .08775096, .09952515, .81140207, .18229985, .21953886",
    "'dysp=yes',                  .01884531, .10275922, .83396734, ,",
    "'asia=yes dysp=yes xray=no', .0022487,  .00255042, .86276077, ,",
    "'asia=yes dysp=yes xray=yes',.39171172, .44427051, .62882178, ,",
    "'asia=yes dysp=yes smoke=yes',.07275954,.14551908, .86725821, ,"
  })
  void clinic_hasThePublishedPosteriors(
      String findings, double tub, double lung, double bronc, Double either, Double xray)
      throws IOException {
    JsonNode p = json(args(CLINIC, findings.isEmpty() ? List.of() : List.of(findings.split(" "))));
    assertPosterior(p, "tub", tub);
    assertPosterior(p, "lung", lung);
    assertPosterior(p, "bronc", bronc);
    if (either != null) {
      assertPosterior(p, "either", either);
      assertPosterior(p, "xray", xray);
    }
  }

  @Test
  void logEvidence_isThatOfTheFindings() throws IOException {
    JsonNode p = json(args(CLINIC, List.of("asia=yes", "dysp=yes")));
    assertThat(Math.exp(p.get("logEvidence").asDouble())).isCloseTo(.004501375, within(5e-10));
  }

  /** Bayes' rule by hand: P(K2 | rupture) = P(K2) / P(rupture), since K2 alone suffices. */
  @Test
  void treeOfAFile_canBeAskedBackwards() throws IOException {
    JsonNode p = json(args(TANK, List.of("rupture=true")));
    assertThat(p.get("posteriors").get("K2").get("true").asDouble())
        .isCloseTo(3e-5 / 3.501334916e-5, within(1e-9));
  }

  /** The exported network, asked the same question, gives what the diagnosis believes. */
  @Test
  void networkOfAPack_saysWhatTheDiagnosisSays() throws IOException {
    List<String> usable =
        List.of(
            "{complaint: no-sound}",
            "{outcome: press-check, is: comes-and-goes}",
            "{reading: coil, value: 8.1 ohm}");
    String yaml =
        "case: c\nformat: 1\npack: plover-tablet/sound\nfacts:\n  - "
            + String.join("\n  - ", usable)
            + "\n";
    JsonNode answer =
        MAPPER.readTree(
            Shell.PLAIN.reading(yaml).run("diagnose", "--packs", PACKS, "--json", "-").out());
    List<String> args = new ArrayList<>(List.of("network", PACK, "--json"));
    usable.forEach(f -> args.addAll(List.of("--fact", f)));
    JsonNode network = json(args);
    assertThat(network.has("logEvidence")).isFalse();
    args.set(2, "--bif");
    Path bif = folder.resolve("pack.bif");
    Files.writeString(bif, Shell.PLAIN.run(args.toArray(String[]::new)).out());
    List<String> findings = new ArrayList<>();
    network.get("given").fieldNames().forEachRemaining(v -> findings.add(v + "=yes"));
    JsonNode read = json(args(bif.toString(), findings));
    int compared = 0;
    for (JsonNode ranked : answer.get("ranking")) {
      String cause = ranked.get("cause").asText();
      double p = ranked.get("probability").asDouble();
      if (network.get("posteriors").has(cause)) {
        compared++;
        assertPosterior(network, cause, p);
        assertPosterior(read, cause, p);
      }
    }
    assertThat(compared).isEqualTo(6);
  }

  @Test
  void readingsThatShareAnError_areRefused() {
    Shell.Result result =
        Shell.PLAIN.run(
            "network",
            "wren-handset/charging",
            "--fact",
            "{reading: socket-cc1, value: 0.6 V}",
            "--fact",
            "{reading: socket-cc2, value: 0.6 V}");
    assertThat(result.exitCode()).isEqualTo(ExitCode.USAGE);
    assertThat(result.err()).startsWith("faultwright: --fact: these readings were taken by one");
  }

  @Test
  void factsAfterAStep_areRefused() {
    Shell.Result result = Shell.PLAIN.run("network", PACK, "--fact", "{did: clean-grille}");
    assertThat(result.exitCode()).isEqualTo(ExitCode.USAGE);
    assertThat(result.err()).contains("before any step is carried out");
  }

  @Test
  void networkThatIsWritten_readsAsTheSame() throws IOException {
    Path again = folder.resolve("again.bif");
    Files.writeString(again, Shell.PLAIN.run("network", CLINIC, "--bif").out());
    assertThat(json(args(again.toString(), List.of("dysp=yes"))).get("posteriors"))
        .isEqualTo(json(args(CLINIC, List.of("dysp=yes"))).get("posteriors"));
  }

  @Test
  void findingsThatCannotAllBeTrue_areNamed() {
    Shell.Result result =
        Shell.PLAIN.run(
            "network", CLINIC, "--given", "dysp=yes", "--given", "tub=yes", "--given", "either=no");
    assertThat(result)
        .isEqualTo(
            new Shell.Result(
                ExitCode.FINDINGS,
                "",
                "faultwright: these findings cannot all be true: tub = yes, either = no\n"));
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "--given smok=yes|--given: there is no variable 'smok'; did you mean 'smoke'?",
        "--given smoke=ja|--given: variable 'smoke' has no state 'ja'; it has: yes, no",
        "--given smoke|--given takes VARIABLE=STATE, as in smoke=yes: smoke",
        "--given smoke=yes --given smoke=no|--given: variable 'smoke' cannot be in two states",
        "--show xry|--show: there is no variable 'xry'; did you mean 'xray'?",
        "--fact x|--fact is for packs; a file takes --given, as in --given smoke=yes",
      })
  void wrongUse_isTold(String options, String message) {
    List<String> args = new ArrayList<>(List.of("network", CLINIC));
    args.addAll(List.of(options.split(" ")));
    assertThat(Shell.PLAIN.run(args.toArray(String[]::new)))
        .isEqualTo(new Shell.Result(ExitCode.USAGE, "", "faultwright: " + message + "\n"));
  }

  @Test
  void brokenFile_isReportedAtItsPlace() throws IOException {
    Path file = folder.resolve("n.bif");
    Files.writeString(file, Files.readString(Path.of(CLINIC)).replace("0.1, 0.9;", "0.1, 0.8;"));
    Shell.Result result = Shell.PLAIN.run("network", file.toString());
    assertThat(result.exitCode()).isEqualTo(ExitCode.FINDINGS);
    assertThat(result.err())
        .contains(file + ":15:", "error[row-sum]", "'lung' for smoke = yes sums to 0.9");
  }

  private static void assertPosterior(JsonNode posteriors, String variable, double yes) {
    assertThat(posteriors.get("posteriors").get(variable).get("yes").asDouble())
        .as(variable)
        .isCloseTo(yes, within(5.1e-9));
  }

  private static List<String> args(String file, List<String> findings) {
    List<String> args = new ArrayList<>(List.of("network", file, "--json"));
    findings.forEach(f -> args.addAll(List.of("--given", f)));
    return args;
  }

  private static JsonNode json(List<String> args) throws IOException {
    Shell.Result result = Shell.PLAIN.run(args.toArray(String[]::new));
    assertThat(result.err()).isEmpty();
    JsonNode json = MAPPER.readTree(result.out());
    assertThat(Schemas.errors("network-1", json)).isEmpty();
    return json;
  }
}
