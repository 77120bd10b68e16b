package org.faultwright.compile;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.faultwright.inference.Circuit;
import org.faultwright.inference.CircuitCompiler;
import org.faultwright.inference.Compilation;
import org.faultwright.inference.DiscreteNetwork;
import org.faultwright.inference.Model;
import org.faultwright.pack.Cause;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.Comparison;
import org.faultwright.pack.Complaint;
import org.faultwright.pack.ComplaintId;
import org.faultwright.pack.EventId;
import org.faultwright.pack.GroupId;
import org.faultwright.pack.HistoryId;
import org.faultwright.pack.Lineage;
import org.faultwright.pack.Observation;
import org.faultwright.pack.OutcomeId;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Point;
import org.faultwright.pack.PointId;
import org.faultwright.pack.Step;
import org.faultwright.pack.StepId;
import org.faultwright.pack.Symptom;
import org.faultwright.pack.SymptomId;

/**
 * A pack as a compiled network for given attempts and observations, and where everything is found
 * in it.
 */
final class Network {

  /** Outcomes of the customer's report. */
  static final OutcomeId REPORTED = new OutcomeId("reported");

  /** The customer was asked, and says that the function is there. */
  static final OutcomeId DENIED = new OutcomeId("denied");

  final Map<CauseId, int[]> priorParameters;
  final Map<GroupId, int[]> groupParameters;
  final Map<CauseId, Ref> causes = new LinkedHashMap<>();
  final Map<EventId, Ref> events = new LinkedHashMap<>();
  final Map<ComplaintId, Ref> lostAtReport = new LinkedHashMap<>();
  final Map<ComplaintId, Ref> comesBack = new LinkedHashMap<>();
  final Map<HistoryId, Ref> histories = new LinkedHashMap<>();
  final Map<Slot, Seen> seen = new LinkedHashMap<>();
  final Map<PointId, Map<Integer, Observations.PointState>> points = new LinkedHashMap<>();

  /** For each comparison of two points the variable, see {@link Observations#pair}. */
  final Map<Slot, Integer> pairs = new LinkedHashMap<>();

  final Map<Coordinate, Ref> coordinates = new LinkedHashMap<>();

  /** Strength bits with the probability that the pack states. */
  final Map<Coordinate, Double> stated;

  private final Set<Slot> wired;
  private final Pack pack;
  private final Lineage lineage;
  private final Timeline timeline;
  private final Wiring wiring = new Wiring();
  private final Presence presence;
  private final Events eventNodes;
  private final Observations observations;

  private Network(Pack pack, Lineage lineage, Timeline timeline, Set<Slot> slots) {
    this.pack = pack;
    this.lineage = lineage;
    this.timeline = timeline;
    presence = new Presence(pack, lineage, timeline, wiring);
    eventNodes = new Events(pack, lineage, presence, wiring);
    observations = new Observations(pack, eventNodes, wiring);
    int now = timeline.now();
    for (CauseId c : pack.causes().keySet()) {
      causes.put(c, presence.present(c, now));
    }
    pack.histories().keySet().forEach(h -> histories.put(h, presence.history(h)));
    wired = slots;
    slots.forEach(this::wire);
    pack.steps().values().forEach(step -> step.compares().ifPresent(c -> wirePairs(step, c)));
    collectCoordinates(now);
    observe();
    stated = presence.stated();
    priorParameters = presence.priorParameters();
    groupParameters = presence.groupParameters();
  }

  /**
   * Wires a network.
   *
   * @param slots what is observed, or asked for: reports (a complaint), symptoms, steps, points,
   *     events now
   */
  static Network of(Pack pack, Lineage lineage, Timeline timeline, Set<Slot> slots) {
    return new Network(pack, lineage, timeline, slots);
  }

  /** Whether it holds all of these slots. */
  boolean holds(Set<Slot> slots) {
    return wired.containsAll(slots);
  }

  /** Compiles; the causes' priors are still to be put in with {@link #withPriors}. */
  Compilation compile(double budget) {
    return CircuitCompiler.compile(wiring.model, budget);
  }

  private void wire(Slot slot) {
    if (slot.what() instanceof ComplaintId id && slot.repeat() == Slots.LATER) {
      EventId lost = pack.complaints().get(id).event();
      comesBack.put(id, eventNodes.acts(lost, slot.epoch(), Events.View.LATER));
    } else if (slot.what() instanceof ComplaintId id) {
      Complaint c = pack.complaints().get(id);
      Ref lost = eventNodes.acts(c.event(), 0, Events.View.REPORT);
      lostAtReport.put(id, lost);
      seen.put(
          slot,
          Seen.of(
              lost,
              observations.states(lost),
              List.of(REPORTED, DENIED),
              1,
              c.reportedByMistake().p()));
    } else if (slot.what() instanceof EventId id) {
      events.put(id, eventNodes.acts(id, slot.epoch(), Events.View.NOW));
    } else if (slot.what() instanceof SymptomId id) {
      Symptom symptom = pack.symptoms().get(id);
      Observation shows = symptom.shows().orElseThrow();
      seen.put(
          slot,
          observations.seen(
              shows,
              state -> new Coordinate.Owner.OfSymptomState(id, state),
              slot.epoch(),
              Events.View.of(slot, symptom.provokes())));
    } else if (slot.what() instanceof StepId id) {
      Step step = pack.steps().get(id);
      seen.put(
          slot,
          observations.seen(
              step.shows().orElseThrow(),
              state -> new Coordinate.Owner.OfStepState(id, state),
              slot.epoch(),
              Events.View.of(slot, step.provokes())));
    } else {
      wirePoint((PointId) slot.what(), slot.epoch());
    }
  }

