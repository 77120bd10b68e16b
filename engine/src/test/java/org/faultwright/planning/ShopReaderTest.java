package org.faultwright.planning;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.Map;
import org.faultwright.pack.PartId;
import org.faultwright.pack.yaml.YamlText;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class ShopReaderTest {

  private static final String HEAD = "shop: s\nformat: 1\n";

  private static ShopReading read(String text) {
    return ShopReader.read(YamlText.of("shop.yaml", text));
  }

  private static Shop shop(String more) {
    ShopReading reading = read(HEAD + more);
    assertThat(reading.report()).isEmpty();
    return ((ShopReading.Readable) reading).shop();
  }

  private static String refused(String text) {
    ShopReading reading = read(text);
    assertThat(reading).isInstanceOf(ShopReading.Unreadable.class);
    return reading.report();
  }

  @Test
  void everyKey_isRead() {
    ShopReading reading =
        read(
            """
            shop: riverside-bench
            format: 1
            title: any
            rate: 0.80
            wait-rate: 0.02
            send-on-fee: 95
            salvage: 30
            comeback: 140
            part-price: 20
            part-prices: {charge-flex: 9.50, battery: 0}
            proof: {minutes: 4, catches: 97 %, cries-wolf: 0.01}
            guard-band: 0.5
            """);

    assertThat(reading.report()).isEmpty();
    ShopReading.Readable readable = (ShopReading.Readable) reading;
    assertThat(readable.name()).isEqualTo("riverside-bench");
    assertThat(readable.shop())
        .isEqualTo(
            new Shop(
                0.8,
                0.02,
                95,
                30,
                140,
                20,
                Map.of(new PartId("charge-flex"), 9.5, new PartId("battery"), 0.0),
                new Shop.Proof(4, 0.97, 0.01),
                0.5));
  }

  @Test
  void guardBand_isNoneOrAFactor() {
    assertThat(shop("guard-band: none\n").guardBand()).isZero();
    assertThat(shop("guard-band: 1\n").guardBand()).isEqualTo(1);
    assertThat(shop("guard-band: 10\n").guardBand()).isEqualTo(10);
    for (String wrong : new String[] {"-1", "x1", "50 %", "10.5", ".nan", "some", "1 U"}) {
      assertThat(refused(HEAD + "guard-band: " + wrong + "\n"))
          .contains("[bad-number]", "shop.yaml:3:13")
          .contains("'guard-band' of the shop must be none, or a number from 0 to 10")
          .contains("1 asks for one expanded uncertainty inside each limit, none for nothing");
    }
  }

  @Test
  void whatIsLeftOut_isAsInAnOrdinaryShop() {
    assertThat(shop("")).isEqualTo(Shop.ORDINARY);
    assertThat(shop("proof: {}\npart-prices: {}\n")).isEqualTo(Shop.ORDINARY);

    Shop dear = shop("rate: 2\n");
    Shop o = Shop.ORDINARY;
    assertThat(dear)
        .isEqualTo(
            new Shop(
                2,
                o.waitRate(),
                o.sendOnFee(),
                o.salvage(),
                o.comeback(),
                o.partPrice(),
                o.partPrices(),
                o.proof()));
    assertThat(shop("proof: {catches: 80 %}\n").proof())
        .isEqualTo(new Shop.Proof(o.proof().minutes(), 0.8, o.proof().criesWolf()));
  }

  @ParameterizedTest
  @ValueSource(strings = {"30 s", "0.5", "0.5 min"})
  void minutesOfProof_areATime(String time) {
    assertThat(shop("proof: {minutes: " + time + "}\n").proof().minutes()).isEqualTo(0.5);
  }

  @Test
  void zero_isAPriceButNoRate() {
    assertThat(shop("wait-rate: 0\nsend-on-fee: 0\ncomeback: 0\npart-price: 0\n").waitRate())
        .isZero();
    for (String nothing : new String[] {"0", "0.00", "'0'"}) {
      assertThat(refused(HEAD + "rate: " + nothing + "\n"))
          .contains(
              "[bad-number]", "shop.yaml:3:7", "'rate' of the shop must be a number above 0: ")
          .contains("an amount of money is a bare number, as in 12.50");
    }
  }

  @ParameterizedTest
  @ValueSource(strings = {"-5", ".nan", "NaN", ".inf", "1e3", "5 EUR", "5,50", "cheap"})
  void amount_isRefused_whenItIsNone(String amount) {
    for (String key : new String[] {"wait-rate", "send-on-fee", "salvage", "comeback"}) {
      assertThat(refused(HEAD + key + ": " + amount + "\n"))
          .contains("[bad-number]", "shop.yaml:3:")
          .contains("'" + key + "' of the shop must be a number, not below 0: '" + amount + "'")
          .contains("an amount of money is a bare number, as in 12.50");
    }
    assertThat(refused(HEAD + "rate: " + amount + "\n"))
        .contains("'rate' of the shop must be a number above 0: '" + amount + "'");
    assertThat(refused(HEAD + "part-prices:\n  battery: " + amount + "\n"))
        .contains("[bad-number]", "shop.yaml:4:12")
        .contains("'battery' of the shop must be a number, not below 0: '" + amount + "'");
  }

  @Test
  void head_isAskedFor() {
    assertThat(refused("rate: 1\n"))
        .contains("'shop' is missing in the shop", "add 'shop:', the shop's own name")
        .contains("'format' is missing in the shop");
    assertThat(refused("shop: s\nformat: 2\n"))
        .contains("[format-not-supported]", "this version reads format 1, and this is format '2'");
    assertThat(refused("shop: My Shop\nformat: 1\n")).contains("[bad-id]", "write 'my-shop'");
    assertThat(refused("")).contains("[empty-file]");
  }

  @Test
  void unknownKey_isRefusedWithTheOneThatWasMeant() {
    assertThat(refused(HEAD + "waitrate: 1\n"))
        .contains("[unknown-key]", "there is no key 'waitrate' in the shop")
        .contains("did you mean 'wait-rate'?");
    assertThat(refused(HEAD + "currency: EUR\n"))
        .contains("keys here are: shop, format, title, rate, wait-rate");
    assertThat(refused(HEAD + "proof: {caches: 1}\n")).contains("did you mean 'catches'?");
  }

  @Test
  void valueOfTheWrongKind_isRefused() {
    assertThat(refused(HEAD + "rate:\n"))
        .contains("[empty-value]", "'rate' of the shop has no value");
    assertThat(refused(HEAD + "rate: [1]\n"))
        .contains("[wrong-type]", "'rate' of the shop must be an amount of money above 0");
    assertThat(refused(HEAD + "part-prices: 5\n"))
        .contains("[wrong-type]", "must be a block of ids and values");
    assertThat(refused(HEAD + "part-prices: {Charge Flex: 5}\n"))
        .contains("[bad-id]", "write 'charge-flex'");
    assertThat(refused(HEAD + "proof: {minutes: -1}\n")).contains("[bad-time]");
    assertThat(refused(HEAD + "proof: {catches: 120 %}\n"))
        .contains("[chance-out-of-range]", "'catches' of the shop must be between 0 % and 100 %");
    assertThat(refused(HEAD + "proof: {cries-wolf: rarely}\n")).contains("[bad-chance]");
  }

  @Test
  void swappedProof_isAWarning() {
    ShopReading reading = read(HEAD + "proof: {catches: 1 %, cries-wolf: 90 %}\n");

    assertThat(reading).isInstanceOf(ShopReading.Readable.class);
    assertThat(reading.report())
        .contains("[catches-below-cries-wolf]", "are 'catches' and 'cries-wolf' swapped?");
  }

  @Test
  void fileThatIsNotThere_isAProblem() {
    ShopReading reading = ShopReader.read(YamlText.read(Path.of("no-such-shop.yaml")));

    assertThat(reading).isInstanceOf(ShopReading.Unreadable.class);
    assertThat(reading.report()).contains("there is no such file: no-such-shop.yaml");
  }

  @Test
  void example_isRead() {
    ShopReading reading = ShopReader.read(YamlText.read(Path.of("../examples/shop.yaml")));

    assertThat(reading.report()).isEmpty();
    assertThat(((ShopReading.Readable) reading).shop()).isNotEqualTo(Shop.ORDINARY);
  }
}
