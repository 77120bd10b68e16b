package org.faultwright.planning;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.IntStream;
import org.faultwright.casefile.Intake;
import org.faultwright.casefile.Situation;
import org.faultwright.compile.LikelyWorlds;
import org.faultwright.pack.StepId;
import org.faultwright.planning.Assessment.Ecr0;
import org.faultwright.planning.CaseModel.Showing;
import org.faultwright.planning.PlanPlace.Option;

/**
 * V*, from both sides: for each place that a plan may come to, the cost of a policy that is known
 * and a floor that no policy is below. A trial goes down from the first place, each time by the
 * step whose floor is lowest and then to the finding that leaves most open, until a place is new;
 * there steps and findings are worked out, and on the way back both costs of each place are brought
 * up to date. What cannot be better than what is known is not looked at. The search ends when
 * nothing is open within the steps that may be looked ahead, or when time or room is up, and what
 * it knows then holds: both costs are right at any time.
 *
 * <p>Places are kept by belief and scene, so that steps in different orders meet. The policy that
 * is known at a new place is ECR0; its floor is {@link PlanFloor}. Of steps that cost the same the
 * one found first stays, and of those found together the first in the pack; a step is looked at
 * only where its floor is below what is known.
 *
 * @see "H. B. McMahan, M. Likhachev, G. J. Gordon, Bounded real-time dynamic programming, ICML
 *     2005, 569-576"
 */
final class PlanSearch {

  /** Numbers that may be kept: some 200 MB with all that goes with them. */
  private static final long MOST_KEPT = 25_000_000;

  /** Numbers that a place and its scene are counted for. */
  private static final int PLACE = 90;

  /** Worlds in which tests are weighed, at most: what comes out is worked out in all of them. */
  private static final int WEIGHED = 100;

  /** A trial ends where so small a part of what is open could be settled. */
  private static final double PART = 0.02;

  /** What is left of a sequence is not worked out where so little is left: it is a difference. */
  private static final double LIKELY_ENOUGH = 1e-6;

  private final Planner planner;
  private final DeviceModel device;
  private final PlanScenes scenes;
  private final PlanFloor floor;
  private final PlanDoubt doubt;
  private final PlanPlace first;
  private final Map<Key, PlanPlace> places = new HashMap<>();
  private final Set<Integer> inPlan;
  private long kept;
  private long deadline = Long.MAX_VALUE;
  private int search;
  private long trials;
  private int ahead;

  private record Key(PlanBelief belief, PlanScene scene) {
    @Override
    public boolean equals(Object other) {
      return other instanceof Key k && scene == k.scene && belief.equals(k.belief);
    }

    @Override
    public int hashCode() {
      return 31 * belief.hashCode() + System.identityHashCode(scene);
    }
  }

  /**
   * A search.
   *
   * @param negligible probability that may be left out at each place
   * @param until when to stop preparing, by {@link System#nanoTime}
   */
  PlanSearch(
      Planner planner,
      Intake intake,
      Permissions permissions,
      LikelyWorlds likely,
      Situation now,
      double negligible,
      long until) {
    this.planner = planner;
    this.device = planner.device();
    scenes = new PlanScenes(planner, intake, permissions, negligible);
    PlanScene scene = scenes.at(now);
    PlanBelief belief = belief(likely);
    Assessment asIs = scenes.assessment(scene, scenes.showings(scene.model, belief), belief.p);
    scenes.inPlan = List.copyOf(new TreeSet<>(asIs.relevantRepairs()));
    Costs least = planner.leastCosts(intake);
    floor = new PlanFloor(device, least, scenes, permissions, scene);
    doubt = new PlanDoubt(floor, scenes.worlds, device, least, tests(permissions), until);
    inPlan = Set.copyOf(scenes.inPlan);
    first = scene.nothingLost ? over(scene, belief, 0) : place(belief, scene, 0);
    withoutTests(first);
  }

  /** The steps that show something and repair nothing, and may be done at some time. */
  private int[] tests(Permissions permissions) {
    return IntStream.range(0, device.steps.size())
        .filter(s -> device.sight(s).isPresent())
        .filter(s -> permissions.steps().containsKey(device.steps.get(s).id()))
        .filter(s -> device.steps.get(s).changes().isEmpty())
        .filter(s -> device.steps.get(s).swap().isEmpty())
        .toArray();
  }

