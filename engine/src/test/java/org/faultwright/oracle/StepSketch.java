package org.faultwright.oracle;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.Chance;
import org.faultwright.pack.Change;
import org.faultwright.pack.Comparison;
import org.faultwright.pack.ComplaintId;
import org.faultwright.pack.Effort;
import org.faultwright.pack.EventId;
import org.faultwright.pack.Harm;
import org.faultwright.pack.InstrumentId;
import org.faultwright.pack.ModeId;
import org.faultwright.pack.NodeId;
import org.faultwright.pack.Observation;
import org.faultwright.pack.OutcomeId;
import org.faultwright.pack.PartId;
import org.faultwright.pack.Point;
import org.faultwright.pack.Step;
import org.faultwright.pack.StepId;

/** A step in the making, for tests: only what bears on probabilities. */
public final class StepSketch {

  private final StepId id;
  private ModeId provokes = ModeId.AT_REST;
  private Optional<Observation> shows = Optional.empty();
  private Optional<ComplaintId> proves = Optional.empty();
  private final List<Point> points = new ArrayList<>();
  private Optional<InstrumentId> instrument = Optional.empty();
  private Optional<Comparison> compares = Optional.empty();
  private final Map<CauseId, Change> changes = new LinkedHashMap<>();
  private Optional<Step.Swap> swap = Optional.empty();
  private final List<Harm> harms = new ArrayList<>();
  private boolean repeatable;
  private double copies = 1;

  /** A step that does nothing yet. */
  public StepSketch(String id) {
    this.id = new StepId(id);
  }

  /** Two outcomes, {@code positive} and {@code negative}, that look at one node. */
  public StepSketch looksAt(NodeId node, double catches, double criesWolf) {
    return shows(
        new Observation.OfNode(
            node,
            PackSketch.chance(catches),
            PackSketch.chance(criesWolf),
            OutcomeId.POSITIVE,
            OutcomeId.NEGATIVE));
  }

  /** A function test with the outcomes {@code failed} and {@code passed}. */
  public StepSketch proves(String complaint, String event, double catches, double criesWolf) {
    proves = Optional.of(new ComplaintId(complaint));
    return shows(
        new Observation.OfNode(
            new EventId(event),
            PackSketch.chance(catches),
            PackSketch.chance(criesWolf),
            new OutcomeId("failed"),
            new OutcomeId("passed")));
  }

  /** The function that it proves; what it shows is stated apart. */
  public StepSketch proves(ComplaintId complaint) {
    proves = Optional.of(complaint);
    return this;
  }

  /** Any observation. */
  public StepSketch shows(Observation observation) {
    shows = Optional.of(observation);
    return this;
  }

  /** A mode that it provokes. */
  public StepSketch provokes(ModeId mode) {
    provokes = mode;
    return this;
  }

  /** A point that is read in it. */
  public StepSketch reads(Point point) {
    points.add(point);
    return this;
  }

  /** Two points that it compares, and what makes them differ. */
  public StepSketch compares(Comparison comparison, Map<NodeId, Chance> pointsTo) {
    return compares(comparison).shows(Comparison.toTheEye(pointsTo));
  }

  /** Two points that it compares; what it shows is stated apart. */
  public StepSketch compares(Comparison comparison) {
    compares = Optional.of(comparison);
    return this;
  }

  /** What its points are read with. */
  public StepSketch instrument(String id) {
    instrument = Optional.of(new InstrumentId(id));
    return this;
  }

  /** A cause that it cures or hides. */
  public StepSketch changes(String cause, double cures, double hides) {
    changes.put(new CauseId(cause), new Change(PackSketch.chance(cures), PackSketch.chance(hides)));
    return this;
  }

  /** The part that it replaces. */
  public StepSketch swaps(String part, double donorGood) {
    swap = Optional.of(new Step.Swap(new PartId(part), PackSketch.chance(donorGood)));
    return this;
  }

  /** A cause that it may bring about. */
  public StepSketch mayCause(String cause, double chance) {
    harms.add(new Harm(new CauseId(cause), PackSketch.chance(chance), 0));
    return this;
  }

  /** A further attempt has a fresh chance. */
  public StepSketch repeatable() {
    repeatable = true;
    return this;
  }

  /** P(a repeat copies the first outcome). */
  public StepSketch copies(double kappa) {
    copies = kappa;
    return this;
  }

  /** The step as it stands now. */
  public Step build() {
    return new Step(
        id,
        "Do " + id,
        "",
        Effort.NONE,
        0,
        Step.Needs.NOTHING,
        provokes,
        shows,
        proves,
        points.isEmpty()
            ? Optional.empty()
            : Optional.of(new Step.PinTable(Optional.empty(), instrument, points)),
        changes,
        swap,
        harms,
        Optional.empty(),
        repeatable,
        copies,
        false,
        List.of(),
        Set.of(),
        Set.of(),
        Set.of(),
        compares);
  }
}
