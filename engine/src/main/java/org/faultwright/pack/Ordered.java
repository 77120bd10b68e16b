package org.faultwright.pack;

import java.util.Collection;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.Map;
import java.util.Set;

/** Unmodifiable copies that keep the author's order. */
public final class Ordered {

  private Ordered() {}

  /** An unmodifiable copy of the map with the same order. */
  public static <K, V> Map<K, V> copy(Map<K, V> map) {
    return Collections.unmodifiableMap(new LinkedHashMap<>(map));
  }

  /** An unmodifiable copy of the set with the same order. */
  public static <T> Set<T> copy(Collection<T> set) {
    return Collections.unmodifiableSet(new LinkedHashSet<>(set));
  }
}
