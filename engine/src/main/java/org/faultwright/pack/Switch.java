package org.faultwright.pack;

import java.util.Optional;
import java.util.Set;

/**
 * One independent state of the bench: device open, battery connected, a flex on.
 *
 * @param title what it is, in words
 * @param offCalled the name of the off position, so that packs can say {@code needs:
 *     [battery-disconnected]}
 * @param startsOn whether a device is taken in with the switch on
 * @param turnOn how it is turned on; empty: it cannot be
 * @param turnOff how it is turned off; empty: it cannot be
 * @param whileOn activities that go on while the switch is on, for holds
 * @param closedWhenOff whether the switch must be off for the device to count as closed, so that
 *     closing up turns it off
 */
public record Switch(
    SwitchId id,
    String title,
    SwitchId offCalled,
    boolean startsOn,
    Optional<Turn> turnOn,
    Optional<Turn> turnOff,
    Set<ActivityId> whileOn,
    boolean closedWhenOff) {

  /** Copies the activities, keeping their order. */
  public Switch {
    whileOn = Ordered.copy(whileOn);
  }

  /**
   * Turning a switch.
   *
   * @param effort minutes at the bench
   * @param needs positions of other switches that must hold while turning
   * @param consent what the customer must agree to
   * @param does activities that the turning involves
   * @param cautions shown beside it
   * @param consumables cost of what is used up, in the shop's currency
   */
  public record Turn(
      Effort effort,
      Set<BenchState> needs,
      Set<ConsentId> consent,
      Set<ActivityId> does,
      Set<CautionId> cautions,
      double consumables) {

    /** Copies the sets, keeping their order. */
    public Turn {
      needs = Ordered.copy(needs);
      consent = Ordered.copy(consent);
      does = Ordered.copy(does);
      cautions = Ordered.copy(cautions);
    }
  }
}
