package org.faultwright.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What a shop's own preferences change, and what is said when they cannot be read. */
class ShopOptionTest {

  private static final String FAMILY = "src/test/resources/packs/plover-tablet/sound/";
  private static final String PACK = FAMILY + "pack.yaml";
  private static final String CASE = FAMILY + "cases/first-look.yaml";

  private static final String SHOP =
      """
      shop: tried
      format: 1
      rate: 0.7
      wait-rate: 0.03
      send-on-fee: 80
      salvage: 10
      comeback: 60
      part-prices: {speaker: 14}
      """;

  /** The same shop where money is worth half as much; the pack says its prices as before. */
  private static final String SHOP_OF_HALF_MONEY =
      """
      shop: tried
      format: 1
      rate: 1.4
      wait-rate: 0.06
      send-on-fee: 160
      salvage: 20
      comeback: 120
      part-prices: {speaker: 28}
      """;

  @TempDir private Path folder;

  private String file(String name, String text) throws IOException {
    return Files.writeString(folder.resolve(name), text).toString();
  }

  private static Shell.Result diagnose(String pack, String shop) {
    return Shell.PLAIN.run("diagnose", "--json", "--pack", pack, "--shop", shop, CASE);
  }

  private static double expectedCost(Shell.Result result) throws IOException {
    assertThat(result.exitCode()).as(result.err()).isZero();
    return new ObjectMapper().readTree(result.out()).get("expectedCost").asDouble();
  }

  /** Closed form: money has no unit of its own, so that every cost doubles with all prices. */
  @Test
  void expectedCostDoubles_whenAllMoneyIsWorthHalf() throws IOException {
    String pack = Files.readString(Path.of(PACK));
    String doubled = pack.replace("    cost: 1\n", "    cost: 2\n");
    assertThat(doubled).isNotEqualTo(pack);

    double before = expectedCost(diagnose(PACK, file("shop.yaml", SHOP)));
    double after =
        expectedCost(diagnose(file("pack.yaml", doubled), file("half.yaml", SHOP_OF_HALF_MONEY)));

    assertThat(before).isPositive();
    assertThat(after).isCloseTo(2 * before, within(1e-9 * before));
  }

  @Test
  void expectedCostRises_whenTimeGetsDearer() throws IOException {
    double cheap = expectedCost(diagnose(PACK, file("cheap.yaml", SHOP)));
    double dear =
        expectedCost(diagnose(PACK, file("dear.yaml", SHOP.replace("rate: 0.7", "rate: 2"))));

    assertThat(dear).isGreaterThan(cheap);
  }

  @Test
  void answerIsAsWithoutShop_whenTheShopLeavesAllOut() throws IOException {
    String nothing = file("shop.yaml", "shop: nothing-said\nformat: 1\n");

    assertThat(diagnose(PACK, nothing))
        .isEqualTo(Shell.PLAIN.run("diagnose", "--json", "--pack", PACK, CASE));
  }

  @Test
  void posteriorStays_whateverThingsCost() throws IOException {
    Shell.Result with = diagnose(PACK, file("shop.yaml", SHOP));
    Shell.Result without = Shell.PLAIN.run("diagnose", "--json", "--pack", PACK, CASE);

    ObjectMapper mapper = new ObjectMapper();
    assertThat(mapper.readTree(with.out()).get("ranking"))
        .isEqualTo(mapper.readTree(without.out()).get("ranking"));
  }

  @Test
  void planAndSuppose_takeTheShopToo() throws IOException {
    String shop = file("shop.yaml", SHOP);
    String[] plan = {"plan", "--json", "--depth", "1", "--seconds", "0.1", "--pack", PACK, CASE};
    String[] planOfShop = {
      "plan", "--json", "--depth", "1", "--seconds", "0.1", "--pack", PACK, "--shop", shop, CASE
    };
    assertThat(expectedCost(Shell.PLAIN.run(planOfShop)))
        .isNotEqualTo(expectedCost(Shell.PLAIN.run(plan)));

    Shell.Result supposed =
        Shell.PLAIN.run(
            "suppose", "--json", "--pack", PACK, "--shop", shop, "--each", "press-check", CASE);
    assertThat(
            new ObjectMapper().readTree(supposed.out()).get("now").get("expectedCost").asDouble())
        .isEqualTo(expectedCost(diagnose(PACK, shop)));
  }

  @Test
  void dialogue_showsThePriceOfTheShop() throws IOException {
    String kept = file("case.yaml", Files.readString(Path.of(CASE)));
    String other = file("other.yaml", SHOP.replace("speaker: 14", "speaker: 12"));
    Shell leaving = Shell.PLAIN.reading("quit\n");
    Shell.Result of = leaving.run("diagnose", "--plain", "--pack", PACK, "--resume", kept);
    Shell.Result ofOther =
        leaving.run("diagnose", "--plain", "--pack", PACK, "--shop", other, "--resume", kept);

    assertThat(of.exitCode()).isZero();
    assertThat(ofOther.exitCode()).isZero();
    assertThat(of.out()).contains("go on with: diagnose --resume " + kept);
    assertThat(ofOther.out())
        .contains("go on with: diagnose --shop " + other + " --resume " + kept);
    assertThat(of.out()).contains("Part: loudspeaker, cost 14,");
    assertThat(ofOther.out()).contains("Part: loudspeaker, cost 12,");
  }

