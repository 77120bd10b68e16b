package org.faultwright.planning;

import java.util.Arrays;

/** A world as a key of a map. The bytes must not change while the key is in use. */
final class Bits {

  final byte[] world;
  private final int hash;

  Bits(byte[] world) {
    this.world = world;
    this.hash = Arrays.hashCode(world);
  }

  @Override
  public boolean equals(Object other) {
    return other instanceof Bits b && hash == b.hash && Arrays.equals(world, b.world);
  }

  @Override
  public int hashCode() {
    return hash;
  }
}
