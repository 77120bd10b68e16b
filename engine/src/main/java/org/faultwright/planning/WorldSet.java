package org.faultwright.planning;

import java.util.Arrays;

/**
 * The worlds of a belief, by number, increasing. There is one for each set that a plan meets, so
 * that what is worked out for all of its worlds can be noted on it and found by a place in an
 * array. Not thread-safe.
 */
final class WorldSet {

  final int[] worlds;
  private Object[] notes = {};

  WorldSet(int[] worlds) {
    this.worlds = worlds;
  }

  int size() {
    return worlds.length;
  }

  /** What has been noted under an identity; null: nothing. */
  Object noted(int id) {
    return id < notes.length ? notes[id] : null;
  }

  /** Notes something. */
  <T> T note(int id, T what) {
    if (id >= notes.length) {
      notes = Arrays.copyOf(notes, Math.max(id + 1, 2 * notes.length));
    }
    notes[id] = what;
    return what;
  }
}