  private void wirePoint(PointId id, int epoch) {
    for (Step step : pack.steps().values()) {
      for (Point p : step.pinTable().map(Step.PinTable::points).orElse(List.of())) {
        if (p.id().equals(id)) {
          Slot carriedOut =
              new Slot(step.id(), timeline.settled(lineage.ancestors(step), epoch), 0);
          Events.View view = Events.View.of(carriedOut, step.provokes());
          points
              .computeIfAbsent(id, k -> new LinkedHashMap<>())
              .put(epoch, observations.points(List.of(p), epoch, view).get(id));
        }
      }
    }
  }

  /** Two points that are compared, where both and the comparison are in the network. */
  private void wirePairs(Step step, Comparison compares) {
    points
        .getOrDefault(compares.point(), Map.of())
        .forEach(
            (epoch, first) -> {
              Slot slot = new Slot(step.id(), epoch, 0);
              Observations.PointState second =
                  points.getOrDefault(compares.with(), Map.of()).get(epoch);
              if (second != null && seen.containsKey(slot)) {
                Events.View view = Events.View.of(slot, step.provokes());
                pairs.put(slot, observations.pair(step, first, second, epoch, view));
              }
            });
  }

  private void collectCoordinates(int now) {
    causes.forEach((c, ref) -> coordinates.put(new Coordinate.Present(c), ref));
    presence.strengths().forEach(coordinates::put);
    eventNodes.otherwise().forEach((e, ref) -> coordinates.put(new Coordinate.Otherwise(e), ref));
    causes.forEach(
        (c, ref) -> {
          if (!ref.equals(Ref.NO)) {
            coordinates.put(new Coordinate.Hidden(c), presence.hidden(c, now));
          }
        });
    coordinates
        .entrySet()
        .removeIf(
            e ->
                e.getValue().equals(Ref.NO)
                    || e.getValue().equals(Ref.YES) && !(e.getKey() instanceof Coordinate.Present));
  }

  private void observe() {
    List<Ref> refs = new ArrayList<>(causes.values());
    refs.addAll(events.values());
    refs.addAll(lostAtReport.values());
    refs.addAll(comesBack.values());
    refs.addAll(histories.values());
    refs.addAll(coordinates.values());
    for (Ref r : refs) {
      if (r instanceof Ref.At at) {
        wiring.model.observe(at.variable());
      }
    }
    for (Seen s : seen.values()) {
      if (s.variable() >= 0) {
        wiring.model.observe(s.variable());
      }
    }
    for (int pair : pairs.values()) {
      if (pair >= 0) {
        wiring.model.observe(pair);
      }
    }
    for (Map<Integer, Observations.PointState> byEpoch : points.values()) {
      for (Observations.PointState p : byEpoch.values()) {
        if (p.variable() >= 0) {
          wiring.model.observe(p.variable());
        }
      }
    }
  }

  /** The circuit of this network with the causes' prior probabilities put in. */
  Circuit withPriors(Circuit circuit, Map<CauseId, Double> priors) {
    return circuit.withParameters(parameters(priors));
  }

  /** The model behind this network with the causes' prior probabilities put in. */
  Model model(Map<CauseId, Double> priors) {
    return wiring.model.withParameters(parameters(priors));
  }

  /** The network as plain tables. */
  DiscreteNetwork tables(Map<CauseId, Double> priors) {
    return wiring.model.network(parameters(priors));
  }

  private double[] parameters(Map<CauseId, Double> priors) {
    int n = 0;
    for (int[] p : priorParameters.values()) {
      n = Math.max(n, 1 + java.util.Arrays.stream(p).max().orElse(-1));
    }
    for (int[] p : groupParameters.values()) {
      n = Math.max(n, 1 + java.util.Arrays.stream(p).max().orElse(-1));
    }
    double[] values = new double[n];
    priorParameters.forEach(
        (id, at) -> {
          Cause cause = pack.causes().get(id);
          double[] rows = Priors.rows(pack, cause, priors.get(id));
          for (int i = 0; i < at.length; i++) {
            values[at[i]] = rows[i];
          }
        });
    groupParameters.forEach(
        (id, at) -> {
          double[] rows = Priors.rows(pack, pack.groups().get(id), priors);
          for (int i = 0; i < at.length; i++) {
            values[at[i]] = rows[i];
          }
        });
    return values;
  }
}
