package org.faultwright.planning;

import java.util.Map;
import java.util.OptionalDouble;
import org.faultwright.pack.Ordered;
import org.faultwright.pack.Part;
import org.faultwright.pack.PartId;

/**
 * What time and trouble cost a shop. Money is in the shop's own currency throughout.
 *
 * @param rate a minute of hands at the bench, above 0
 * @param waitRate a minute in which the device waits for itself while the hands do other work, from
 *     0
 * @param sendOnFee what sending the device to other hands costs, packing and their fee included,
 *     from 0
 * @param salvage what a device that is not repaired still fetches, from 0
 * @param comeback what it costs when a device is handed over and its function is lost after all:
 *     the time, and the name, from 0
 * @param partPrice what is assumed of a part of which neither pack nor shop states a price, from 0
 * @param partPrices the shop's own prices; they go before the pack's
 * @param proof the function test that is assumed where the pack has none for a repair
 * @param guardBand how many expanded uncertainties inside a limit a reading must lie to be
 *     accepted, finite; 0: the limits are those of the reference. It changes what is said of a
 *     reading and moves no probability of a cause
 * @see org.faultwright.measurement.GuardBand
 */
public record Shop(
    double rate,
    double waitRate,
    double sendOnFee,
    double salvage,
    double comeback,
    double partPrice,
    Map<PartId, Double> partPrices,
    Proof proof,
    double guardBand) {

  /**
   * A shop of which nothing is known: 1 for a minute at the bench, a twentieth of that for a minute
   * of waiting, 150 for sending on, nothing for a dead device, 90 for a comeback, 25 for a part.
   * Common practice, no source.
   */
  public static final Shop ORDINARY =
      new Shop(1, 0.05, 150, 0, 90, 25, Map.of(), new Proof(3, 0.95, 0.02), 0);

  /** Checks the domains and copies the prices. */
  public Shop {
    require(rate > 0 && Double.isFinite(rate), "rate must be finite and above 0", rate);
    notNegative("waitRate", waitRate);
    notNegative("sendOnFee", sendOnFee);
    notNegative("salvage", salvage);
    notNegative("comeback", comeback);
    notNegative("partPrice", partPrice);
    require(Double.isFinite(guardBand), "guardBand must be finite", guardBand);
    partPrices = Ordered.copy(partPrices);
    partPrices.forEach((part, price) -> notNegative("price of " + part, price));
  }

  /** A shop without a guard band. */
  public Shop(
      double rate,
      double waitRate,
      double sendOnFee,
      double salvage,
      double comeback,
      double partPrice,
      Map<PartId, Double> partPrices,
      Proof proof) {
    this(rate, waitRate, sendOnFee, salvage, comeback, partPrice, partPrices, proof, 0);
  }

  /**
   * A function test that looks at the function itself, without a step of the pack.
   *
   * @param minutes hands at the bench, from 0
   * @param catches P(failed | function lost)
   * @param criesWolf P(failed | function there)
   */
  public record Proof(double minutes, double catches, double criesWolf) {

    /** Checks the domains. */
    public Proof {
      notNegative("minutes", minutes);
      require(catches >= 0 && catches <= 1, "catches must be in [0, 1]", catches);
      require(criesWolf >= 0 && criesWolf <= 1, "criesWolf must be in [0, 1]", criesWolf);
    }
  }

  /** What a part costs: the shop's own price, else the pack's, else what is assumed. */
  public double priceOf(Part part) {
    return statedPriceOf(part).orElse(partPrice);
  }

  /** What a part costs as the shop states it, or else the pack; empty: neither does. */
  public OptionalDouble statedPriceOf(Part part) {
    Double own = partPrices.get(part.id());
    return own != null ? OptionalDouble.of(own) : part.price();
  }

  private static void notNegative(String name, double value) {
    require(value >= 0 && Double.isFinite(value), name + " must be finite and not negative", value);
  }

  private static void require(boolean met, String rule, double value) {
    if (!met) {
      throw new IllegalArgumentException(rule + ": " + value);
    }
  }
}
