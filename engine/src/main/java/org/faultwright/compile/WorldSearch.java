package org.faultwright.compile;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.Comparator;
import java.util.Deque;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.PriorityQueue;
import java.util.Set;
import java.util.stream.IntStream;
import org.faultwright.inference.Evaluation;
import org.faultwright.inference.Mixture;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.Lineage;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Part;
import org.faultwright.pack.Step;

/**
 * Lists likely worlds. Sets of causes come first: with the evidence folded into the circuit and
 * exactly the causes of a set present, one evaluation gives the probability of every set with one
 * cause more, as a derivative. So sets are found in order of probability at the cost of one
 * evaluation for each set that is looked beyond. Then each set is split on the bits that the
 * evidence tells something about. What is left out is known, since the whole is P(evidence).
 */
final class WorldSearch {

  private static final double CERTAIN = 1e-12;

  /** Sets that may be looked beyond, as a multiple of the worlds that may be listed. */
  private static final int PATIENCE = 4;

  private final Evaluation evaluation;
  private final double scale;
  private final List<Coordinate> coordinates;
  private final Ref.At[] refs;
  private final int causes;

  /** The bits that the evidence can tell something about. */
  private final BitSet told = new BitSet();

  /** The probability that the pack states for an independent bit; -1 where there is none. */
  private final double[] stated;

  /** The causes one of which must be present for a bit to matter; null: it always may. */
  private final int[][] neededCauses;

  /**
   * For each cause the first that is present in the same worlds: one that surely follows another,
   * and has no other way to come about, is the same state of the same variable.
   */
  private final int[] sameAs;

  /** The weights that the evidence itself gives the states of each coordinate's variable. */
  private final double[][] given;

  private final List<byte[]> worlds = new ArrayList<>();
  private final List<Double> masses = new ArrayList<>();
  private double covered;

  /** Branches less likely than this are left out. */
  private double least;

  /**
   * Worlds that are not looked at yet.
   *
   * @param present the causes that are present, and no others
   * @param bits values of what has been settled besides; null: nothing has
   * @param mass their probability given the evidence
   * @param order of those equally likely the first comes first
   */
  private record Branch(BitSet present, byte[] bits, double mass, int order) {}

  private static final Comparator<Branch> LIKELIEST_FIRST =
      Comparator.comparingDouble((Branch b) -> -b.mass).thenComparingInt(Branch::order);

  private final PriorityQueue<Branch> open = new PriorityQueue<>(LIKELIEST_FIRST);
  private final Set<BitSet> known = new HashSet<>();
  private int found;

  /**
   * Prepares a search.
   *
   * @param believed the evaluation with all evidence, after its upward pass
   * @param told the bits that the evidence can tell something about
   * @param afterAttempt whether something has been changed since the evidence began
   */
  WorldSearch(
      Pack pack,
      Lineage lineage,
      Network network,
      Mixture believed,
      Set<Coordinate> told,
      boolean afterAttempt) {
    coordinates = List.copyOf(network.coordinates.keySet());
    int n = coordinates.size();
    refs = new Ref.At[n];
    stated = new double[n];
    neededCauses = new int[n][];
    sameAs = new int[n];
    Map<CauseId, Integer> place = new LinkedHashMap<>();
    for (int i = 0; i < n; i++) {
      Coordinate c = coordinates.get(i);
      refs[i] = network.coordinates.get(c) instanceof Ref.At at ? at : null;
      stated[i] = network.stated.getOrDefault(c, -1.0);
      if (c instanceof Coordinate.Present present) {
        sameAs[i] = firstLike(i);
        place.put(present.cause(), sameAs[i]);
      } else if (c instanceof Coordinate.Hidden hidden) {
        neededCauses[i] = new int[] {place.get(hidden.cause())};
        this.told.set(i);
      } else {
        if (c instanceof Coordinate.Strength s && s.input() instanceof CauseId cause) {
          neededCauses[i] =
              afterAttempt && comesBack(pack, lineage, cause) ? null : standIns(pack, cause, place);
        }
        boolean follows =
            c instanceof Coordinate.Strength s && s.owner() instanceof Coordinate.Owner.OfFollower;
        this.told.set(i, follows || told.contains(c));
      }
    }
    causes = place.size();
    int[] kept =
        IntStream.range(0, n)
            .filter(this::isWeighed)
            .map(i -> refs[i].variable())
            .distinct()
            .toArray();
    evaluation = believed.given(kept).evaluation();
    given = new double[n][];
    for (int i = 0; i < n; i++) {
      if (isWeighed(i)) {
        given[i] = new double[evaluation.states(refs[i].variable())];
        for (int s = 0; s < given[i].length; s++) {
          given[i][s] = evaluation.weight(refs[i].variable(), s);
        }
      }
    }
    // the residue's own P(evidence): what concerns no variable is not in it
    scale = evaluation.upward();
  }

