package org.faultwright.pack;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * A pack in the making: for the reader, and for programs that build packs themselves. Not
 * thread-safe.
 */
public final class PackDraft {

  private final PackId id;

  /** As in {@link Pack}. */
  public String version = "1.0.0";

  /** As in {@link Pack}. */
  public String title = "";

  /** As in {@link Pack}. */
  public boolean invented;

  /** As in {@link Pack}. */
  public final Set<BoardId> boards = new LinkedHashSet<>();

  /** As in {@link Pack}. */
  public final Map<SourceId, Source> sources = new LinkedHashMap<>();

  /** As in {@link Pack}. */
  public final Map<SwitchId, Switch> switches = new LinkedHashMap<>();

  /** As in {@link Pack}. */
  public final Map<InstrumentId, Instrument> instruments = new LinkedHashMap<>();

  /** As in {@link Pack}. */
  public final Map<ToolId, String> tools = new LinkedHashMap<>();

  /** As in {@link Pack}. */
  public final Map<ConsentId, String> consents = new LinkedHashMap<>();

  /** As in {@link Pack}. */
  public final Map<CautionId, Caution> cautions = new LinkedHashMap<>();

  /** As in {@link Pack}. */
  public final Map<ActivityId, String> activities = new LinkedHashMap<>();

  /** As in {@link Pack}. */
  public final Map<RailId, Rail> rails = new LinkedHashMap<>();

  /** As in {@link Pack}. */
  public final Map<PartId, Part> parts = new LinkedHashMap<>();

  /** As in {@link Pack}. */
  public final Map<ComplaintId, Complaint> complaints = new LinkedHashMap<>();

  /** As in {@link Pack}. */
  public final Map<HistoryId, History> histories = new LinkedHashMap<>();

  /** As in {@link Pack}. */
  public final Map<SymptomId, Symptom> symptoms = new LinkedHashMap<>();

  /** As in {@link Pack}. */
  public final Map<CauseId, Cause> causes = new LinkedHashMap<>();

  /** As in {@link Pack}. */
  public final Map<GroupId, OneOf> groups = new LinkedHashMap<>();

  /** As in {@link Pack}. */
  public final Map<EventId, Event> events = new LinkedHashMap<>();

  /** As in {@link Pack}. */
  public final Map<StepId, Step> steps = new LinkedHashMap<>();

  /** As in {@link Pack}. */
  public final Map<HoldId, Hold> holds = new LinkedHashMap<>();

  /** As in {@link Pack}. */
  public final List<Clash> clashes = new ArrayList<>();

  /** As in {@link Pack}. */
  public final Map<String, String> renamed = new LinkedHashMap<>();

  /** Starts an empty pack. */
  public PackDraft(PackId id) {
    this.id = id;
  }

  /** Starts from a pack, which stays as it is. */
  public static PackDraft of(Pack pack) {
    PackDraft draft = new PackDraft(pack.id());
    draft.version = pack.version();
    draft.title = pack.title();
    draft.invented = pack.invented();
    draft.boards.addAll(pack.boards());
    draft.sources.putAll(pack.sources());
    draft.switches.putAll(pack.switches());
    draft.instruments.putAll(pack.instruments());
    draft.tools.putAll(pack.tools());
    draft.consents.putAll(pack.consents());
    draft.cautions.putAll(pack.cautions());
    draft.activities.putAll(pack.activities());
    draft.rails.putAll(pack.rails());
    draft.parts.putAll(pack.parts());
    draft.complaints.putAll(pack.complaints());
    draft.histories.putAll(pack.histories());
    draft.symptoms.putAll(pack.symptoms());
    draft.causes.putAll(pack.causes());
    draft.groups.putAll(pack.groups());
    draft.events.putAll(pack.events());
    draft.steps.putAll(pack.steps());
    draft.holds.putAll(pack.holds());
    draft.clashes.addAll(pack.clashes());
    draft.renamed.putAll(pack.renamed());
    return draft;
  }

  /** Adds, or replaces the one with the same id. */
  public PackDraft source(Source source) {
    sources.put(source.id(), source);
    return this;
  }

  /** Adds, or replaces the one with the same id. */
  public PackDraft benchSwitch(Switch benchSwitch) {
    switches.put(benchSwitch.id(), benchSwitch);
    return this;
  }

  /** Adds, or replaces the one with the same id. */
  public PackDraft instrument(Instrument instrument) {
    instruments.put(instrument.id(), instrument);
    return this;
  }

  /** Adds, or replaces the one with the same id. */
  public PackDraft caution(Caution caution) {
    cautions.put(caution.id(), caution);
    return this;
  }

  /** Adds, or replaces the one with the same id. */
  public PackDraft rail(Rail rail) {
    rails.put(rail.id(), rail);
    return this;
  }

  /** Adds, or replaces the one with the same id. */
  public PackDraft part(Part part) {
    parts.put(part.id(), part);
    return this;
  }

  /** Adds, or replaces the one with the same id. */
  public PackDraft complaint(Complaint complaint) {
    complaints.put(complaint.id(), complaint);
    return this;
  }

  /** Adds, or replaces the one with the same id. */
  public PackDraft history(History history) {
    histories.put(history.id(), history);
    return this;
  }

  /** Adds, or replaces the one with the same id. */
  public PackDraft symptom(Symptom symptom) {
    symptoms.put(symptom.id(), symptom);
    return this;
  }

  /** Adds, or replaces the one with the same id. */
  public PackDraft cause(Cause cause) {
    causes.put(cause.id(), cause);
    return this;
  }

  /** Adds, or replaces the one with the same id. */
  public PackDraft group(OneOf group) {
    groups.put(group.id(), group);
    return this;
  }

  /** Adds, or replaces the one with the same id. */
  public PackDraft event(Event event) {
    events.put(event.id(), event);
    return this;
  }

  /** Adds, or replaces the one with the same id. */
  public PackDraft step(Step step) {
    steps.put(step.id(), step);
    return this;
  }

  /** Adds, or replaces the one with the same id. */
  public PackDraft hold(Hold hold) {
    holds.put(hold.id(), hold);
    return this;
  }

  /**
   * The pack as it stands now. Causes that stand for bad new parts are added where they are
   * missing.
   */
  public Pack build() {
    for (Part part : parts.values()) {
      causes.computeIfAbsent(
          part.bad(),
          bad ->
              new Cause(
                  bad,
                  "the new " + part.title() + " is bad",
                  Cause.Kind.FAULT,
                  new Cause.Likelihood.OnlyCaused(),
                  java.util.Optional.empty(),
                  Map.of(),
                  Map.of(),
                  Map.of(),
                  false));
    }
    return new Pack(
        id,
        version,
        title,
        invented,
        boards,
        sources,
        switches,
        instruments,
        tools,
        consents,
        cautions,
        activities,
        rails,
        parts,
        complaints,
        histories,
        symptoms,
        causes,
        groups,
        events,
        steps,
        holds,
        clashes,
        renamed);
  }
}
