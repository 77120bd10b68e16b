package org.faultwright.compile;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.PriorityQueue;
import org.faultwright.inference.Evaluation;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.EventId;
import org.faultwright.pack.Pack;

/**
 * Lists likely worlds by splitting: the most probable part that is still undecided is split on its
 * most uncertain coordinate, and the circuit tells the probability of both halves and everything
 * else in them. Causes are settled first, then the bits that matter to the causes present. Each
 * split costs one evaluation of the circuit.
 */
final class WorldSearch {

  private static final double CERTAIN = 1e-12;

  private final Evaluation evaluation;
  private final double logPEvidence;
  private final List<Coordinate> coordinates;
  private final Ref.At[] refs;

  /** The probability that the pack states for an independent bit; -1 where there is none. */
  private final double[] stated;

  /** How many of the coordinates are presence of causes; they come first. */
  private final int causes;

  /**
   * For other bits, the causes one of which must be present for the bit to matter; empty: see
   * {@link #event}.
   */
  private final int[][] neededCauses;

  /**
   * For bits of inputs that are events, the event; null where the bit always matters or depends on
   * causes.
   */
  private final Ref[] event;

  /** A part of all worlds: what is settled so far, and its probability given the evidence. */
  private record Part(byte[] bits, double p) {}

  WorldSearch(Pack pack, Network network, Evaluation evaluation, double logPEvidence) {
    this.evaluation = evaluation;
    this.logPEvidence = logPEvidence;
    coordinates = List.copyOf(network.coordinates.keySet());
    int n = coordinates.size();
    refs = new Ref.At[n];
    stated = new double[n];
    neededCauses = new int[n][];
    event = new Ref[n];
    Map<CauseId, Integer> place = new LinkedHashMap<>();
    for (int i = 0; i < n; i++) {
      Coordinate c = coordinates.get(i);
      refs[i] = network.coordinates.get(c) instanceof Ref.At at ? at : null;
      stated[i] = network.stated.getOrDefault(c, -1.0);
      if (c instanceof Coordinate.Present present) {
        place.put(present.cause(), i);
      } else if (c instanceof Coordinate.Hidden hidden) {
        neededCauses[i] = new int[] {place.get(hidden.cause())};
      } else if (c instanceof Coordinate.Strength s) {
        if (s.input() instanceof EventId e) {
          event[i] = network.events.get(e);
        } else {
          neededCauses[i] = standIns(pack, (CauseId) s.input(), place);
        }
      }
    }
    causes = place.size();
  }

  /** Places of a cause and of the bad new parts that stand in for it. */
  private static int[] standIns(Pack pack, CauseId cause, Map<CauseId, Integer> place) {
    List<Integer> found = new ArrayList<>();
    if (place.containsKey(cause)) {
      found.add(place.get(cause));
    }
    for (org.faultwright.pack.Part part : pack.parts().values()) {
      if (part.carries().contains(cause) && place.containsKey(part.bad())) {
        found.add(place.get(part.bad()));
      }
    }
    return found.stream().mapToInt(Integer::intValue).toArray();
  }

  LikelyWorlds find(double pLeftOut, int most) {
    PriorityQueue<Part> open = new PriorityQueue<>(Comparator.comparingDouble((Part p) -> -p.p));
    List<Part> done = new ArrayList<>();
    byte[] nothing = new byte[refs.length];
    Arrays.fill(nothing, LikelyWorlds.UNRESOLVED);
    open.add(new Part(nothing, 1));
    double covered = 0;
    double[][] weights = savedWeights();
    while (!open.isEmpty() && (done.isEmpty() || 1 - covered > pLeftOut && done.size() < most)) {
      Part part = open.poll();
      if (split(part, open)) {
        done.add(part);
        covered += part.p;
      }
      restore(weights);
    }
    evaluation.upward();
    evaluation.downward();
    return worlds(done);
  }

