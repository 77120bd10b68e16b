package org.faultwright.pack;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;

/**
 * The knowledge for one subsystem of one device family, as its author states it, with the fragments
 * that it uses merged in. Immutable.
 *
 * <p>Every id that is referred to exists, inputs of events form no cycle, and numbers are in their
 * domains: the reader sees to that. Code that builds packs by hand can ask {@code PackChecks}.
 *
 * @param version as written, for example {@code 1.0.0}
 * @param invented whether the family is an invented one, for demonstration
 * @param renamed old ids and what they are called now
 */
public record Pack(
    PackId id,
    String version,
    String title,
    boolean invented,
    Set<BoardId> boards,
    Map<SourceId, Source> sources,
    Map<SwitchId, Switch> switches,
    Map<InstrumentId, Instrument> instruments,
    Map<ToolId, String> tools,
    Map<ConsentId, String> consents,
    Map<CautionId, Caution> cautions,
    Map<ActivityId, String> activities,
    Map<RailId, Rail> rails,
    Map<PartId, Part> parts,
    Map<ComplaintId, Complaint> complaints,
    Map<HistoryId, History> histories,
    Map<SymptomId, Symptom> symptoms,
    Map<CauseId, Cause> causes,
    Map<GroupId, OneOf> groups,
    Map<EventId, Event> events,
    Map<StepId, Step> steps,
    Map<HoldId, Hold> holds,
    List<Clash> clashes,
    Map<String, String> renamed) {

  /** Copies the collections, keeping their order. */
  public Pack {
    boards = Ordered.copy(boards);
    sources = Ordered.copy(sources);
    switches = Ordered.copy(switches);
    instruments = Ordered.copy(instruments);
    tools = Ordered.copy(tools);
    consents = Ordered.copy(consents);
    cautions = Ordered.copy(cautions);
    activities = Ordered.copy(activities);
    rails = Ordered.copy(rails);
    parts = Ordered.copy(parts);
    complaints = Ordered.copy(complaints);
    histories = Ordered.copy(histories);
    symptoms = Ordered.copy(symptoms);
    causes = Ordered.copy(causes);
    groups = Ordered.copy(groups);
    events = Ordered.copy(events);
    steps = Ordered.copy(steps);
    holds = Ordered.copy(holds);
    clashes = List.copyOf(clashes);
    renamed = Ordered.copy(renamed);
  }

  /** A point of one of its steps. */
  public Optional<Point> point(PointId id) {
    return steps.values().stream()
        .flatMap(s -> s.pinTable().stream())
        .flatMap(t -> t.points().stream())
        .filter(p -> p.id().equals(id))
        .findFirst();
  }

  /** The points that are read when a step is carried out: its own, and those that it compares. */
  public List<Point> readIn(Step step) {
    return Stream.concat(
            step.pinTable().stream().flatMap(t -> t.points().stream()),
            step.compares().stream()
                .flatMap(c -> Stream.of(c.point(), c.with()))
                .flatMap(id -> point(id).stream()))
        .distinct()
        .toList();
  }

  /** The step in which a point is read. */
  public Optional<Step> stepOf(PointId point) {
    return steps.values().stream()
        .filter(
            s ->
                s.pinTable().stream()
                    .flatMap(t -> t.points().stream())
                    .anyMatch(p -> p.id().equals(point)))
        .findFirst();
  }
}
