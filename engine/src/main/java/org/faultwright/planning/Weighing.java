package org.faultwright.planning;

import java.util.List;
import java.util.Optional;

/**
 * What the job is expected to cost from here on, by what is done next. All money is in the shop's
 * currency; what has been spent so far is not counted.
 *
 * @param next what is cheapest; equals are decided by the pack's order, and ending the job goes
 *     before a repair
 * @param expectedCost with {@code next}, and no test after it
 * @param toTheEnd the same kept apart, as expected
 * @param costWithoutTests ECR0: the cheapest sequence of repairs, or the end of the job
 * @param exit the cheapest way to end the job without a repair
 * @param ending what {@code exit} takes, kept apart
 * @param repairs the repairs that could be done now, cheapest first
 * @param tests the tests that could be done now, those worth most first
 * @param pLost P(a function that counts is lost to the one who uses the device)
 * @param pLeftOut the probability of the worlds that were not looked at: each figure holds given
 *     that the device is in none of them
 * @param ifAgreed the same where the customer agrees to all that has not been asked yet; empty
 *     where that would open nothing
 */
public record Weighing(
    NextStep next,
    double expectedCost,
    Spend toTheEnd,
    double costWithoutTests,
    Exit exit,
    Spend ending,
    List<RepairWay> repairs,
    List<Worth> tests,
    double pLost,
    double pLeftOut,
    Optional<Weighing> ifAgreed) {

  /** Copies the lists. */
  public Weighing {
    repairs = List.copyOf(repairs);
    tests = List.copyOf(tests);
  }

  /** The same with what the customer's consent would change. */
  Weighing with(Optional<Weighing> agreed) {
    return new Weighing(
        next,
        expectedCost,
        toTheEnd,
        costWithoutTests,
        exit,
        ending,
        repairs,
        tests,
        pLost,
        pLeftOut,
        agreed);
  }

  /**
   * What steps are compared by: as if the customer agreed to all that nobody has asked for yet,
   * since asking costs nothing and can be done at any time.
   */
  public Weighing compared() {
    return ifAgreed.orElse(this);
  }
}
