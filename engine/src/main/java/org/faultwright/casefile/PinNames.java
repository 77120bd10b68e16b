package org.faultwright.casefile;

import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.faultwright.pack.BoardId;
import org.faultwright.pack.Point;
import org.faultwright.pack.Step;
import org.faultwright.problem.Nearest;

/** What the pins of a step are called: by number, by net, or by the id of the point. */
final class PinNames {

  /** What a name stands for. */
  sealed interface Pin {
    /** A pin that is read. */
    record Reads(Point point) implements Pin {}

    /** A pin that is ground, or connected to nothing: nothing is to be read there. */
    record Idle(String pin, boolean ground) implements Pin {}
  }

  private final Step.PinTable table;
  private final Map<String, Set<Pin>> pins = new LinkedHashMap<>();
  private final Set<String> shown = new LinkedHashSet<>();

  /**
   * The names.
   *
   * @param board the board variant, where it is known: points of others are left out
   */
  PinNames(Step.PinTable table, Optional<BoardId> board) {
    this.table = table;
    for (Point p : table.points()) {
      if (board.isEmpty() || p.boards().isEmpty() || p.boards().contains(board.get())) {
        Pin pin = new Pin.Reads(p);
        p.pin().ifPresent(name -> add(name, pin));
        add(p.title(), pin);
        add(p.id().value(), pin);
        shown.add(p.pin().map(n -> n + " (" + p.title() + ")").orElse(p.title()));
      }
    }
    table
        .connector()
        .ifPresent(
            c -> {
              c.ground().forEach(n -> add(n, new Pin.Idle(n, true)));
              c.unused().forEach(n -> add(n, new Pin.Idle(n, false)));
            });
  }

  private void add(String name, Pin pin) {
    pins.computeIfAbsent(plain(name), n -> new LinkedHashSet<>()).add(pin);
  }

  /** Letters and digits only, so that "VBUS 1", "vbus-1" and "VBUS1" are one name. */
  private static String plain(String name) {
    String plain = name.toLowerCase(Locale.ROOT).replaceAll("[^\\p{L}\\p{N}+]", "");
    return plain.matches("pin\\d.*") ? plain.substring(3) : plain;
  }

  /**
   * What a name stands for.
   *
   * @throws IllegalArgumentException when it stands for nothing or for several pins; the message
   *     says so without naming the way out
   */
  Pin of(String name) {
    Set<Pin> found = pins.getOrDefault(plain(name), Set.of());
    if (found.size() == 1) {
      return found.iterator().next();
    }
    throw new IllegalArgumentException(
        found.isEmpty() ? "no pin is called " : "several pins are called ");
  }

  /** The pin of this number, where it is known. */
  Optional<Pin> numbered(int number) {
    Set<Pin> found = pins.getOrDefault(String.valueOf(number), Set.of());
    return found.size() == 1 ? Optional.of(found.iterator().next()) : Optional.empty();
  }

  /** What to write instead of a name that is not known. */
  String wayOut(String name) {
    if (pins.getOrDefault(plain(name), Set.of()).size() > 1) {
      return "write its number";
    }
    boolean beyond = plain(name).matches("\\d{1,9}") && Integer.parseInt(plain(name)) > count();
    if (beyond && count() > 0) {
      return "its pins end at " + count();
    }
    return Nearest.of(plain(name), List.copyOf(pins.keySet()))
        .map(near -> "did you mean '" + written(near) + "'?")
        .orElse("it reads: " + String.join(", ", shown));
  }

  private String written(String plain) {
    Pin pin = pins.get(plain).iterator().next();
    if (!(pin instanceof Pin.Reads reads)) {
      return ((Pin.Idle) pin).pin();
    }
    Point p = reads.point();
    return p.pin()
        .filter(n -> plain(n).equals(plain))
        .orElse(plain(p.title()).equals(plain) ? p.title() : p.id().value());
  }

  /** How many pins the connector has: as stated, or as far as the pins are numbered. */
  int count() {
    if (table.connector().isPresent()) {
      return table.connector().get().pins();
    }
    return pins.keySet().stream()
        .filter(n -> n.matches("\\d{1,4}"))
        .mapToInt(Integer::parseInt)
        .max()
        .orElse(0);
  }
}
