package org.faultwright.pack;

/**
 * Names a pack: device family and subsystem, written {@code wren-handset/charging}.
 *
 * @param family the device family, spelt as an {@link Id}
 * @param subsystem the subsystem, spelt as an {@link Id}
 */
public record PackId(String family, String subsystem) implements Comparable<PackId> {

  /** Checks the spelling of both halves. */
  public PackId {
    Id.check(family);
    Id.check(subsystem);
  }

  /**
   * Reads {@code family/subsystem}.
   *
   * @throws IllegalArgumentException when the text has not exactly one slash or a half is not spelt
   *     as an id
   */
  public static PackId parse(String text) {
    int slash = text.indexOf('/');
    if (slash < 0) {
      throw new IllegalArgumentException("pack must be family/subsystem: " + text);
    }
    return new PackId(text.substring(0, slash), text.substring(slash + 1));
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
