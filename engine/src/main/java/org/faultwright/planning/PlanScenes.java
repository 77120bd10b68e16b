package org.faultwright.planning;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import org.faultwright.casefile.Guard;
import org.faultwright.casefile.Intake;
import org.faultwright.casefile.Situation;
import org.faultwright.pack.ComplaintId;
import org.faultwright.pack.Step;
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

  private final Map<List<Object>, Planner.Setting> settings = new HashMap<>();
  private final Map<CaseModel, double[]> lostInUse = new HashMap<>();
  private final Map<CaseModel, List<Showing>> showings = new HashMap<>();

  PlanScenes(Planner planner, Intake intake, Permissions permissions, double negligible) {
    this.planner = planner;
    this.device = planner.device();
    this.intake = intake;
    this.permissions = permissions;
    this.worlds = new PlanWorlds(device, negligible);
    for (Guard guard : permissions.turns().values()) {
      askedOfTurns.add(new GuardReferences(guard.condition()));
    }
  }

  /** The scene of a situation. */
  PlanScene at(Situation now) {
    PlanScene scene = known.get(now);
    if (scene == null) {
      scene = new PlanScene(this, now, setting(now));
      known.put(now, scene);
    }
    return scene;
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
    List<Showing> ofModel = showings.computeIfAbsent(model, m -> new ArrayList<>());
    Showing[] found = new Showing[belief.worlds.length];
    for (int i = 0; i < found.length; i++) {
      while (ofModel.size() <= belief.worlds[i]) {
        ofModel.add(null);
      }
      if (ofModel.get(belief.worlds[i]) == null) {
        ofModel.set(belief.worlds[i], model.showing(worlds.world(belief.worlds[i])));
      }
      found[i] = ofModel.get(belief.worlds[i]);
    }
    return found;
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

  /** P(a function of a model is lost in use | world). */
  double lost(CaseModel model, int world) {
    double[] lost = lostInUse.getOrDefault(model, new double[0]);
    if (world >= lost.length) {
      int from = lost.length;
      lost = Arrays.copyOf(lost, 2 * worlds.size());
      Arrays.fill(lost, from, lost.length, Double.NaN);
      lostInUse.put(model, lost);
    }
    if (Double.isNaN(lost[world])) {
      lost[world] = 0;
      Spread rows = model.tree.rowsOf(model.showing(worlds.world(world)).future);
      for (int r = 0; r < rows.states().length; r++) {
        lost[world] += rows.p()[r] * model.tree.lost(rows.states()[r]);
      }
    }
    return lost[world];
  }

  /** P(a function is lost in use | belief). */
  double lost(CaseModel model, PlanBelief belief) {
    double sum = 0;
    for (int i = 0; i < belief.worlds.length; i++) {
      sum += belief.p[i] * lost(model, belief.worlds[i]);
    }
    return Math.min(1, sum);
  }
}