  private PlanBelief belief(LikelyWorlds likely) {
    int[] at = device.places(likely.coordinates());
    Map<Integer, Double> sum = new LinkedHashMap<>();
    for (int w = 0; w < likely.size(); w++) {
      int world = scenes.worlds.number(device.world(at, likely.bits()[w]));
      sum.merge(world, likely.p()[w], Double::sum);
    }
    int[] worlds = sum.keySet().stream().mapToInt(Integer::intValue).sorted().toArray();
    double[] p = Arrays.stream(worlds).mapToDouble(sum::get).toArray();
    return new PlanBelief(scenes.worlds.set(worlds), p, Arrays.stream(p).sum(), 0, 0);
  }

  /** Where the plan begins. */
  PlanPlace first() {
    return first;
  }

  /** Whether so much is kept that nothing more is looked at. */
  boolean isFull() {
    return kept + scenes.worlds.kept() > MOST_KEPT;
  }

  // The search.

  /**
   * Looks ahead from a place until nothing is open, or time or room is up.
   *
   * @param mostAhead steps, at most
   * @param until when to stop, by {@link System#nanoTime}
   * @return whether nothing was left open
   */
  boolean lookAhead(PlanPlace from, int mostAhead, long until) {
    deadline = until;
    search++;
    long depth = (long) from.depth + mostAhead;
    while (!isFinished(from, depth) && !isFull()) {
      if (!goOn()) {
        return false;
      }
      trial(from, depth);
    }
    return isFinished(from, depth);
  }

  private boolean goOn() {
    return deadline == Long.MAX_VALUE || System.nanoTime() < deadline;
  }

  private boolean isFinished(PlanPlace place, long depth) {
    return place.finishedIn == search || place.isExact() || place.depth >= depth;
  }

  private void trial(PlanPlace from, long depth) {
    List<PlanPlace> way = new ArrayList<>();
    PlanPlace at = from;
    double p = 1;
    boolean isNew = false;
    boolean isRound = false;
    trials++;
    while (at != null) {
      if (at.lastTrial == trials) {
        isRound = true;
        break;
      }
      way.add(at);
      at.lastTrial = trials;
      if (!at.isExact()) {
        isNew |= !at.isOpen;
        withoutTests(at);
        open(at);
      }
      int o = at.isExact() ? -1 : next(at, depth);
      if (o < 0) {
        at.finishedIn = search;
        break;
      }
      Option next = at.options[o];
      if (next == null) {
        isNew = true;
        next = follow(at, o, p, from.gap());
        at.update();
        if (!goOn() || isFull()) {
          break;
        }
      }
      int y = mostOpen(next, depth);
      if (y < 0) {
        break;
      }
      p *= next.p[y];
      at = next.then[y];
      if (isNew && p * at.gap() < PART * from.gap()) {
        break;
      }
    }
    double before = sumOfFloors(way);
    for (int i = way.size() - 1; i >= 0; i--) {
      update(way.get(i));
    }
    if (isRound && !isNew && sumOfFloors(way) <= before) {
      // steps that lead back to where they began, for nothing, would be gone through for ever
      way.get(way.size() - 1).finishedIn = search;
    }
  }

  private static double sumOfFloors(List<PlanPlace> way) {
    double sum = 0;
    for (PlanPlace place : way) {
      sum += place.atLeast;
    }
    return sum;
  }

  /** The open step with the lowest floor, by its place; -1 where none is open. */
  private int next(PlanPlace at, long depth) {
    int best = -1;
    double least = at.cost - PlanPlace.ROUNDING * Math.max(1, Math.abs(at.cost));
    for (int o = 0; o < at.floors.length; o++) {
      if (at.floors[o] < least && (at.options[o] == null || mostOpen(at.options[o], depth) >= 0)) {
        best = o;
        least = at.floors[o];
      }
    }
    return best;
  }

  /** The finding that leaves most open; -1 where nothing is. */
  private int mostOpen(Option o, long depth) {
    int most = -1;
    double open = 0;
    for (int y = 0; y < o.then.length; y++) {
      if (o.then[y] != null && !isFinished(o.then[y], depth)) {
        double here = o.p[y] * o.then[y].gap();
        if (most < 0 || here > open) {
          most = y;
          open = here;
        }
      }
    }
    return most;
  }

  // Places.

  private PlanPlace place(PlanBelief belief, PlanScene scene, int depth) {
    Key key = new Key(belief, scene);
    PlanPlace known = places.get(key);
    if (known == null) {
      known = new PlanPlace(belief, scene, depth);
      ahead = Math.max(ahead, depth);
      value(known);
      places.put(key, known);
      kept += PLACE + belief.p.length;
    }
    return known;
  }

