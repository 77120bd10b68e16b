package org.faultwright.oracle;

import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import org.faultwright.measurement.Accuracy;
import org.faultwright.measurement.Meter;
import org.faultwright.measurement.Quantity;
import org.faultwright.pack.Basis;
import org.faultwright.pack.BoardId;
import org.faultwright.pack.Cause;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.Chance;
import org.faultwright.pack.Complaint;
import org.faultwright.pack.ComplaintId;
import org.faultwright.pack.Event;
import org.faultwright.pack.EventId;
import org.faultwright.pack.GroupId;
import org.faultwright.pack.History;
import org.faultwright.pack.HistoryId;
import org.faultwright.pack.Instrument;
import org.faultwright.pack.InstrumentId;
import org.faultwright.pack.ModeId;
import org.faultwright.pack.NodeId;
import org.faultwright.pack.Observation;
import org.faultwright.pack.OneOf;
import org.faultwright.pack.Pack;
import org.faultwright.pack.PackDraft;
import org.faultwright.pack.PackId;
import org.faultwright.pack.Part;
import org.faultwright.pack.PartId;
import org.faultwright.pack.Step;
import org.faultwright.pack.StepId;
import org.faultwright.pack.Symptom;
import org.faultwright.pack.SymptomId;

/**
 * A pack in the making, for tests: short ways to say what bears on probabilities. A cause is
 * declared with a likelihood first; what else is said of it is added to that.
 */
public final class PackSketch {

  private final PackDraft draft;

  /** An empty pack, named {@code family/subsystem}. */
  public PackSketch(String name) {
    draft = new PackDraft(PackId.parse(name));
    draft.invented = true;
  }

  /** A probability made up for a test. */
  public static Chance chance(double p) {
    return Chance.of(p, new Basis.Invented());
  }

  /** An input, or a trigger, with its strength. */
  public record Input(NodeId node, double strength) {}

  /** A cause as an input. */
  public static Input cause(String id, double strength) {
    return new Input(new CauseId(id), strength);
  }

  /** An event as an input. */
  public static Input event(String id, double strength) {
    return new Input(new EventId(id), strength);
  }

  /** Inputs as a map, in order. */
  public static Map<NodeId, Chance> inputs(Input... inputs) {
    Map<NodeId, Chance> map = new LinkedHashMap<>();
    for (Input input : inputs) {
      map.put(input.node(), chance(input.strength()));
    }
    return map;
  }

  /** A cause with a prior. */
  public PackSketch prior(String id, double p) {
    return likelihood(id, new Cause.Likelihood.Prior(chance(p)));
  }

  /** A cause with a share of a complaint. */
  public PackSketch share(String id, String complaint, double share) {
    return likelihood(id, new Cause.Likelihood.Share(new ComplaintId(complaint), chance(share)));
  }

  /** A cause that is absent at first unless it follows another. */
  public PackSketch onlyCaused(String id) {
    return likelihood(id, new Cause.Likelihood.OnlyCaused());
  }

  private PackSketch likelihood(String id, Cause.Likelihood likelihood) {
    draft.cause(
        new Cause(
            new CauseId(id),
            id,
            id.equals("unlisted") ? Cause.Kind.UNLISTED : Cause.Kind.FAULT,
            likelihood,
            Optional.empty(),
            Map.of(),
            Map.of(),
            Map.of(),
            false));
    return this;
  }

  /** A history that multiplies the odds of a cause. */
  public PackSketch after(String cause, String history, double factor) {
    Cause c = draft.causes.get(new CauseId(cause));
    Map<HistoryId, Double> after = new LinkedHashMap<>(c.after());
    after.put(new HistoryId(history), factor);
    return replace(c, c.oneOf(), after, c.follows(), c.shows());
  }

  /** A root that brings a cause about. */
  public PackSketch follows(String cause, String root, double strength) {
    Cause c = draft.causes.get(new CauseId(cause));
    Map<CauseId, Chance> follows = new LinkedHashMap<>(c.follows());
    follows.put(new CauseId(root), chance(strength));
    return replace(c, c.oneOf(), c.after(), follows, c.shows());
  }

  /** How likely a cause that comes and goes acts at rest. */
  public PackSketch comesAndGoes(String cause, double atRest) {
    return comesAndGoes(cause, ModeId.AT_REST, atRest);
  }

  /** How likely a cause that comes and goes acts when it is provoked. */
  public PackSketch comesAndGoes(String cause, ModeId mode, double pActs) {
    Cause c = draft.causes.get(new CauseId(cause));
    Map<ModeId, Chance> shows = new LinkedHashMap<>(c.shows());
    shows.put(mode, chance(pActs));
    return replace(c, c.oneOf(), c.after(), c.follows(), shows);
  }

  private PackSketch replace(
      Cause c,
      Optional<GroupId> oneOf,
      Map<HistoryId, Double> after,
      Map<CauseId, Chance> follows,
      Map<ModeId, Chance> shows) {
    draft.cause(
        new Cause(
            c.id(),
            c.title(),
            c.kind(),
            c.likelihood(),
            oneOf,
            after,
            follows,
            shows,
            c.boards(),
            c.sendOn()));
    return this;
  }

