package org.faultwright.planning;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.IntStream;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.ComplaintId;
import org.faultwright.pack.EventId;
import org.faultwright.pack.NodeId;
import org.faultwright.pack.Observation;
import org.faultwright.pack.Part;
import org.faultwright.pack.Point;
import org.faultwright.pack.PointId;
import org.faultwright.pack.Step;

/**
 * A device model as seen by a case with certain functions lost: which part of a world still matters
 * to getting them back, the function tests that tell, and what steps show in each world met so far.
 *
 * <p>What is worked out is kept, so that the next look at nearly the same worlds is cheap. Not
 * thread-safe.
 */
final class CaseModel {

  /** More worlds than this are not kept. */
  private static final int MOST_KEPT = 20_000;

  /** Searches that are kept. */
  private static final int SEARCHES_KEPT = 64;

  final DeviceModel device;
  final FaultLogic logic;
  final List<ComplaintId> lost;

  /** The events of the lost functions, as nodes. */
  final int[] lostNodes;

  /** The repairs that bear on the lost functions, by step number, in the pack's order. */
  final int[] repairs;

  /** All that is known of carrying them out. */
  final RepairTree tree;

  /** The function tests that may be used. */
  final List<Proof> proofs = new ArrayList<>();

  /** For each place of a world whether it matters to the lost functions or to their tests. */
  private final boolean[] matters;

  private final boolean[] bearsOnLost;

  /** Causes that may be there after some attempt though they are absent before. */
  private final boolean[] mayAppear;

  /** Bits that matter, each with the node of its input; -1: it always may matter. */
  private final Map<Integer, Integer> inputOfBit = new LinkedHashMap<>();

  private final Look look;
  private final double[] always;
  private final Map<Bits, Integer> futures = new HashMap<>();
  private final List<byte[]> futureWorlds = new ArrayList<>();
  private final Map<Long, RepairTable.Spread> afterSteps = new HashMap<>();
  private final Map<SightKey, Optional<Sight>> sights = new HashMap<>();
  private final Map<SearchKey, RepairSearch> searches = Planner.kept(SEARCHES_KEPT);
  private final Map<Bits, Showing> showings = new HashMap<>();

  /**
   * A function test.
   *
   * @param step the step, by number; -1: the shop's own proof
   * @param complaint the lost function that it proves, by its place; -1: a step that is repeated
   *     after a repair without proving any
   */
  record Proof(int step, int complaint, Sight sight) {}

  private record SearchKey(Costs costs, List<Integer> repairs) {}

  private record SightKey(int step, boolean outcomes, List<PointId> points) {}

  /** What steps show in one world. */
  final class Showing {
    final byte[] world;

    /** What of the world matters to the lost functions. */
    final int future;

    /** The causes that are present. */
    final int[] present;

    private final Map<Sight, Prospect> prospects = new HashMap<>();
    private final Map<Looks, Prospect> prospectsOfTwo = new HashMap<>();

    Showing(byte[] world) {
      this.world = world;
      this.future = future(world);
      int[] found = new int[logic.causeCount()];
      int n = 0;
      for (int c = 0; c < found.length; c++) {
        if (world[c] == 1) {
          found[n++] = c;
        }
      }
      present = Arrays.copyOf(found, n);
    }

    Prospect prospect(Sight sight) {
      Prospect known = prospects.get(sight);
      if (known == null) {
        known = prospectOf(sight, world);
        prospects.put(sight, known);
      }
      return known;
    }

    /** What may come out of two looks: the findings of the first, with each those of the other. */
    Prospect prospect(Sight first, Sight then) {
      Looks both = new Looks(first, then);
      Prospect known = prospectsOfTwo.get(both);
      if (known == null) {
        known = prospectOf(first, then, world);
        prospectsOfTwo.put(both, known);
      }
      return known;
    }
  }

  private record Looks(Sight first, Sight then) {}

  /**
   * What may come out of a look at a world.
   *
   * @param futures what matters afterwards, where it matters what the look has resolved
   * @param p for each future and each finding, P(both | world)
   */
  record Prospect(int[] futures, double[][] p) {}