  /** A place where the job is over. */
  private static PlanPlace over(PlanScene before, int bench, double pLost, int depth) {
    PlanPlace place = new PlanPlace(null, null, depth);
    place.cost = before.costs.close(bench) + pLost * before.costs.comeback;
    place.atLeast = place.cost;
    place.choice = new PlanPlace.HandOver(before, bench, pLost);
    return place;
  }

  /** What is known of a place without looking ahead. */
  private void value(PlanPlace place) {
    PlanScene scene = place.scene;
    place.cost = scene.exit();
    place.choice = new PlanPlace.Leave();
    place.end = place.cost;
    if (scene.floor == null) {
      scene.floor = floor.of(scene, scene.bench);
      scene.floorAnywhere = floor.of(scene, PlanFloor.ANYWHERE);
      scene.doubt = doubt.table(scene.model, floor.done(scene.now), place.belief);
    }
    double least = scene.floor.mean(place.belief);
    if (scene.doubt != null) {
      double doubted = scene.doubt.of(place.belief);
      least = Math.max(least, scene.floorAnywhere.mean(place.belief) + doubted);
    }
    place.atLeast = Math.min(place.cost, least);
  }

  /** ECR0, where it is not known yet. */
  private void withoutTests(PlanPlace place) {
    if (place.isExact()
        || place.hasSequence
        || !goOn()
        || place.scene.proved() != place.scene.model) {
      return;
    }
    place.hasSequence = true;
    Ecr0 ecr0 = place.scene.ecr0(place.belief);
    if (ecr0.steps().length > 0) {
      place.offer(ecr0.cost(), new PlanPlace.Sequence(ecr0.steps()));
    }
  }

  /** Lists what may be done, each with what it costs itself as a floor. */
  private static void list(PlanPlace place) {
    if (place.steps == null) {
      PlanScene.Step[] steps = place.scene.steps();
      place.steps = steps;
      place.floors = Arrays.stream(steps).mapToDouble(PlanScene.Step::cost).toArray();
      place.options = new Option[steps.length];
    }
  }

  /** Lists what may be done, each with a floor of what follows, too. */
  private void open(PlanPlace place) {
    if (place.isOpen) {
      return;
    }
    list(place);
    place.isOpen = true;
    for (int o = 0; o < place.steps.length; o++) {
      double least = place.steps[o].cost() + floorAfter(place, place.steps[o]);
      place.floors[o] = Math.max(place.floors[o], least);
    }
    place.update();
  }

  private double floorAfter(PlanPlace place, PlanScene.Step step) {
    PlanScene scene = place.scene;
    if (step.floor == null) {
      step.floor = floor.after(scene, step, step.bench());
      step.floorAnywhere = floor.after(scene, step, PlanFloor.ANYWHERE);
    }
    double least = step.floor.mean(place.belief);
    if (scene.doubt == null) {
      return least;
    }
    double doubted =
        step.repair().isPresent()
            ? scene.doubt.afterRepair(place.belief, step.step())
            : scene.doubt.afterTest(place.belief, step.step());
    return doubted <= 0 ? least : Math.max(least, step.floorAnywhere.mean(place.belief) + doubted);
  }

  /** Works out where a step leads. */
  private Option follow(PlanPlace place, int o, double p, double open) {
    PlanScene.Step step = place.steps[o];
    PlanBelief[] after = step.move().after(place.belief);
    PlanPlace[] then = new PlanPlace[after.length];
    double[] pFinding = new double[after.length];
    for (int y = 0; y < after.length; y++) {
      if (after[y].mass > 0) {
        pFinding[y] = after[y].mass;
        then[y] = place(place, step, y, after[y]);
        if (p * pFinding[y] * then[y].gap() > PART * open) {
          withoutTests(then[y]);
        }
      }
    }
    if (place.choice instanceof PlanPlace.Sequence sequence && sequence.first() == step.step()) {
      keepTo(sequence.steps(), place.cost - step.cost(), then, pFinding);
    }
    Option option = new Option(step, place.floors[o], then, pFinding);
    option.update();
    place.options[o] = option;
    return option;
  }

  /**
   * Lets a sequence of repairs go on where its first repair has failed, at what is left of its
   * cost.
   */
  private static void keepTo(int[] sequence, double left, PlanPlace[] then, double[] p) {
    PlanPlace failed = then[PlanWorlds.FAILED];
    if (sequence.length < 2
        || failed == null
        || p[PlanWorlds.FAILED] < LIKELY_ENOUGH
        || failed.scene.proved() != failed.scene.model) {
      return;
    }
    PlanPlace passed = then[PlanWorlds.PASSED];
    double paid = passed == null ? 0 : p[PlanWorlds.PASSED] * passed.cost;
    failed.offer(
        Math.max(failed.atLeast, (left - paid) / p[PlanWorlds.FAILED]),
        new PlanPlace.Sequence(Arrays.copyOfRange(sequence, 1, sequence.length)));
  }