  @Test
  void converse_weighsByTheShop() throws IOException {
    String shop = file("shop.yaml", SHOP);
    ObjectMapper mapper = new ObjectMapper();
    String open =
        mapper.writeValueAsString(
            mapper
                .createObjectNode()
                .put("ask", "open")
                .put("case", Files.readString(Path.of(CASE))));
    Shell asking = Shell.PLAIN.reading(open + "\n{\"ask\":\"answer\"}\n");
    Shell.Result result = asking.run("converse", "--pack", PACK, "--shop", shop);
    String last = result.out().lines().skip(1).findFirst().orElseThrow();
    assertThat(mapper.readTree(last).get("answer").get("expectedCost").asDouble())
        .isEqualTo(expectedCost(diagnose(PACK, shop)));
  }

  @Test
  void check_weighsByTheShop() throws IOException {
    String[] check = {"check", "--packs", "src/test/resources/packs", "plover-tablet/sound"};
    assertThat(Shell.PLAIN.run(check).exitCode()).isEqualTo(ExitCode.CLEAN);
    Path own = Files.createDirectories(folder.resolve("plover-tablet/sound/cases"));
    Files.copy(Path.of(PACK), own.resolveSibling("pack.yaml"));
    String advised = Files.readString(Path.of(CASE)) + "  advice: repair fit-speaker\n";
    Files.writeString(own.resolve("first-look.yaml"), advised);
    // whoever sends on for nothing at a dear hour sends on at once
    String hasty = file("hasty.yaml", "shop: hasty\nformat: 1\nrate: 50\nsend-on-fee: 0\n");
    Shell.Result plain = Shell.PLAIN.run("check", folder.toString());
    Shell.Result ofShop = Shell.PLAIN.run("check", "--shop", hasty, folder.toString());
    assertThat(plain.exitCode()).as(plain.out()).isEqualTo(ExitCode.CLEAN);
    assertThat(ofShop.exitCode()).as(ofShop.out()).isEqualTo(ExitCode.FINDINGS);
  }

  @Test
  void pins_takeTheShopToo() throws IOException {
    String broken = file("broken.yaml", SHOP.replace("rate: 0.7", "rate: -1"));
    Shell.Result result =
        Shell.PLAIN.run(
            "pins",
            "--shop",
            broken,
            "--pack",
            "../pins/redpoll-display.yaml",
            "--table",
            "../pins/warm-board.csv");
    assertThat(result.exitCode()).isEqualTo(ExitCode.FINDINGS);
    assertThat(result.err()).contains("error[bad-number]");
    Shell.Result good =
        Shell.PLAIN.run(
            "pins",
            "--shop",
            file("shop.yaml", SHOP),
            "--pack",
            "../pins/redpoll-display.yaml",
            "--table",
            "../pins/warm-board.csv");
    // some of its pins are off: a finding
    assertThat(good.exitCode()).as(good.err()).isEqualTo(ExitCode.FINDINGS);
    assertThat(good.out()).contains("HOW LIKELY");
    assertThat(good.err()).isEmpty();
  }

  @Test
  void errorsOfTheShop_areShownAtTheirPlace() throws IOException {
    Shell.Result result = diagnose(PACK, file("shop.yaml", SHOP.replace("rate: 0.7", "rate: -1")));

    assertThat(result.exitCode()).isEqualTo(ExitCode.FINDINGS);
    assertThat(result.out()).isEmpty();
    assertThat(result.err())
        .contains("shop.yaml:3:7: error[bad-number]")
        .contains("'rate' of the shop must be a number above 0: '-1'");
  }

  @Test
  void shopThatIsNone_isNamed() throws IOException {
    Shell.Result missing = diagnose(PACK, "no-such-shop.yaml");
    assertThat(missing.exitCode()).isEqualTo(ExitCode.USAGE);
    assertThat(missing.err()).contains("there is no file 'no-such-shop.yaml'");

    assertThat(diagnose(PACK, folder.toString()).err())
        .contains("is a folder; --shop takes a file");
    assertThat(diagnose(PACK, CASE).err())
        .contains("is a case; --shop takes a file that begins with 'shop:'");
    assertThat(Shell.PLAIN.run("diagnose", file("shop.yaml", SHOP)).err())
        .contains("is a shop's preferences; name a case file");
  }

  @Test
  void lint_readsShops() throws IOException {
    assertThat(Shell.PLAIN.run("lint", file("shop.yaml", SHOP)).exitCode()).isZero();

    Shell.Result broken = Shell.PLAIN.run("lint", file("broken.yaml", SHOP + "salvag: 3\n"));
    assertThat(broken.exitCode()).isEqualTo(ExitCode.FINDINGS);
    assertThat(broken.out() + broken.err())
        .contains("broken.yaml:9:1: error[unknown-key]", "there is no key 'salvag' in the shop");
  }
}