  CaseModel(DeviceModel device, List<ComplaintId> lost, Shop.Proof shopProof) {
    this.device = device;
    this.logic = device.logic;
    this.lost = lost;
    this.look = new Look(logic);
    List<EventId> events = lost.stream().map(c -> logic.pack.complaints().get(c).event()).toList();
    lostNodes = logic.numbersOf(events);
    bearsOnLost = new boolean[logic.causeCount()];
    for (int c : logic.numbersOf(logic.lineage.ancestors(events))) {
      bearsOnLost[c] = true;
    }
    repairs = IntStream.range(0, device.steps.size()).filter(this::isRepair).toArray();
    Set<NodeId> roots = new LinkedHashSet<>(events);
    Set<Integer> repeated = new LinkedHashSet<>();
    for (Step step : device.steps) {
      // what is repeated after other repairs would only multiply the states that are told apart
      if (isRepair(device.number(step.id()))) {
        step.thenRepeat().ifPresent(s -> repeated.add(device.number(s)));
      }
      if (step.proves().isPresent() && lost.contains(step.proves().get())) {
        repeated.add(device.number(step.id()));
      }
    }
    for (int s : repeated) {
      Step step = device.steps.get(s);
      int complaint = step.proves().map(lost::indexOf).orElse(-1);
      Optional<Sight> sight = device.sight(step, true, DeviceModel.points(step), true);
      if (sight.isPresent()) {
        proofs.add(new Proof(s, complaint, sight.get()));
        roots.addAll(FaultLogic.looksAt(step));
      }
    }
    for (int c = 0; c < lost.size(); c++) {
      proofs.add(new Proof(-1, c, Sight.of(logic, events.get(c), shopProof)));
    }
    always = new double[logic.causeCount()];
    Arrays.fill(always, 1);
    mayAppear = new boolean[logic.causeCount()];
    for (Effects e : device.effects) {
      e.mayCause().forEach(c -> mayAppear[c] = true);
    }
    for (int c = 0; c < mayAppear.length; c++) {
      mayAppear[c] |= logic.follows[c].nodes().length > 0;
    }
    matters = matters(roots);
    tree = new RepairTree(new RepairTable(this));
  }

  private boolean isRepair(int s) {
    Step step = device.steps.get(s);
    return step.proves().isEmpty()
        && (!step.changes().isEmpty() || step.swap().isPresent())
        && Arrays.stream(device.effects[s].touched).anyMatch(c -> bearsOnLost[c]);
  }

  private boolean[] matters(Set<NodeId> roots) {
    boolean[] found = new boolean[logic.worldSize()];
    Set<Integer> nodes = new LinkedHashSet<>();
    roots.forEach(r -> addBelow(logic.number(r), nodes));
    Set<CauseId> causes = new LinkedHashSet<>(logic.lineage.ancestors(roots));
    for (CauseId c : Set.copyOf(causes)) {
      logic.lineage.carriers(c).stream().map(Part::bad).forEach(causes::add);
    }
    for (int c : logic.numbersOf(causes)) {
      found[c] = true;
      found[logic.hiddenPlace(c)] = true;
      addBits(logic.follows[c], found);
    }
    for (int node : nodes) {
      if (node >= logic.causeCount()) {
        addBits(logic.inputs[node - logic.causeCount()], found);
        int otherwise = logic.otherwise[node - logic.causeCount()];
        if (otherwise >= 0) {
          found[otherwise] = true;
        }
      }
    }
    for (Proof proof : proofs) {
      if (proof.step >= 0) {
        Step step = device.steps.get(proof.step);
        step.shows()
            .filter(o -> o instanceof Observation.OfStates)
            .map(o -> (Observation.OfStates) o)
            .ifPresent(o -> o.states().forEach(s -> addBits(logic.triggersOf(step, s), found)));
        for (Point point : DeviceModel.points(step)) {
          point.states().forEach(s -> addBits(logic.triggersOf(point, s), found));
        }
      }
    }
    return found;
  }

  private void addBelow(int node, Set<Integer> nodes) {
    if (nodes.add(node) && node >= logic.causeCount()) {
      for (int input : logic.inputs[node - logic.causeCount()].nodes()) {
        addBelow(input, nodes);
      }
    }
  }

  private void addBits(FaultLogic.Inputs inputs, boolean[] found) {
    for (int i = 0; i < inputs.bits().length; i++) {
      if (inputs.bits()[i] >= 0) {
        found[inputs.bits()[i]] = true;
        inputOfBit.put(inputs.bits()[i], inputs.nodes()[i]);
      }
    }
  }

  // Futures: worlds of which only what matters to the lost functions is kept.

  /** The number of what matters in a world. The world is not kept. */
  int future(byte[] world) {
    byte[] kept = future(world.clone(), look);
    Bits key = new Bits(kept);
    Integer known = futures.get(key);
    if (known == null) {
      known = futureWorlds.size();
      futures.put(key, known);
      futureWorlds.add(kept);
    }
    return known;
  }

  byte[] futureWorld(int future) {
    return futureWorlds.get(future);
  }

