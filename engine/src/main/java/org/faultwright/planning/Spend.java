package org.faultwright.planning;

/**
 * What something takes.
 *
 * @param hands minutes with hands on the device
 * @param waiting minutes in which the device waits for itself
 * @param money parts, consumables and fees, in the shop's currency
 * @param risk harm and comebacks, each what it costs times its probability
 */
public record Spend(double hands, double waiting, double money, double risk) {

  /** Nothing. */
  public static final Spend NOTHING = new Spend(0, 0, 0, 0);

  /** Both together. */
  public Spend plus(Spend other) {
    return new Spend(
        hands + other.hands, waiting + other.waiting, money + other.money, risk + other.risk);
  }

  /** A part of it, or several times as much. */
  public Spend times(double factor) {
    return new Spend(factor * hands, factor * waiting, factor * money, factor * risk);
  }

  /** All of it in the shop's currency. */
  public double cost(Shop shop) {
    return shop.rate() * hands + shop.waitRate() * waiting + money + risk;
  }

  /** All of it but the risk: what the work itself costs. */
  public double price(Shop shop) {
    return cost(shop) - risk;
  }
}
