package org.faultwright.planning;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.faultwright.compile.Coordinate;
import org.faultwright.compile.LikelyWorlds;
import org.faultwright.pack.Observation;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Point;
import org.faultwright.pack.PointId;
import org.faultwright.pack.Step;
import org.faultwright.pack.StepId;

/**
 * What a device would show and how attempts would change it, world by world: the pack, read
 * forwards. Immutable and thread-safe; costs some milliseconds to build, for the readings' sake.
 */
public final class DeviceModel {

  final FaultLogic logic;
  final List<Step> steps;
  private final Map<StepId, Integer> numbers = new LinkedHashMap<>();
  final Effects[] effects;
  private final List<Optional<Facet>> shows = new ArrayList<>();
  private final Map<PointId, double[][]> classified = new LinkedHashMap<>();
  private final List<Optional<Sight>> sights = new ArrayList<>();
  private final List<Set<StepId>> movedSteps = new ArrayList<>();
  private final List<Set<PointId>> movedPoints = new ArrayList<>();

  private DeviceModel(Pack pack) {
    logic = new FaultLogic(pack);
    steps = List.copyOf(pack.steps().values());
    effects = new Effects[steps.size()];
    for (Step step : steps) {
      effects[numbers.size()] = new Effects(logic, step);
      numbers.put(step.id(), numbers.size());
      Optional<Observation> observation = step.shows();
      shows.add(observation.map(o -> Facet.of(logic, step, o)));
      for (Point point : points(step)) {
        classified.put(point.id(), ReadingsFacet.classified(pack, step, point));
      }
      sights.add(sight(step, true, points(step), false));
    }
    steps.forEach(this::findMoved);
  }

  /** The model of a pack's devices. */
  public static DeviceModel of(Pack pack) {
    return new DeviceModel(pack);
  }

  /** The pack. */
  public Pack pack() {
    return logic.pack;
  }

  int number(StepId step) {
    return numbers.get(step);
  }

  static List<Point> points(Step step) {
    return step.pinTable().map(Step.PinTable::points).orElse(List.of());
  }

  /** The outcome to expect of a device in order; empty where a step shows no outcomes. */
  Optional<Seen> passes(Step step) {
    return shows.get(number(step.id())).map(f -> f.outcomes().get(f.pass()));
  }

  /** The steps whose standing outcome an attempt puts in question. */
  Set<StepId> movesOutcomes(int attempt) {
    return movedSteps.get(attempt);
  }

  /** The points whose standing reading an attempt puts in question. */
  Set<PointId> movesReadings(int attempt) {
    return movedPoints.get(attempt);
  }

  private void findMoved(Step attempt) {
    Set<StepId> movedOutcomes = new LinkedHashSet<>();
    Set<PointId> movedReadings = new LinkedHashSet<>();
    if (attempt.isAttempt()) {
      for (Step step : steps) {
        if (logic.lineage.moves(attempt, logic.lineage.ancestors(step))) {
          movedOutcomes.add(step.id());
        }
        for (Point point : points(step)) {
          if (logic.lineage.moves(attempt, logic.lineage.ancestors(point))) {
            movedReadings.add(point.id());
          }
        }
      }
    }
    movedSteps.add(movedOutcomes);
    movedPoints.add(movedReadings);
  }

  /** What a step shows where all its points are read; empty where it shows nothing. */
  Optional<Sight> sight(int step) {
    return sights.get(step);
  }

  /**
   * What a step shows; empty where it shows nothing.
   *
   * @param outcomes whether its outcomes are of interest
   * @param points the points that will be read
   * @param settlesBits whether bits that only this step looks at must be settled, because the step
   *     will be carried out again
   */
  Optional<Sight> sight(Step step, boolean outcomes, List<Point> points, boolean settlesBits) {
    List<Facet> facets = new ArrayList<>();
    shows.get(number(step.id())).filter(f -> outcomes).ifPresent(facets::add);
    if (!points.isEmpty()) {
      facets.add(new ReadingsFacet(logic, points, classified, settlesBits));
    }
    return facets.isEmpty() ? Optional.empty() : Optional.of(Sight.of(logic, step, facets));
  }

  /** The places of the coordinates of some worlds. */
  int[] places(List<Coordinate> coordinates) {
    return coordinates.stream().mapToInt(logic::placeOf).toArray();
  }

  /** A world as this model writes it. */
  byte[] world(int[] places, byte[] bits) {
    byte[] world = new byte[logic.worldSize()];
    Arrays.fill(world, 2 * logic.causeCount(), world.length, FaultLogic.UNKNOWN);
    for (int i = 0; i < places.length; i++) {
      if (places[i] >= 0) {
        world[places[i]] = bits[i];
      }
    }
    return world;
  }

  /**
   * P(finding | world) for each finding that a step may have, carried out now as if for the first
   * time. Readings are told apart coarsely; see {@link Seen}.
   *
   * @param world the place of the world among the likely ones
   * @throws IllegalArgumentException when the pack has no such step
   */
  public Map<Seen, Double> pFindings(LikelyWorlds worlds, int world, StepId step) {
    if (!numbers.containsKey(step)) {
      throw new IllegalArgumentException("step must be one of the pack: " + step);
    }
    Map<Seen, Double> p = new LinkedHashMap<>();
    Optional<Sight> sight = sight(number(step));
    if (sight.isEmpty()) {
      return p;
    }
    byte[] bits = world(places(worlds.coordinates()), worlds.bits()[world]);
    double[] sum = new double[sight.get().findings.size()];
    Leaves.of(
        logic,
        sight.get(),
        bits,
        (leaf, pLeaf, row) -> {
          for (int y = 0; y < sum.length; y++) {
            sum[y] += pLeaf * row[y];
          }
        });
    for (int y = 0; y < sum.length; y++) {
      p.put(sight.get().findings.get(y), sum[y]);
    }
    return p;
  }
}