  /** Where a step that is no repair leads, for the harm that it may do. */
  RepairTable.Spread after(int step, int future) {
    long key = (long) step << 32 | future;
    RepairTable.Spread found = afterSteps.get(key);
    if (found == null) {
      Map<Integer, Double> sum = new LinkedHashMap<>();
      device.effects[step].spread(
          futureWorld(future), (world, p) -> sum.merge(future(world), p, Double::sum));
      found = RepairTable.Spread.of(sum);
      afterSteps.put(key, found);
    }
    return found;
  }

  /**
   * Forgets in place what does not matter: causes and bits that bear on other functions only, and
   * bits of inputs that can never act again, of which it then holds what the pack states.
   */
  private byte[] future(byte[] world, Look scratch) {
    for (int i = 0; i < world.length; i++) {
      if (!matters[i]) {
        world[i] = logic.isBit(i) ? FaultLogic.UNKNOWN : 0;
      }
    }
    byte[] haze = world.clone();
    for (int c = 0; c < logic.causeCount(); c++) {
      haze[c] = world[c] == 1 || mayAppear[c] && matters[c] ? FaultLogic.UNKNOWN : 0;
      haze[logic.hiddenPlace(c)] = 0;
    }
    scratch.at(haze, always, false);
    for (Map.Entry<Integer, Integer> bit : inputOfBit.entrySet()) {
      if (world[bit.getKey()] != FaultLogic.UNKNOWN && scratch.inputValue(bit.getValue()) == 0) {
        world[bit.getKey()] = FaultLogic.UNKNOWN;
      }
    }
    return world;
  }

  // What steps show.

  /** Whether a cause can move a lost function. */
  boolean bearsOnLost(int cause) {
    return bearsOnLost[cause];
  }

  /**
   * What a step shows; empty where nothing is left to look at.
   *
   * @param outcomes whether its outcomes are of interest
   * @param points the points that will be read
   */
  Optional<Sight> sight(int step, boolean outcomes, List<Point> points) {
    return sights.computeIfAbsent(
        new SightKey(step, outcomes, points.stream().map(Point::id).toList()),
        k -> {
          boolean isProof = proofs.stream().anyMatch(p -> p.step == step);
          return device.sight(device.steps.get(step), outcomes, points, isProof);
        });
  }

  /** A search among some repairs, by step number. */
  RepairSearch search(Costs costs, List<Integer> among) {
    return searches.computeIfAbsent(
        new SearchKey(costs, among),
        k ->
            new RepairSearch(
                tree,
                costs,
                among.stream().mapToInt(s -> Arrays.binarySearch(repairs, s)).toArray()));
  }

  /** What steps show in a world. The world is not kept where it is known already. */
  Showing showing(byte[] world) {
    Bits key = new Bits(world);
    Showing known = showings.get(key);
    if (known == null) {
      known = new Showing(world);
      showings.put(key, known);
    }
    return known;
  }

  /** Whether so much has been kept that a fresh model serves better. */
  boolean isFull() {
    return showings.size() > MOST_KEPT || futureWorlds.size() > MOST_KEPT || tree.isFull();
  }

  private Prospect prospectOf(Sight sight, byte[] world) {
    Map<Integer, double[]> found = new LinkedHashMap<>();
    byte[] copy = world.clone();
    Look own = new Look(logic);
    Leaves.of(
        own,
        sight,
        copy,
        (leaf, p, row) -> {
          double[] sum = found.computeIfAbsent(future(leaf), f -> new double[row.length]);
          for (int y = 0; y < row.length; y++) {
            sum[y] += p * row[y];
          }
        });
    return prospect(found);
  }

  /**
   * What is drawn once per case is drawn in the first look for both; what comes and goes is not.
   */
  private Prospect prospectOf(Sight first, Sight then, byte[] world) {
    Map<Integer, double[]> found = new LinkedHashMap<>();
    int n = then.findings.size();
    Leaves.of(
        logic,
        first,
        world.clone(),
        (leaf, p, row) ->
            Leaves.of(
                logic,
                then,
                leaf.clone(),
                (last, q, next) -> {
                  double[] sum =
                      found.computeIfAbsent(future(last), f -> new double[row.length * n]);
                  for (int y = 0; y < row.length; y++) {
                    for (int z = 0; z < n; z++) {
                      sum[y * n + z] += p * q * row[y] * next[z];
                    }
                  }
                }));
    return prospect(found);
  }

  private static Prospect prospect(Map<Integer, double[]> found) {
    int[] futures = found.keySet().stream().mapToInt(Integer::intValue).toArray();
    return new Prospect(futures, found.values().toArray(double[][]::new));
  }
}
