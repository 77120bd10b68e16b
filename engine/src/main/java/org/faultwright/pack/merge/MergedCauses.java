package org.faultwright.pack.merge;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import org.faultwright.pack.Cause;
import org.faultwright.pack.Cause.Likelihood;

/** What two packs say of one cause. */
final class MergedCauses {

  private MergedCauses() {}

  /** The first with what the second adds to it; the first that says how likely it is counts. */
  static Cause both(Cause one, Cause other) {
    boolean says = !(one.likelihood() instanceof Likelihood.OnlyCaused);
    return new Cause(
        one.id(),
        one.title(),
        one.kind(),
        says ? one.likelihood() : other.likelihood(),
        one.oneOf(),
        union(one.after(), other.after()),
        union(one.follows(), other.follows()),
        one.shows(),
        one.boards(),
        one.sendOn());
  }

  private static <K, V> Map<K, V> union(Map<K, V> one, Map<K, V> other) {
    Map<K, V> both = new LinkedHashMap<>(one);
    other.forEach(both::putIfAbsent);
    return both;
  }

  /** The part in which they contradict each other, likelihood apart. */
  static Optional<String> difference(Cause one, Cause other) {
    Likelihood any = one.likelihood();
    return Sameness.difference(
        both(one, other).withLikelihood(any), both(other, one).withLikelihood(any));
  }

  /** Whether both say how likely the cause is, and not the same. */
  static boolean differInLikelihood(Cause one, Cause other) {
    return !(one.likelihood() instanceof Likelihood.OnlyCaused)
        && !(other.likelihood() instanceof Likelihood.OnlyCaused)
        && !Sameness.same(one.likelihood(), other.likelihood());
  }
}
