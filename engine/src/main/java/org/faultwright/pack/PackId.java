package org.faultwright.pack;

import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;

/**
 * Names a pack: device family and subsystem, written {@code wren-handset/charging}. Several packs
 * of a family that are used together as one are written {@code wren-handset/charging+no-power}.
 *
 * @param family the device family, spelt as an {@link Id}
 * @param subsystem the subsystem, spelt as an {@link Id}; several, each once, with {@code +}
 *     between
 */
public record PackId(String family, String subsystem) implements Comparable<PackId> {

  private static final String AND = "+";

  /** Checks the spelling of all parts. */
  public PackId {
    Id.check(family);
    Set<String> once = new LinkedHashSet<>();
    for (String one : subsystem.split("\\+", -1)) {
      Id.check(one);
      if (!once.add(one)) {
        throw new IllegalArgumentException("subsystem must be named once: " + subsystem);
      }
    }
  }

  /**
   * Reads {@code family/subsystem}.
   *
   * @throws IllegalArgumentException when the text has not exactly one slash or a part is not spelt
   *     as an id
   */
  public static PackId parse(String text) {
    int slash = text.indexOf('/');
    if (slash < 0) {
      throw new IllegalArgumentException("pack must be family/subsystem: " + text);
    }
    return new PackId(text.substring(0, slash), text.substring(slash + 1));
  }

  /**
   * The name of several packs that are used as one.
   *
   * @throws IllegalArgumentException when there are none, they are of several families, or one is
   *     named twice
   */
  public static PackId ofAll(List<PackId> packs) {
    if (packs.stream().map(PackId::family).distinct().count() != 1) {
      throw new IllegalArgumentException("packs must be of one family: " + packs);
    }
    return new PackId(
        packs.get(0).family(),
        packs.stream().map(PackId::subsystem).collect(Collectors.joining(AND)));
  }

  /** Each of the packs by itself; of a single pack, itself. */
  public List<PackId> each() {
    return List.of(subsystem.split("\\+")).stream().map(s -> new PackId(family, s)).toList();
  }

  /** Whether it names several packs that are used as one. */
  public boolean isSeveral() {
    return subsystem.contains(AND);
  }

  @Override
  public int compareTo(PackId other) {
    return toString().compareTo(other.toString());
  }

  @Override
  public String toString() {
    return family + "/" + subsystem;
  }
}