  /** Whether a coordinate is given values here. */
  private boolean isWeighed(int i) {
    return refs[i] != null && (i < causes || told.get(i));
  }

  /**
   * Whether an input that is absent now may have acted before an attempt, so that the evidence
   * tells something about its strength, and may act again after another.
   */
  private static boolean comesBack(Pack pack, Lineage lineage, CauseId cause) {
    for (Step step : pack.steps().values()) {
      Set<CauseId> harmed = lineage.harms(step).keySet();
      if (harmed.contains(cause)
          || lineage.carriers(cause).stream().map(Part::bad).anyMatch(harmed::contains)) {
        return true;
      }
    }
    return !pack.causes().get(cause).follows().isEmpty();
  }

  /** Places of a cause and of the bad new parts that stand in for it. */
  private static int[] standIns(Pack pack, CauseId cause, Map<CauseId, Integer> place) {
    List<Integer> found = new ArrayList<>();
    if (place.containsKey(cause)) {
      found.add(place.get(cause));
    }
    for (Part part : pack.parts().values()) {
      if (part.carries().contains(cause) && place.containsKey(part.bad())) {
        found.add(place.get(part.bad()));
      }
    }
    return found.stream().mapToInt(Integer::intValue).toArray();
  }

  LikelyWorlds find(double pLeftOut, int most) {
    least = 1e-4 * pLeftOut / (PATIENCE * most);
    Deque<BitSet> notLookedBeyond = new ArrayDeque<>();
    BitSet first = certainlyPresent();
    known.add(first);
    add(first, null, Double.POSITIVE_INFINITY);
    int looked = 0;
    while (worlds.isEmpty()
        || 1 - covered > pLeftOut && worlds.size() < most && looked < PATIENCE * most) {
      Branch branch = open.poll();
      if (branch == null) {
        BitSet again = notLookedBeyond.poll();
        if (again == null) {
          break;
        }
        looked++;
        settle(again);
        widen(again);
        continue;
      }
      boolean isWhole = branch.bits == null;
      boolean lookBeyond = isWhole && branch.mass > pLeftOut;
      if (isWhole && !lookBeyond) {
        notLookedBeyond.add(branch.present);
      }
      byte[] bits = isWhole ? bits(branch.present) : branch.bits;
      if (!lookBeyond && !hasOpenBits(bits, branch.present)) {
        list(bits, branch.mass);
        continue;
      }
      looked++;
      double mass = isWhole ? settle(branch.present) : settle(branch.present, bits);
      if (lookBeyond) {
        widen(branch.present);
      }
      if (mass > 0) {
        split(branch.present, bits, mass);
      }
    }
    return result();
  }

  private void add(BitSet present, byte[] bits, double mass) {
    open.add(new Branch(present, bits, mass, found++));
  }

  private LikelyWorlds result() {
    Integer[] order = new Integer[worlds.size()];
    Arrays.setAll(order, i -> i);
    Arrays.sort(order, Comparator.comparingDouble(i -> -masses.get(i)));
    double[] p = new double[order.length];
    byte[][] bits = new byte[order.length][];
    double sum = masses.stream().mapToDouble(Double::doubleValue).sum();
    for (int w = 0; w < p.length; w++) {
      p[w] = masses.get(order[w]) / Math.max(1, sum);
      bits[w] = worlds.get(order[w]);
    }
    return new LikelyWorlds(coordinates, bits, p, Math.max(0, 1 - sum));
  }

  private void list(byte[] bits, double mass) {
    if (!(mass > 0)) {
      return;
    }
    worlds.add(bits);
    masses.add(mass);
    covered += mass;
  }

  private BitSet certainlyPresent() {
    BitSet present = new BitSet();
    for (int i = 0; i < causes; i++) {
      present.set(i, refs[i] == null);
    }
    return present;
  }

  /** The first coordinate that is the same state of the same variable. */
  private int firstLike(int i) {
    int first = 0;
    while (first < i && (refs[i] == null || !refs[i].equals(refs[first]))) {
      first++;
    }
    return first;
  }

  private byte[] bits(BitSet present) {
    byte[] bits = new byte[refs.length];
    Arrays.fill(bits, causes, bits.length, LikelyWorlds.UNRESOLVED);
    for (int i = 0; i < causes; i++) {
      bits[i] = (byte) (present.get(sameAs[i]) ? 1 : 0);
    }
    for (int i = causes; i < bits.length; i++) {
      if (coordinates.get(i) instanceof Coordinate.Hidden && !present.get(neededCauses[i][0])) {
        bits[i] = 0;
      }
    }
    return bits;
  }

