package org.faultwright.pack.merge;

import java.lang.reflect.InvocationTargetException;
import java.lang.reflect.RecordComponent;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.faultwright.pack.Basis;
import org.faultwright.pack.Chance;

/**
 * Whether two definitions say the same: everything but words for people and what numbers rest on.
 */
final class Sameness {

  private static final Set<String> WORDS = Set.of("title", "how", "says");

  private Sameness() {}

  static boolean same(Object one, Object other) {
    return difference(one, other).isEmpty();
  }

  /**
   * The name of the first part in which two definitions differ; empty where they say the same.
   *
   * @param one a record of the pack's, or what such records are made of
   */
  static Optional<String> difference(Object one, Object other) {
    if (one instanceof Chance a && other instanceof Chance b) {
      return a.p() == b.p() ? Optional.empty() : Optional.of("number");
    } else if (one instanceof Basis && other instanceof Basis) {
      return Optional.empty();
    } else if (one instanceof Optional<?> a && other instanceof Optional<?> b) {
      boolean same = a.isPresent() == b.isPresent() && (a.isEmpty() || same(a.get(), b.get()));
      return same ? Optional.empty() : Optional.of("value");
    } else if (one instanceof List<?> a && other instanceof List<?> b) {
      boolean same = a.size() == b.size();
      for (int i = 0; same && i < a.size(); i++) {
        same = same(a.get(i), b.get(i));
      }
      return same ? Optional.empty() : Optional.of("list");
    } else if (one instanceof Map<?, ?> a && other instanceof Map<?, ?> b) {
      boolean same =
          a.keySet().equals(b.keySet())
              && a.entrySet().stream().allMatch(e -> same(e.getValue(), b.get(e.getKey())));
      return same ? Optional.empty() : Optional.of("entry");
    } else if (one instanceof Record a && one.getClass() == other.getClass()) {
      return differenceOfRecords(a, (Record) other);
    }
    return one.equals(other) ? Optional.empty() : Optional.of("value");
  }

  private static Optional<String> differenceOfRecords(Record one, Record other) {
    for (RecordComponent part : one.getClass().getRecordComponents()) {
      if (!WORDS.contains(part.getName()) && !same(value(part, one), value(part, other))) {
        return Optional.of(part.getName());
      }
    }
    return Optional.empty();
  }

  private static Object value(RecordComponent part, Record of) {
    try {
      return part.getAccessor().invoke(of);
    } catch (IllegalAccessException | InvocationTargetException e) {
      throw new IllegalStateException("part must be readable: " + part, e);
    }
  }
}