  /** The boards that can have a cause. */
  public PackSketch onlyOn(String cause, String... boards) {
    Cause c = draft.causes.get(new CauseId(cause));
    Set<BoardId> of = new LinkedHashSet<>();
    for (String board : boards) {
      of.add(new BoardId(board));
    }
    draft.boards.addAll(of);
    draft.cause(
        new Cause(
            c.id(),
            c.title(),
            c.kind(),
            c.likelihood(),
            c.oneOf(),
            c.after(),
            c.follows(),
            c.shows(),
            of,
            c.sendOn()));
    return this;
  }

  /** A group of causes of which at most one is present; exactly one at first, where certain. */
  public PackSketch oneOf(String group, boolean certain, String... members) {
    GroupId id = new GroupId(group);
    Set<CauseId> ids = new LinkedHashSet<>();
    for (String member : members) {
      Cause c = draft.causes.get(new CauseId(member));
      replace(c, Optional.of(id), c.after(), c.follows(), c.shows());
      ids.add(c.id());
    }
    draft.group(new OneOf(id, certain, ids));
    return this;
  }

  /** A history with no witness. */
  public PackSketch history(String id, double likely) {
    draft.history(
        new History(new HistoryId(id), id, chance(likely), Optional.empty(), Optional.empty()));
    return this;
  }

  /** A history of which the customer's word and our look are each noisy readings. */
  public PackSketch history(String id, double likely, double catches, double criesWolf) {
    History.Witness witness = new History.Witness(chance(catches), chance(criesWolf));
    draft.history(
        new History(
            new HistoryId(id), id, chance(likely), Optional.of(witness), Optional.of(witness)));
    return this;
  }

  /** A noisy any without otherwise. */
  public PackSketch any(String event, Input... inputs) {
    return event(event, new Event.Combination.Any(), 0, inputs);
  }

  /** Any event. */
  public PackSketch event(
      String id, Event.Combination combination, double otherwise, Input... inputs) {
    draft.event(new Event(new EventId(id), id, combination, inputs(inputs), chance(otherwise)));
    return this;
  }

  /** A complaint that is never reported by mistake. */
  public PackSketch complaint(String id, String event) {
    return complaint(id, event, 0, Complaint.DEFAULT_RATE);
  }

  /** A complaint. */
  public PackSketch complaint(String id, String event, double byMistake, double rate) {
    draft.complaint(
        new Complaint(
            new ComplaintId(id), id, new EventId(event), chance(byMistake), chance(rate), false));
    return this;
  }

  /** A symptom. */
  public PackSketch symptom(String id, Observation shows, double overlooked) {
    draft.symptom(new Symptom(new SymptomId(id), id, Optional.of(shows), chance(overlooked)));
    return this;
  }

  /** What looking for a symptom provokes. */
  public PackSketch provokes(String symptom, ModeId mode) {
    Symptom s = draft.symptoms.get(new SymptomId(symptom));
    draft.symptom(new Symptom(s.id(), s.title(), s.shows(), s.overlooked(), mode));
    return this;
  }

  /** A part that carries causes; replacing it disturbs what the given steps put right. */
  public PackSketch part(String id, Set<String> carries, String... reseats) {
    Set<CauseId> carried = new LinkedHashSet<>();
    carries.stream().sorted().forEach(c -> carried.add(new CauseId(c)));
    List<StepId> steps = java.util.Arrays.stream(reseats).map(StepId::new).toList();
    PartId part = new PartId(id);
    draft.part(
        new Part(
            part,
            id,
            carried,
            OptionalDouble.empty(),
            false,
            Optional.empty(),
            steps,
            Optional.empty(),
            Optional.empty(),
            Part.badNew(part)));
    return this;
  }

  /** An instrument that may be off by so many volts, the same in all its readings. */
  public PackSketch instrument(String id, double volts) {
    return instrument(id, volts, Optional.empty());
  }

  /** The same, which shows no more than so much. */
  public PackSketch instrument(String id, double volts, Optional<Quantity> largest) {
    Meter unknown = Meter.UNKNOWN;
    draft.instrument(
        new Instrument(
            new InstrumentId(id),
            id,
            Optional.of(new Accuracy(0, volts, 0)),
            new Meter(
                unknown.diode(),
                unknown.testCurrent(),
                unknown.inputResistance(),
                unknown.leadResistance(),
                largest,
                unknown.ranges()),
            new Basis.Invented()));
    return this;
  }

  /** An instrument without any error of its own. */
  public PackSketch exactInstrument(String id) {
    draft.instrument(
        new Instrument(
            new InstrumentId(id), id, Optional.of(new Accuracy(0, 0, 0)), new Basis.Invented()));
    return this;
  }

  /** A step. */
  public PackSketch step(StepSketch step) {
    return step(step.build());
  }

  /** A step. */
  public PackSketch step(Step step) {
    draft.step(step);
    return this;
  }

  /** The pack as it stands now. */
  public Pack build() {
    return draft.build();
  }
}
