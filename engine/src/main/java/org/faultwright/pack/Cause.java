package org.faultwright.pack;

import java.util.Map;
import java.util.Optional;
import java.util.Set;

/**
 * A basic event: something wrong that can be repaired, sent on or lived with.
 *
 * @param kind what sort of answer the cause is
 * @param likelihood how likely it is before anything is known of the device
 * @param oneOf the group of causes of which at most one is present
 * @param after history that multiplies the odds of this cause, by the factor given (above 0)
 * @param follows causes that bring this one about, each with the probability that it does
 * @param shows where the cause comes and goes: the probability that it acts, by what provokes it;
 *     empty: it always acts. {@link ModeId#AT_REST} is always among the keys of a non-empty map; a
 *     mode not listed acts as at rest, and always in an inspection
 * @param boards the board variants that can have the cause; empty: all
 * @param sendOn whether this cause calls for other hands: its repair is not for this bench
 */
public record Cause(
    CauseId id,
    String title,
    Kind kind,
    Likelihood likelihood,
    Optional<GroupId> oneOf,
    Map<HistoryId, Double> after,
    Map<CauseId, Chance> follows,
    Map<ModeId, Chance> shows,
    Set<BoardId> boards,
    boolean sendOn) {

  /** A cause of every board. */
  public Cause(
      CauseId id,
      String title,
      Kind kind,
      Likelihood likelihood,
      Optional<GroupId> oneOf,
      Map<HistoryId, Double> after,
      Map<CauseId, Chance> follows,
      Map<ModeId, Chance> shows,
      boolean sendOn) {
    this(id, title, kind, likelihood, oneOf, after, follows, shows, Set.of(), sendOn);
  }

  /** The same cause, likely otherwise. */
  public Cause withLikelihood(Likelihood other) {
    return new Cause(id, title, kind, other, oneOf, after, follows, shows, boards, sendOn);
  }

  /** What sort of answer a cause is. */
  public enum Kind {
    /** A fault of the device. */
    FAULT,
    /** Whatever the pack does not list. */
    UNLISTED,
    /** The device is in order. */
    NO_FAULT,
    /** The fault lies outside the device: cable, charger, network, handling. */
    OUTSIDE
  }

  /** How likely a cause is before anything is known of the device. */
  public sealed interface Likelihood {

    /** Probability per device taken in. */
    record Prior(Chance chance) implements Likelihood {}

    /**
     * Share among the causes of one complaint.
     *
     * @param of the complaint
     * @param share the share; all shares of a complaint sum to 1
     */
    record Share(ComplaintId of, Chance share) implements Likelihood {}

    /**
     * No likelihood of its own: present only by following another cause, by harm, or as a bad new
     * part.
     */
    record OnlyCaused() implements Likelihood {}
  }

  /** Copies the maps, keeping their order. */
  public Cause {
    after = Ordered.copy(after);
    follows = Ordered.copy(follows);
    shows = Ordered.copy(shows);
    boards = Ordered.copy(boards);
  }

  /** Whether the cause comes and goes. */
  public boolean comesAndGoes() {
    return !shows.isEmpty();
  }

  /** P(the cause acts in an observation that provokes {@code mode} | it is present). */
  public double pActs(ModeId mode) {
    if (shows.isEmpty()) {
      return 1;
    }
    Chance c = shows.get(mode);
    if (c == null && mode.equals(ModeId.INSPECTION)) {
      return 1;
    }
    return c != null ? c.p() : shows.get(ModeId.AT_REST).p();
  }
}
