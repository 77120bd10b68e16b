package org.faultwright.planning;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.faultwright.casefile.Guard;
import org.faultwright.casefile.Intake;
import org.faultwright.casefile.Situation;
import org.faultwright.pack.ComplaintId;
import org.faultwright.pack.OutcomeId;
import org.faultwright.pack.PointId;
import org.faultwright.pack.StateId;
import org.faultwright.pack.Step;
import org.faultwright.pack.StepId;
import org.faultwright.planning.CaseModel.Proof;
import org.faultwright.planning.CaseModel.Showing;
import org.faultwright.planning.RepairTable.Spread;

/** The scenes of one plan, each once, and which follows which. Not thread-safe. */
final class PlanScenes {

  final PlanWorlds worlds;

  /** The repairs that may be planned, by step number, in the pack's order. */
  List<Integer> inPlan = List.of();

  private final Planner planner;
  private final DeviceModel device;
  private final Intake intake;
  private final Permissions permissions;
  private final Map<Situation, PlanScene> known = new HashMap<>();

  /** What guards of turns ask for: where none of it changes, the same turns are allowed. */
  private final List<GuardReferences> askedOfTurns = new ArrayList<>();

  /** What guards ask for, of steps as of turns. */
  private final Set<StepId> askedSteps = new LinkedHashSet<>();

  private final Set<PointId> askedPoints = new LinkedHashSet<>();

  private final Map<List<Object>, Planner.Setting> settings = new HashMap<>();
  private final Map<CaseModel, OnWorlds> lostInUse = new HashMap<>();
  private final Map<CaseModel, Integer> showings = new HashMap<>();

  PlanScenes(Planner planner, Intake intake, Permissions permissions, double negligible) {
    this.planner = planner;
    this.device = planner.device();
    this.intake = intake;
    this.permissions = permissions;
    this.worlds = new PlanWorlds(device, negligible);
    for (Guard guard : permissions.turns().values()) {
      askedOfTurns.add(new GuardReferences(guard.condition()));
      addAsked(guard);
    }
    permissions.steps().values().forEach(this::addAsked);
  }

  private void addAsked(Guard guard) {
    GuardReferences asked = new GuardReferences(guard.condition());
    askedSteps.addAll(asked.steps);
    askedPoints.addAll(asked.points);
  }

  /** The scene of a situation. */
  PlanScene at(Situation situation) {
    Situation now = withoutWhatNobodyAsks(situation);
    PlanScene scene = known.get(now);
    if (scene == null) {
      scene = new PlanScene(this, now, setting(now));
      known.put(now, scene);
    }
    return scene;
  }

  /**
   * Forgets how tests came out and that they were done where no guard asks for it, so that more
   * situations are the same: that an outcome or a reading is there is all that counts then.
   */
  private Situation withoutWhatNobodyAsks(Situation now) {
    Map<StepId, OutcomeId> outcomes = new LinkedHashMap<>();
    Map<PointId, StateId> readings = new LinkedHashMap<>();
    Set<StepId> done = new LinkedHashSet<>();
    // in the pack's order, so that the order of the steps does not tell situations apart
    for (Step step : device.steps) {
      OutcomeId outcome = now.outcomes().get(step.id());
      boolean isAsked = askedSteps.contains(step.id());
      if (outcome != null) {
        boolean matters = isAsked || step.copies() < 1 || step.shows().isEmpty();
        outcomes.put(step.id(), matters ? outcome : step.shows().orElseThrow().outcomes().get(0));
      }
      if (now.done().contains(step.id())
          && (isAsked || !step.changes().isEmpty() || step.swap().isPresent())) {
        done.add(step.id());
      }
    }
    now.readings()
        .forEach(
            (point, is) -> readings.put(point, askedPoints.contains(point) ? is : StateId.NORMAL));
    return Imagined.with(now, outcomes, readings, done, now.lost());
  }

  private Planner.Setting setting(Situation now) {
    List<Object> key = new ArrayList<>();
    key.add(now.lost());
    for (GuardReferences asked : askedOfTurns) {
      asked.steps.forEach(
          s -> {
            key.add(now.done().contains(s));
            key.add(now.outcomes().get(s));
          });
      asked.points.forEach(p -> key.add(now.readings().get(p)));
    }
    return settings.computeIfAbsent(key, k -> planner.setting(now, intake, permissions));
  }

  /** A look at a scene with worlds as likely as given. */
  Assessment assessment(PlanScene scene, Showing[] showings, double[] p) {
    return new Assessment(scene.model, scene.costs, showings, p, 0, scene.now, permissions);
  }

  /** What steps show in the worlds of a belief. */
  Showing[] showings(CaseModel model, PlanBelief belief) {
    int id = showings.computeIfAbsent(model, m -> worlds.identity());
    Object noted = belief.set.noted(id);
    return noted != null
        ? (Showing[]) noted
        : belief.set.note(
            id,
            Arrays.stream(belief.set.worlds)
                .mapToObj(w -> model.showing(worlds.world(w)))
                .toArray(Showing[]::new));
  }

  /** The scene after a step that came out in some way. */
  PlanScene after(PlanScene scene, PlanScene.Step step, int finding) {
    Situation then =
        step.test().isPresent()
            ? Imagined.afterTest(
                device, scene.now, step.step(), step.test().get().sight().findings.get(finding))
            : afterRepair(scene, step, finding == PlanWorlds.PASSED);
    return at(then.withOn(new LinkedHashSet<>(scene.costs.ways.on(step.bench(), scene.now.on()))));
  }

  /** Whether all findings of a step lead to the same scene, since no guard asks which it was. */
  boolean allFindingsAreAlike(PlanScene.Step of) {
    Step step = device.steps.get(of.step());
    return of.test().isPresent()
        && step.proves().isEmpty()
        && step.copies() >= 1
        && DeviceModel.points(step).isEmpty()
        && !askedSteps.contains(step.id());
  }

  private Situation afterRepair(PlanScene scene, PlanScene.Step step, boolean passed) {
    List<Step> tests = new ArrayList<>();
    for (int p : step.repair().orElseThrow().proofs()) {
      Proof proof = scene.model.proofs.get(p);
      if (proof.step() >= 0) {
        tests.add(device.steps.get(proof.step()));
      }
    }
    if (!passed) {
      return Imagined.afterRepair(device, scene.now, step.step(), tests);
    }
    Map<ComplaintId, Boolean> lost = new LinkedHashMap<>(scene.now.lost());
    scene.model.lost.forEach(c -> lost.put(c, false));
    return Imagined.afterPassing(device, scene.now, step.step(), tests, lost);
  }

  /** The model of a device whose functions all have been proved. */
  CaseModel proved(PlanScene scene) {
    Map<ComplaintId, Boolean> lost = new LinkedHashMap<>();
    scene.now.lost().keySet().forEach(c -> lost.put(c, false));
    return setting(scene.now.withLost(lost)).model();
  }

  /** P(a function of a model is lost in use | belief). */
  double lost(CaseModel model, PlanBelief belief) {
    OnWorlds lost =
        lostInUse.computeIfAbsent(
            model, m -> new OnWorlds(worlds.identity(), world -> lost(model, world)));
    return Math.min(1, lost.mean(belief));
  }

  private double lost(CaseModel model, int world) {
    double lost = 0;
    Spread rows = model.tree.rowsOf(model.showing(worlds.world(world)).future);
    for (int r = 0; r < rows.states().length; r++) {
      lost += rows.p()[r] * model.tree.lost(rows.states()[r]);
    }
    return lost;
  }
}
