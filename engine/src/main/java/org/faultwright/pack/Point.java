package org.faultwright.pack;

import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.Set;
import java.util.stream.Stream;
import org.faultwright.measurement.ReadingModel;
import org.faultwright.measurement.ReadingValue;
import org.faultwright.measurement.Reference;

/**
 * A point where a reading is taken in a step.
 *
 * @param pin the pin as the socket is seen, where it is one
 * @param reference the known-good value
 * @param basis what the reference rests on
 * @param states the states off normal in order of dominance, each with what triggers it and where
 *     readings then lie
 * @param boards the board variants that have the point; empty: all
 * @param conditions under what conditions the reference holds
 */
public record Point(
    PointId id,
    String title,
    Optional<String> pin,
    Reference reference,
    Basis basis,
    List<ReadingState> states,
    Set<BoardId> boards,
    Conditions conditions) {

  /** Copies the collections, keeping their order. */
  public Point {
    states = List.copyOf(states);
    boards = Ordered.copy(boards);
  }

  /** A point of whose reference no conditions are known. */
  public Point(
      PointId id,
      String title,
      Optional<String> pin,
      Reference reference,
      Basis basis,
      List<ReadingState> states,
      Set<BoardId> boards) {
    this(id, title, pin, reference, basis, states, boards, Conditions.UNKNOWN);
  }

  /** The names of its states, normal first. */
  public List<String> stateNames() {
    return Stream.concat(
            Stream.of(StateId.NORMAL.value()), states.stream().map(s -> s.id().value()))
        .toList();
  }

  /**
   * One of its states, seen without a number and written by its name: in letters of either case,
   * its words apart or with hyphens.
   */
  public Optional<ReadingValue.Named> named(String written) {
    String name = written.strip().toLowerCase(Locale.ROOT).replaceAll("[ _-]+", "-");
    return stateNames().stream()
        .filter(name::equals)
        .map(n -> new ReadingValue.Named(n, reference.dimension()))
        .findFirst();
  }

  /** How likely its readings are in each of its states, normal first. Made anew at each call. */
  public ReadingModel readingModel() {
    return ReadingModel.of(
        reference,
        states.stream().map(s -> new ReadingModel.StateRange(s.id().value(), s.lies())).toList());
  }

  /**
   * Under what conditions a reference holds; what is empty is not known.
   *
   * @param sourceResistance the resistance of what is measured, in ohms, from 0: an instrument
   *     loads it
   * @param celsius the temperature at which the reference was taken
   * @param testCurrent the current with which it was taken, in amperes, above 0
   * @param knownGood from how many known-good boards it was taken
   */
  public record Conditions(
      OptionalDouble sourceResistance,
      OptionalDouble celsius,
      OptionalDouble testCurrent,
      OptionalInt knownGood) {

    /** Nothing known. */
    public static final Conditions UNKNOWN =
        new Conditions(
            OptionalDouble.empty(),
            OptionalDouble.empty(),
            OptionalDouble.empty(),
            OptionalInt.empty());

    /** Checks the domain. */
    public Conditions {
      if (sourceResistance.isPresent() && !(sourceResistance.getAsDouble() >= 0)) {
        throw new IllegalArgumentException(
            "sourceResistance must not be negative: " + sourceResistance.getAsDouble());
      }
      if (testCurrent.isPresent() && !(testCurrent.getAsDouble() > 0)) {
        throw new IllegalArgumentException(
            "testCurrent must be above 0: " + testCurrent.getAsDouble());
      }
    }
  }

  /**
   * A state off normal.
   *
   * @param id {@code open}, {@code short}, {@code low}, {@code high}, or a name of the pack's own
   * @param triggers a noisy any, as in {@link Observation.TrueState}
   * @param lies where readings lie in this state; empty: as the measurement package says for the
   *     four common names, and for other names a state that is seen without a number
   */
  public record ReadingState(StateId id, Map<NodeId, Chance> triggers, Optional<Reference> lies) {

    /** Copies the triggers, keeping their order. */
    public ReadingState {
      triggers = Ordered.copy(triggers);
    }
  }
}
