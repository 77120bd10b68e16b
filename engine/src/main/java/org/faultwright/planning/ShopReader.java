package org.faultwright.planning;

import java.time.Duration;
import java.util.Map;
import java.util.Optional;
import org.faultwright.pack.PartId;
import org.faultwright.pack.format.Block;
import org.faultwright.pack.format.Chances;
import org.faultwright.pack.format.Fields;
import org.faultwright.pack.format.Findings;
import org.faultwright.pack.format.Form;
import org.faultwright.pack.format.Forms;
import org.faultwright.pack.format.Ids;
import org.faultwright.pack.format.Key;
import org.faultwright.pack.format.Names;
import org.faultwright.pack.format.Numbers;
import org.faultwright.pack.format.SchemaWriter;
import org.faultwright.pack.format.Scope;
import org.faultwright.pack.yaml.YamlNode.YamlMap;
import org.faultwright.pack.yaml.YamlText;

/**
 * Reads a shop's preferences of format 1: what time and trouble cost there. What the file leaves
 * out is as in {@link Shop#ORDINARY}. Whatever is wrong with a file is a problem in the result,
 * never an exception.
 *
 * <p>The shop's prices are for all packs, so that the ids of parts are held to their spelling only.
 */
public final class ShopReader {

  private static final Key<String> SHOP =
      Key.required("shop", Ids.spelt(s -> s), "the shop's own name");
  private static final Key<String> FORMAT =
      Key.required("format", Forms.FORMAT, "the format that it is written in: 1");
  private static final Key<String> TITLE = Key.optional("title", Forms.TEXT, "what it is about");
  private static final Key<Double> RATE =
      Key.optional("rate", Numbers.MONEY_ABOVE_ZERO, "what a minute of hands at the bench costs");
  private static final Key<Double> WAIT_RATE =
      Key.optional(
          "wait-rate", Numbers.MONEY, "what a minute costs in which the device waits for itself");
  private static final Key<Double> SEND_ON_FEE =
      Key.optional(
          "send-on-fee", Numbers.MONEY, "what sending a device on costs, packing and fee included");
  private static final Key<Double> SALVAGE =
      Key.optional("salvage", Numbers.MONEY, "what a device that is not repaired still fetches");
  private static final Key<Double> COMEBACK =
      Key.optional(
          "comeback", Numbers.MONEY, "what it costs when a device comes back with the same fault");
  private static final Key<Double> PART_PRICE =
      Key.optional(
          "part-price", Numbers.MONEY, "what a part costs where neither pack nor shop says");
  private static final Key<Map<PartId, Double>> PART_PRICES =
      Key.optional(
          "part-prices",
          Ids.map(
              (id, scope) ->
                  Ids.wellSpelt(id, scope) ? Optional.of(new PartId(id.text())) : Optional.empty(),
              Numbers.MONEY),
          "what parts cost here, by their ids in packs");

  private static final Key<Duration> MINUTES =
      Key.optional("minutes", Numbers.TIME_FORM, "time with hands on the device");
  private static final Key<Double> CATCHES =
      Key.optional("catches", Chances.PLAIN, "how likely it fails where the function is lost");
  private static final Key<Double> CRIES_WOLF =
      Key.optional("cries-wolf", Chances.PLAIN, "how likely it fails where the function is there");

  private static final Key<Shop.Proof> PROOF =
      Key.optional(
          "proof", proof(), "the function test that is assumed where a pack has none for a repair");

  private static final Key<Double> GUARD_BAND =
      Key.optional(
          "guard-band",
          Numbers.GUARD_FACTOR,
          "how far inside a limit a reading must lie to be accepted: none, or how many of its"
              + " expanded uncertainties (JCGM 106:2012)");

  private static final Block BLOCK =
      Block.of(
          "shop",
          SHOP,
          FORMAT,
          TITLE,
          RATE,
          WAIT_RATE,
          SEND_ON_FEE,
          SALVAGE,
          COMEBACK,
          PART_PRICE,
          PART_PRICES,
          PROOF,
          GUARD_BAND);

  private ShopReader() {}

  /** The JSON Schema of preferences of format 1, written from the keys that are read. */
  public static String schema() {
    return SchemaWriter.write("A shop's preferences, format 1", BLOCK.shape());
  }

  /** Reads a shop's preferences. */
  public static ShopReading read(YamlText text) {
    Findings findings = new Findings();
    Optional<Fields> fields = Optional.empty();
    try {
      text.problems().forEach(findings);
      fields = text.root().flatMap(root -> fields(root, findings));
    } catch (Findings.Enough enough) {
      fields = Optional.empty();
    }
    if (fields.isEmpty() || findings.haveErrors()) {
      return new ShopReading.Unreadable(findings.sorted(), text.source());
    }
    Fields f = fields.get();
    return new ShopReading.Readable(f.need(SHOP), shop(f), findings.sorted(), text.source());
  }

  private static Optional<Fields> fields(YamlMap root, Findings findings) {
    return BLOCK.read(root, Scope.of("the shop", new Names(), findings));
  }

  private static Shop shop(Fields f) {
    Shop usual = Shop.ORDINARY;
    return new Shop(
        f.get(RATE).orElse(usual.rate()),
        f.get(WAIT_RATE).orElse(usual.waitRate()),
        f.get(SEND_ON_FEE).orElse(usual.sendOnFee()),
        f.get(SALVAGE).orElse(usual.salvage()),
        f.get(COMEBACK).orElse(usual.comeback()),
        f.get(PART_PRICE).orElse(usual.partPrice()),
        f.get(PART_PRICES).orElse(usual.partPrices()),
        f.get(PROOF).orElse(usual.proof()),
        f.get(GUARD_BAND).orElse(usual.guardBand()));
  }

  private static Form<Shop.Proof> proof() {
    return Forms.built(Block.of("proof", MINUTES, CATCHES, CRIES_WOLF), f -> Optional.of(proof(f)));
  }

  private static Shop.Proof proof(Fields f) {
    Shop.Proof usual = Shop.ORDINARY.proof();
    Shop.Proof proof =
        new Shop.Proof(
            f.get(MINUTES).map(t -> t.toMillis() / 60_000.0).orElse(usual.minutes()),
            f.get(CATCHES).orElse(usual.catches()),
            f.get(CRIES_WOLF).orElse(usual.criesWolf()));
    if (proof.catches() < proof.criesWolf()) {
      f.scope()
          .warning(
              "catches-below-cries-wolf",
              f.at(f.wrote(CATCHES) ? CATCHES : CRIES_WOLF),
              "'proof' of the shop fails less often where the function is lost than where it is"
                  + " there",
              "are 'catches' and 'cries-wolf' swapped?");
    }
    return proof;
  }
}