  private PlanPlace place(PlanPlace from, PlanScene.Step step, int finding, PlanBelief belief) {
    int depth = from.depth + 1;
    if (step.repair().isPresent() && finding == PlanWorlds.PASSED) {
      double pLost = scenes.lost(from.scene.proved(), belief);
      return over(from.scene, step.bench(), pLost, depth);
    }
    PlanScene scene = from.scene.after(step, finding);
    return scene.nothingLost ? over(scene, belief, depth) : place(belief, scene, depth);
  }

  private PlanPlace over(PlanScene scene, PlanBelief belief, int depth) {
    return over(scene, scene.bench, scenes.lost(scene.model, belief), depth);
  }

  /**
   * Looks one step ahead from a place by weighing every test in the likeliest worlds, and follows
   * what comes out best: less than {@link #lookAhead} sees, and much faster where there are many
   * steps.
   *
   * @param until when to stop working out sequences of repairs, by {@link System#nanoTime}
   */
  void weigh(PlanPlace place, long until) {
    deadline = until;
    if (place.isExact() || place.isWeighed || place.scene.proved() != place.scene.model) {
      return;
    }
    place.isWeighed = true;
    withoutTests(place);
    PlanBelief likeliest = scenes.worlds.likeliest(place.belief, WEIGHED);
    Showing[] showings = scenes.showings(place.scene.model, likeliest);
    NextStep next =
        scenes
            .assessment(place.scene, showings, likeliest.p)
            .settled(inPlan)
            .weigh(List.of())
            .next();
    Optional<StepId> step =
        next instanceof NextStep.DoTest test
            ? Optional.of(test.test().step())
            : next instanceof NextStep.DoRepair repair
                ? Optional.of(repair.repair().repair())
                : Optional.empty();
    step.flatMap(s -> option(place, device.number(s)))
        .ifPresent(
            o -> {
              for (PlanPlace then : o.then) {
                if (then != null) {
                  withoutTests(then);
                }
              }
              update(place);
            });
  }

  /** Brings the costs of a place up to date with those of the places after it. */
  static void update(PlanPlace place) {
    if (place.options != null) {
      place.update();
      if (place.isExact()) {
        place.forgetOptions();
      }
    }
  }

  /**
   * Where a place is exact, takes the first step in the pack's order of those that cost the same,
   * as far as time allows.
   */
  void takeFirstOfEquals(PlanPlace place, long until) {
    int chosen = firstStep(place);
    if (chosen < 0) {
      return;
    }
    open(place);
    for (int o = 0; o < place.floors.length; o++) {
      if (place.steps[o].step() == chosen || System.nanoTime() > until || isFull()) {
        return;
      }
      if (PlanPlace.isLess(place.cost, place.floors[o])) {
        continue;
      }
      Option option = place.options[o] == null ? follow(place, o, 1, 0) : place.options[o];
      for (PlanPlace then : option.then) {
        if (then != null && !PlanPlace.isLess(place.cost, option.atLeast)) {
          lookAhead(then, Integer.MAX_VALUE, until);
          option.update();
        }
      }
      if (!PlanPlace.isLess(place.cost, option.cost)) {
        place.choice = new PlanPlace.Take(option);
        return;
      }
    }
  }

  /** The step that the policy known at a place does first; -1 where it ends the job. */
  static int firstStep(PlanPlace place) {
    return place.choice instanceof PlanPlace.Take take
        ? take.option().step.step()
        : place.choice instanceof PlanPlace.Sequence sequence ? sequence.first() : -1;
  }

  /** A step that may be done at a place, with where it leads; empty where it may not be done. */
  Optional<Option> option(PlanPlace place, int step) {
    list(place);
    for (int o = 0; o < place.steps.length; o++) {
      if (place.steps[o].step() == step) {
        return Optional.of(place.options[o] == null ? follow(place, o, 1, 0) : place.options[o]);
      }
    }
    return Optional.empty();
  }

  /** The longest line of steps that has been looked at. */
  int ahead() {
    return ahead;
  }

  PlanScenes scenes() {
    return scenes;
  }

  /** What doubt costs at least at a place where the job is not over. */
  double doubt(PlanPlace place) {
    return place.belief == null || place.scene.doubt == null
        ? 0
        : place.scene.doubt.of(place.belief);
  }

  DeviceModel device() {
    return device;
  }

  Planner planner() {
    return planner;
  }
}
