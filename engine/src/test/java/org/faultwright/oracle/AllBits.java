package org.faultwright.oracle;

import java.util.Map;
import org.faultwright.oracle.Evidence.Seen;
import org.faultwright.oracle.Evidence.Sitting;
import org.faultwright.pack.Cause;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.Chance;
import org.faultwright.pack.Event;
import org.faultwright.pack.Id;
import org.faultwright.pack.ModeId;
import org.faultwright.pack.NodeId;
import org.faultwright.pack.Observation;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Point;
import org.faultwright.pack.StateId;
import org.faultwright.pack.Step;
import org.faultwright.pack.Symptom;

/** Every bit that a world can have, drawn one kind after the other whether it matters or not. */
final class AllBits {

  /** What has been drawn; refuses to draw anything more. */
  record Drawn(EveryPath path) implements Chances {
    @Override
    public int draw(Object name, double[] p) {
      if (!path.isDrawn(name)) {
        throw new AssertionError("a bit that is not listed: " + name);
      }
      return path.draw(name, p);
    }
  }

  private final Pack pack;
  private final Evidence evidence;
  private final World world;

  AllBits(Pack pack, Evidence evidence, World world) {
    this.pack = pack;
    this.evidence = evidence;
    this.world = world;
  }

  void draw() {
    pack.histories().keySet().forEach(world::happened);
    for (Cause cause : pack.causes().values()) {
      world.wasPresentAtFirst(cause.id());
      cause.follows().keySet().forEach(root -> world.causes.follows(cause.id(), root));
    }
    for (int epoch = 1; epoch <= evidence.timeline.now(); epoch++) {
      attempt(epoch);
    }
    Look any = world.lookNowAtRest();
    for (Event event : pack.events().values()) {
      event.inputs().keySet().forEach(input -> any.strength(event, input));
      any.otherwise(event);
    }
    for (Symptom symptom : pack.symptoms().values()) {
      symptom.shows().ifPresent(shows -> triggers(any, symptom.id(), shows));
    }
    for (Step step : pack.steps().values()) {
      step.shows().ifPresent(shows -> triggers(any, step.id(), shows));
      step.pinTable().ifPresent(table -> table.points().forEach(point -> triggers(any, point)));
    }
    looks();
    evidence.readings.keySet().stream()
        .filter(of -> !of.knownGood())
        .forEach(of -> look(world.lookFor(of)));
    evidence.pairs().stream()
        .filter(pair -> !pair.first().knownGood())
        .forEach(
            pair -> {
              look(world.lookFor(pair.first()));
              look(world.lookFor(pair.second()));
              look(world.lookFor(pair.sitting(), 0));
            });
  }

  private void attempt(int epoch) {
    for (CauseId cause : pack.causes().keySet()) {
      world.causes.isCured(cause, epoch);
      world.causes.isHarmed(cause, epoch);
      world.causes.isHidden(cause, epoch);
    }
    for (Map.Entry<CauseId, Double> bad : evidence.timeline.beginning(epoch).renewed().entrySet()) {
      world.causes.isBadAnew(bad.getKey(), epoch, bad.getValue());
    }
  }

  private void triggers(Look any, Id source, Observation shows) {
    if (shows instanceof Observation.OfStates states) {
      states.states().forEach(s -> triggers(any, source, s.id(), s.triggers()));
    }
  }

  private void triggers(Look any, Point point) {
    point.states().forEach(s -> triggers(any, point.id(), s.id(), s.triggers()));
  }

  private void triggers(Look any, Id owner, StateId state, Map<NodeId, Chance> triggers) {
    triggers.forEach((node, strength) -> any.trigger(owner, state, node, strength));
  }

  private void looks() {
    look(world.lookNowAtRest());
    for (Map.Entry<Sitting, Seen> entry : evidence.sittings.entrySet()) {
      look(world.lookFor(entry.getKey(), 0));
      for (int repeat = 1; repeat < entry.getValue().outcomes.size(); repeat++) {
        world.isCopy(entry.getKey(), repeat);
        look(world.lookFor(entry.getKey(), repeat));
      }
    }
  }

  private void look(Look look) {
    ModeId mode = look.provokes().orElse(ModeId.AT_REST);
    pack.causes().values().forEach(cause -> look.showsItself(cause, mode));
  }
}