  private LikelyWorlds worlds(List<Part> done) {
    done.sort(Comparator.comparingDouble((Part p) -> -p.p));
    double[] p = done.stream().mapToDouble(Part::p).toArray();
    double sum = Arrays.stream(p).sum();
    if (sum > 1) {
      for (int w = 0; w < p.length; w++) {
        p[w] /= sum;
      }
    }
    return new LikelyWorlds(
        coordinates, done.stream().map(Part::bits).toArray(byte[][]::new), p, Math.max(0, 1 - sum));
  }

  private double[][] savedWeights() {
    double[][] saved = new double[refs.length][];
    for (int i = 0; i < refs.length; i++) {
      if (refs[i] != null) {
        saved[i] = new double[evaluation.states(refs[i].variable())];
        for (int s = 0; s < saved[i].length; s++) {
          saved[i][s] = evaluation.weight(refs[i].variable(), s);
        }
      }
    }
    return saved;
  }

  private void restore(double[][] weights) {
    for (int i = 0; i < refs.length; i++) {
      if (refs[i] != null) {
        for (int s = 0; s < weights[i].length; s++) {
          evaluation.setWeight(refs[i].variable(), s, weights[i][s]);
        }
      }
    }
  }

  /**
   * Settles what is certain in a part, and splits it on what is not; true when all that matters is
   * settled.
   */
  private boolean split(Part part, PriorityQueue<Part> open) {
    byte[] bits = part.bits;
    for (int i = 0; i < refs.length; i++) {
      if (bits[i] != LikelyWorlds.UNRESOLVED) {
        settle(refs[i], bits[i] == 1);
      }
    }
    double logP = evaluation.upward();
    evaluation.downward();
    int split = mostUncertain(bits, 0, causes);
    if (split < 0) {
      split = mostUncertain(bits, causes, refs.length);
    }
    if (split < 0) {
      return true;
    }
    double total = Math.exp(logP - logPEvidence);
    double p = probability(split);
    open.add(with(bits, split, 1, total * p));
    open.add(with(bits, split, 0, total * (1 - p)));
    return false;
  }

  private int mostUncertain(byte[] bits, int from, int to) {
    int split = -1;
    double best = CERTAIN;
    for (int i = from; i < to; i++) {
      if (bits[i] != LikelyWorlds.UNRESOLVED) {
        continue;
      }
      if (i >= causes && !matters(i, bits)) {
        if (coordinates.get(i) instanceof Coordinate.Hidden) {
          bits[i] = 0;
        }
        continue;
      }
      double p = probability(i);
      double uncertain = Math.min(p, 1 - p);
      if (Math.abs(p - stated[i]) <= CERTAIN) {
        continue;
      } else if (uncertain <= CERTAIN) {
        bits[i] = (byte) (p > 0.5 ? 1 : 0);
      } else if (uncertain > best) {
        best = uncertain;
        split = i;
      }
    }
    return split;
  }

  private static Part with(byte[] bits, int at, int bit, double p) {
    byte[] more = bits.clone();
    more[at] = (byte) bit;
    return new Part(more, p);
  }

  private double probability(int i) {
    return refs[i] == null ? 1 : evaluation.marginal(refs[i].variable(), refs[i].state());
  }

  private void settle(Ref.At at, boolean value) {
    if (at == null) {
      return;
    }
    if (!value) {
      evaluation.setWeight(at.variable(), at.state(), 0);
      return;
    }
    for (int s = 0; s < evaluation.states(at.variable()); s++) {
      if (s != at.state()) {
        evaluation.setWeight(at.variable(), s, 0);
      }
    }
  }

  /** Whether a bit can matter where the causes are settled as given. */
  private boolean matters(int i, byte[] bits) {
    if (neededCauses[i] != null) {
      for (int c : neededCauses[i]) {
        if (bits[c] == 1) {
          return true;
        }
      }
      return false;
    }
    if (event[i] == null) {
      return true;
    }
    return event[i] instanceof Ref.At at
        ? evaluation.marginal(at.variable(), at.state()) > CERTAIN
        : event[i].equals(Ref.YES);
  }
}
