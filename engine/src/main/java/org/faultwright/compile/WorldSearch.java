package org.faultwright.compile;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
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
 * else in them. Causes are settled first, then the strength bits that matter to the causes present.
 */
final class WorldSearch {

  private static final double CERTAIN = 1e-12;

  private final Pack pack;
  private final Evaluation evaluation;
  private final double logPEvidence;
  private final Map<EventId, Ref> events;
  private final Map<Coordinate, Double> stated;
  private final List<Coordinate> coordinates = new ArrayList<>();
  private final List<Ref> refs = new ArrayList<>();

  /** A part of all worlds: what is settled so far, and its probability given the evidence. */
  private record Part(byte[] bits, double p) {}

  WorldSearch(Pack pack, Network network, Evaluation evaluation, double logPEvidence) {
    this.pack = pack;
    this.evaluation = evaluation;
    this.logPEvidence = logPEvidence;
    this.events = network.events;
    this.stated = network.stated;
    network.coordinates.forEach(
        (c, ref) -> {
          coordinates.add(c);
          refs.add(ref);
        });
  }

  LikelyWorlds find(double pLeftOut, int most) {
    PriorityQueue<Part> open = new PriorityQueue<>(Comparator.comparingDouble((Part p) -> -p.p));
    List<Part> done = new ArrayList<>();
    byte[] nothing = new byte[coordinates.size()];
    Arrays.fill(nothing, LikelyWorlds.UNRESOLVED);
    open.add(new Part(nothing, 1));
    double covered = 0;
    double[] weights = savedWeights();
    while (!open.isEmpty() && 1 - covered > pLeftOut && done.size() < most) {
      Part part = open.poll();
      List<Part> parts = split(part);
      if (parts.isEmpty()) {
        done.add(part);
        covered += part.p;
      } else {
        open.addAll(parts);
      }
      restore(weights);
    }
    evaluation.upward();
    evaluation.downward();
    done.sort(Comparator.comparingDouble((Part p) -> -p.p));
    double[] p = new double[done.size()];
    byte[][] bits = new byte[p.length][];
    double sum = 0;
    for (int w = 0; w < p.length; w++) {
      p[w] = done.get(w).p;
      bits[w] = done.get(w).bits;
      sum += p[w];
    }
    double left = 1 - sum;
    if (left < 0) {
      for (int w = 0; w < p.length; w++) {
        p[w] /= sum;
      }
      left = 0;
    }
    return new LikelyWorlds(coordinates, bits, p, left);
  }

  private double[] savedWeights() {
    List<Double> saved = new ArrayList<>();
    for (Ref r : refs) {
      if (r instanceof Ref.At at) {
        for (int s = 0; s < evaluation.states(at.variable()); s++) {
          saved.add(evaluation.weight(at.variable(), s));
        }
      }
    }
    return saved.stream().mapToDouble(Double::doubleValue).toArray();
  }

  private void restore(double[] weights) {
    int i = 0;
    for (Ref r : refs) {
      if (r instanceof Ref.At at) {
        for (int s = 0; s < evaluation.states(at.variable()); s++) {
          evaluation.setWeight(at.variable(), s, weights[i++]);
        }
      }
    }
  }

  /**
   * Settles what is certain in a part, and splits it on what is not; nothing when all that matters
   * is settled.
   */
  private List<Part> split(Part part) {
    for (int i = 0; i < refs.size(); i++) {
      if (part.bits[i] != LikelyWorlds.UNRESOLVED) {
        settle(refs.get(i), part.bits[i] == 1);
      }
    }
    double logP = evaluation.upward();
    evaluation.downward();
    double total = Math.exp(logP - logPEvidence);
    int split = -1;
    double best = CERTAIN;
    boolean causesSettled = true;
    for (int i = 0; i < refs.size(); i++) {
      Coordinate c = coordinates.get(i);
      if (part.bits[i] != LikelyWorlds.UNRESOLVED
          || !causesSettled && !(c instanceof Coordinate.Present)) {
        continue;
      }
      double p = probability(refs.get(i));
      if (c instanceof Coordinate.Hidden h && !isPresent(h.cause(), part.bits)) {
        part.bits[i] = 0;
        continue;
      }
      if (Math.abs(p - stated.getOrDefault(c, -1.0)) <= CERTAIN) {
        continue;
      }
      if (c instanceof Coordinate.Present || matters(c, part.bits)) {
        double uncertain = Math.min(p, 1 - p);
        if (uncertain <= CERTAIN) {
          part.bits[i] = (byte) (p > 0.5 ? 1 : 0);
        } else if (uncertain > best) {
          best = uncertain;
          split = i;
        }
      }
      if (c instanceof Coordinate.Present && split >= 0) {
        causesSettled = false;
      }
    }
    if (split < 0) {
      return List.of();
    }
    double p = probability(refs.get(split));
    return List.of(
        with(part.bits, split, 1, total * p), with(part.bits, split, 0, total * (1 - p)));
  }

  private static Part with(byte[] bits, int at, int bit, double p) {
    byte[] more = bits.clone();
    more[at] = (byte) bit;
    return new Part(more, p);
  }

  private double probability(Ref ref) {
    return ref instanceof Ref.At at
        ? evaluation.marginal(at.variable(), at.state())
        : ((Ref.Known) ref).value() ? 1 : 0;
  }

  private void settle(Ref ref, boolean value) {
    if (!(ref instanceof Ref.At at)) {
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

  /**
   * Whether a bit can matter where the given causes are settled: causes come before all else in the
   * coordinates.
   */
  private boolean matters(Coordinate c, byte[] bits) {
    if (c instanceof Coordinate.Hidden h) {
      return isPresent(h.cause(), bits);
    } else if (c instanceof Coordinate.Strength s) {
      return s.input() instanceof CauseId cause
          ? isPresent(cause, bits) || carriedByBad(cause, bits)
          : mayHold((EventId) s.input());
    }
    return true;
  }

  private boolean carriedByBad(CauseId cause, byte[] bits) {
    return pack.parts().values().stream()
        .anyMatch(p -> p.carries().contains(cause) && isPresent(p.bad(), bits));
  }

  private boolean isPresent(CauseId cause, byte[] bits) {
    int i = coordinates.indexOf(new Coordinate.Present(cause));
    return i >= 0 && bits[i] == 1;
  }

  private boolean mayHold(EventId event) {
    return events.get(event) instanceof Ref.At at
        ? evaluation.marginal(at.variable(), at.state()) > CERTAIN
        : events.get(event).equals(Ref.YES);
  }
}