  /**
   * Sets exactly these causes present, evaluates, and returns the probability of the set given the
   * evidence.
   */
  private double settle(BitSet present) {
    setCauses(present);
    for (int i = told.nextSetBit(0); i >= 0; i = told.nextSetBit(i + 1)) {
      free(i);
    }
    return evaluate();
  }

  private void setCauses(BitSet present) {
    for (int i = 0; i < causes; i++) {
      if (refs[i] != null) {
        free(i);
      }
    }
    for (int i = 0; i < causes; i++) {
      if (refs[i] != null && !present.get(i)) {
        evaluation.setWeight(refs[i].variable(), refs[i].state(), 0);
      }
    }
    for (int i = present.nextSetBit(0); i >= 0; i = present.nextSetBit(i + 1)) {
      fix(i, true);
    }
  }

  private double evaluate() {
    double logP = evaluation.upward();
    evaluation.downwardEvenIfImpossible();
    return Math.exp(logP - scale);
  }

  private void free(int i) {
    for (int s = 0; s < given[i].length; s++) {
      evaluation.setWeight(refs[i].variable(), s, given[i][s]);
    }
  }

  private void fix(int i, boolean value) {
    if (refs[i] == null) {
      return;
    }
    for (int s = 0; s < given[i].length; s++) {
      evaluation.setWeight(
          refs[i].variable(), s, (s == refs[i].state()) == value ? given[i][s] : 0);
    }
  }

  /**
   * All sets with one cause more, with their probabilities, from the derivatives where the set is
   * settled.
   */
  private void widen(BitSet present) {
    for (int i = 0; i < causes; i++) {
      if (present.get(i) || sameAs[i] != i || shareVariable(i, present)) {
        continue;
      }
      BitSet more = (BitSet) present.clone();
      more.set(i);
      if (known.add(more)) {
        double logMass = evaluation.logDerivative(refs[i].variable(), refs[i].state());
        add(more, null, given[i][refs[i].state()] * Math.exp(logMass - scale));
      }
    }
  }

  private boolean shareVariable(int i, BitSet present) {
    for (int j = present.nextSetBit(0); j >= 0; j = present.nextSetBit(j + 1)) {
      if (refs[j] != null && refs[j].variable() == refs[i].variable()) {
        return true;
      }
    }
    return false;
  }

  /** Whether the evidence may tell something about a bit that is not settled. */
  private boolean hasOpenBits(byte[] bits, BitSet present) {
    for (int i = told.nextSetBit(0); i >= 0; i = told.nextSetBit(i + 1)) {
      if (bits[i] == LikelyWorlds.UNRESOLVED && matters(i, present)) {
        return true;
      }
    }
    return false;
  }

  private boolean matters(int i, BitSet present) {
    if (neededCauses[i] == null) {
      return true;
    }
    for (int c : neededCauses[i]) {
      if (present.get(c)) {
        return true;
      }
    }
    return false;
  }

  /** As {@link #settle(BitSet)}, with the bits that are resolved given their values. */
  private double settle(BitSet present, byte[] bits) {
    setCauses(present);
    for (int i = told.nextSetBit(0); i >= 0; i = told.nextSetBit(i + 1)) {
      if (bits[i] == LikelyWorlds.UNRESOLVED || !matters(i, present)) {
        free(i);
      } else {
        fix(i, bits[i] == 1);
      }
    }
    return evaluate();
  }

  /** Splits what is settled on its most uncertain bit; lists it where nothing is uncertain. */
  private void split(BitSet present, byte[] bits, double mass) {
    int split = -1;
    double best = CERTAIN;
    double pOfOne = 0;
    double kept = mass;
    for (int i = told.nextSetBit(0); i >= 0; i = told.nextSetBit(i + 1)) {
      if (bits[i] != LikelyWorlds.UNRESOLVED || !matters(i, present)) {
        continue;
      }
      double p = evaluation.marginal(refs[i].variable(), refs[i].state());
      double uncertain = Math.min(p, 1 - p);
      if (Math.abs(p - stated[i]) <= CERTAIN) {
        continue;
      } else if (uncertain <= CERTAIN) {
        bits[i] = (byte) (p > 0.5 ? 1 : 0);
      } else if (uncertain * mass <= least) {
        // a table of forty pins tells a little of sixty bits: their unlikely values stay left out
        bits[i] = (byte) (p > 0.5 ? 1 : 0);
        kept *= 1 - uncertain;
      } else if (uncertain > best) {
        best = uncertain;
        pOfOne = p;
        split = i;
      }
    }
    if (split < 0) {
      list(bits, kept);
      return;
    }
    for (int value = 1; value >= 0; value--) {
      byte[] more = bits.clone();
      more[split] = (byte) value;
      add(present, more, kept * (value == 1 ? pOfOne : 1 - pOfOne));
    }
  }
}
