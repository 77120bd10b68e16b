package org.faultwright.oracle;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Function;
import org.faultwright.casefile.Told;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.ComplaintId;
import org.faultwright.pack.EventId;
import org.faultwright.pack.HistoryId;
import org.faultwright.pack.OutcomeId;
import org.faultwright.pack.Pack;
import org.faultwright.pack.PointId;
import org.faultwright.pack.StateId;
import org.faultwright.pack.StepId;

/**
 * Answers by adding up all worlds: every way in which the causes, the strengths, the luck of
 * repairs and all other bits of {@code engine/docs/semantics.md} can come out.
 *
 * <p>Cost grows exponentially with the bits that matter to what is asked; for small packs only.
 */
public final class WorldEnumerator implements Answers {

  /** How many worlds are looked at before giving up. */
  public static final long MOST_WORLDS = 200_000;

  private final Pack pack;
  private final Priors priors;
  private final Evidence evidence;
  private final List<SharedReadings> readings;
  private long mostWorlds = MOST_WORLDS;

  /**
   * An enumerator for a pack and what is known of a device.
   *
   * @param pOwn for each cause the probability that it is present by itself, history unknown; a
   *     cause that is missing is only caused by others
   * @param facts the standing facts, in order
   */
  public WorldEnumerator(
      Pack pack, Map<CauseId, Double> pOwn, List<Told> facts, ReadingLikelihood likelihood) {
    this.pack = pack;
    this.priors = new Priors(pack, pOwn);
    this.evidence = new Evidence(pack, facts);
    this.readings = SharedReadings.of(evidence, likelihood);
  }

  /**
   * An enumerator with what the pack states: priors, or shares that are solved by enumeration, and
   * readings by the reading model.
   *
   * @throws IllegalArgumentException when the shares cannot be reached
   */
  public static WorldEnumerator of(Pack pack, List<Told> facts) {
    Map<CauseId, Double> pOwn =
        ShareSolver.solve(pack)
            .orElseThrow(() -> new IllegalArgumentException("shares cannot be reached"));
    return new WorldEnumerator(pack, pOwn, facts, new ModelledReadings(pack));
  }

  /** The same with another limit to the number of worlds. */
  public WorldEnumerator withMostWorlds(long most) {
    WorldEnumerator other = new WorldEnumerator(this);
    other.mostWorlds = most;
    return other;
  }

  private WorldEnumerator(WorldEnumerator other) {
    this.pack = other.pack;
    this.priors = other.priors;
    this.evidence = other.evidence;
    this.readings = other.readings;
    this.mostWorlds = other.mostWorlds;
  }

  /**
   * P(evidence and answer), for each answer that a question can have in a world in which the
   * evidence is possible.
   *
   * @throws TooManyWorldsException when there are more worlds than allowed
   */
  public <T> Map<T, Double> joint(Function<World, T> question) {
    return EveryPath.sum(
        chances -> {
          World world = new World(pack, priors, evidence, readings, chances);
          double p = world.pEvidence();
          return new EveryPath.Outcome<>(p, p > 0 ? question.apply(world) : null);
        },
        mostWorlds);
  }

  /**
   * As {@link #joint}, with every bit of every world drawn before anything is asked: the plain
   * product, in which nothing is left out because it does not matter. For tiny packs.
   */
  <T> Map<T, Double> jointByPlainProduct(Function<World, T> question) {
    return EveryPath.sum(
        chances -> {
          new AllBits(pack, evidence, new World(pack, priors, evidence, readings, chances)).draw();
          Chances drawn = new AllBits.Drawn(chances);
          World world = new World(pack, priors, evidence, readings, drawn);
          double p = world.pEvidence();
          return new EveryPath.Outcome<>(p, p > 0 ? question.apply(world) : null);
        },
        mostWorlds);
  }

  @Override
  public double pEvidence() {
    return joint(world -> true).getOrDefault(true, 0.0);
  }

  @Override
  public boolean isImpossible() {
    return pEvidence() == 0;
  }

  /**
   * P(answer | evidence).
   *
   * @throws IllegalStateException when the evidence is impossible
   */
  public <T> Map<T, Double> given(Function<World, T> question) {
    Map<T, Double> joint = joint(question);
    double pEvidence = joint.values().stream().mapToDouble(p -> p).sum();
    if (pEvidence == 0) {
      throw new IllegalStateException("the evidence is impossible: P(evidence) = 0");
    }
    Map<T, Double> given = new LinkedHashMap<>();
    joint.forEach((answer, p) -> given.put(answer, p / pEvidence));
    return given;
  }

  private double pTrue(Function<World, Boolean> question) {
    return given(question).getOrDefault(true, 0.0);
  }

  @Override
  public double p(CauseId cause) {
    return pTrue(world -> world.isPresent(cause));
  }

  /** P(it happened | evidence). */
  public double p(HistoryId history) {
    return pTrue(world -> world.happened(history));
  }

  /** P(state of a point, if it is read now | evidence), for states that can be. */
  public Map<StateId, Double> states(PointId point) {
    return given(world -> world.state(point));
  }

  @Override
  public double p(EventId event) {
    return pTrue(world -> world.holdsAtRest(event));
  }

  /** P(function lost now, with the device at rest | evidence). */
  public double pLostAtRest(ComplaintId complaint) {
    return p(pack.complaints().get(complaint).event());
  }

  /** P(function lost now to the one who uses the device | evidence). */
  public double pLostInUse(ComplaintId complaint) {
    return pTrue(world -> world.isLostInUse(complaint));
  }

  /** P(function lost in use once nothing is hidden any longer | evidence). */
  public double pComesBack(ComplaintId complaint) {
    return pTrue(world -> world.comesBack(complaint));
  }

  @Override
  public Map<OutcomeId, Double> outcomes(StepId step) {
    return given(world -> world.nextOutcome(step));
  }

  /** P(exactly these causes are present now | evidence), for sets that can be. */
  public Map<Set<CauseId>, Double> sets() {
    return given(World::present);
  }
}
