package org.faultwright.faulttree;

import java.util.Arrays;

/** A map from numbers above 0 to indices, without boxing. Not thread-safe. */
final class LongIntMap {

  private static final int UNKNOWN = -1;

  private long[] keys = new long[1024];
  private int[] values = new int[1024];
  private int size;

  int size() {
    return size;
  }

  /** The value; -1 where there is none. */
  int get(long key) {
    int at = find(key);
    return keys[at] == 0 ? UNKNOWN : values[at];
  }

  void put(long key, int value) {
    int at = find(key);
    if (keys[at] == 0) {
      keys[at] = key;
      size++;
    }
    values[at] = value;
    if (size * 2 > keys.length) {
      grow();
    }
  }

  void clear() {
    Arrays.fill(keys, 0);
    size = 0;
  }

  private int find(long key) {
    long h = key * 0x9E3779B97F4A7C15L;
    int at = (int) (h >>> 32) & keys.length - 1;
    while (keys[at] != 0 && keys[at] != key) {
      at = at + 1 & keys.length - 1;
    }
    return at;
  }

  private void grow() {
    long[] oldKeys = keys;
    int[] oldValues = values;
    keys = new long[oldKeys.length * 2];
    values = new int[keys.length];
    for (int i = 0; i < oldKeys.length; i++) {
      if (oldKeys[i] != 0) {
        int at = find(oldKeys[i]);
        keys[at] = oldKeys[i];
        values[at] = oldValues[i];
      }
    }
  }
}
