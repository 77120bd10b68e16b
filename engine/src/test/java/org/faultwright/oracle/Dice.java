package org.faultwright.oracle;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.SplittableRandom;

/** Throws for random packs and cases. */
final class Dice {

  private final SplittableRandom random;
  private final Set<PackFeature> features;

  Dice(SplittableRandom random, Set<PackFeature> features) {
    this.random = random;
    this.features = features;
  }

  boolean has(PackFeature feature) {
    return features.contains(feature);
  }

  /** Whether a feature is wanted, and the dice say so. */
  boolean has(PackFeature feature, double p) {
    return has(feature) && with(p);
  }

  boolean with(double p) {
    return random.nextDouble() < p;
  }

  int from(int least, int most) {
    return random.nextInt(least, most + 1);
  }

  <T> T oneOf(List<T> list) {
    return list.get(random.nextInt(list.size()));
  }

  /** Some of a list, in the order of the list. */
  <T> List<T> someOf(List<T> list, int howMany) {
    List<T> left = new ArrayList<>(list);
    while (left.size() > howMany) {
      left.remove(random.nextInt(left.size()));
    }
    return left;
  }

  <T> List<T> shuffled(List<T> list) {
    List<T> shuffled = new ArrayList<>(list);
    for (int i = shuffled.size(); i > 1; i--) {
      shuffled.add(i - 1, shuffled.remove(random.nextInt(i)));
    }
    return shuffled;
  }

  /** A probability in hundredths, not 0 or 1. */
  double between(double least, double most) {
    return Math.round(100 * (least + (most - least) * random.nextDouble())) / 100.0;
  }

  /** A probability in hundredths; at times exactly 0 or 1, where that is wanted. */
  double p() {
    return has(PackFeature.EXTREMES, 0.12) ? from(0, 1) : between(0.04, 0.96);
  }

  /** A probability that is rather large; at times exactly 1, where that is wanted. */
  double large() {
    return has(PackFeature.EXTREMES, 0.15) ? 1 : between(0.5, 0.96);
  }

  /** A probability that is rather small; at times exactly 0, where that is wanted. */
  double small() {
    return has(PackFeature.EXTREMES, 0.15) ? 0 : between(0.02, 0.4);
  }

  /** The strength of an input. */
  double strength() {
    return has(PackFeature.STRENGTHS, 0.6) ? between(0.2, 0.95) : 1;
  }

  /** Probabilities that sum to 1. */
  double[] distribution(int n) {
    int left = 100;
    double[] p = new double[n];
    for (int i = 0; i < n - 1; i++) {
      int part = has(PackFeature.EXTREMES, 0.15) ? 0 : from(1, left - (n - 1 - i));
      p[i] = part / 100.0;
      left -= part;
    }
    p[n - 1] = left / 100.0;
    return p;
  }
}
