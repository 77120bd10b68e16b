package org.faultwright.pack;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/**
 * Anything done at the bench. Its blocks say what it shows, what it changes and what harm it may
 * cause; the kind follows from the blocks.
 *
 * @param title what to do, as an instruction
 * @param how more words on how to do it
 * @param effort time it takes, without getting the bench ready for it
 * @param consumables cost of what is used up, in the shop's currency
 * @param conditions what must hold before it is done
 * @param provokes what the step does to faults that come and go
 * @param shows what can be seen
 * @param proves the complaint whose function the step proves
 * @param pinTable readings taken in the step
 * @param changes causes it may cure or hide
 * @param swap the part it replaces
 * @param mayCause harm it may do
 * @param thenRepeat the step to repeat afterwards
 * @param repeatable whether a further attempt has a fresh chance of success
 * @param copies kappa: P(a repeat in the same setup copies the first outcome); default 1: a repeat
 *     tells nothing
 * @param dataRisk whether the step can lose the customer's data
 * @param limits the most that may be applied
 * @param cautions shown beside it
 * @param does activities it involves, for holds
 * @param boards the board variants that it is for; empty: all
 * @param compares two points that it compares, by their readings or by eye
 */
public record Step(
    StepId id,
    String title,
    String how,
    Effort effort,
    double consumables,
    Needs conditions,
    ModeId provokes,
    Optional<Observation> shows,
    Optional<ComplaintId> proves,
    Optional<PinTable> pinTable,
    Map<CauseId, Change> changes,
    Optional<Swap> swap,
    List<Harm> mayCause,
    Optional<StepId> thenRepeat,
    boolean repeatable,
    double copies,
    boolean dataRisk,
    List<Limit> limits,
    Set<CautionId> cautions,
    Set<ActivityId> does,
    Set<BoardId> boards,
    Optional<Comparison> compares) {

  /** Copies the collections, keeping their order, and checks kappa. */
  public Step {
    changes = Ordered.copy(changes);
    mayCause = List.copyOf(mayCause);
    limits = List.copyOf(limits);
    cautions = Ordered.copy(cautions);
    does = Ordered.copy(does);
    boards = Ordered.copy(boards);
    if (!(copies >= 0 && copies <= 1)) {
      throw new IllegalArgumentException("copies must be in [0, 1]: " + copies);
    }
  }

  /** The same step with other harm that it may do. */
  public Step withMayCause(List<Harm> harms) {
    return new Step(
        id,
        title,
        how,
        effort,
        consumables,
        conditions,
        provokes,
        shows,
        proves,
        pinTable,
        changes,
        swap,
        harms,
        thenRepeat,
        repeatable,
        copies,
        dataRisk,
        limits,
        cautions,
        does,
        boards,
        compares);
  }

  /** What must hold before a step is done. */
  public record Needs(
      Set<BenchState> bench,
      Set<ComplaintId> working,
      Condition onlyIf,
      Set<StepId> after,
      Set<ToolId> tools,
      Set<ConsentId> consent,
      Optional<Skill> skill) {

    /** No conditions at all. */
    public static final Needs NOTHING =
        new Needs(
            Set.of(),
            Set.of(),
            new Condition.Always(),
            Set.of(),
            Set.of(),
            Set.of(),
            Optional.empty());

    /** Copies the sets, keeping their order. */
    public Needs {
      bench = Ordered.copy(bench);
      working = Ordered.copy(working);
      after = Ordered.copy(after);
      tools = Ordered.copy(tools);
      consent = Ordered.copy(consent);
    }
  }

  /** The skill that a step asks for, least first. */
  public enum Skill {
    /** Anyone at the counter. */
    COUNTER,
    /** A bench technician. */
    BENCH,
    /** Work on the board under a microscope. */
    BOARD,
    /** Licensed or specially trained hands. */
    LICENSED
  }

  /**
   * Readings taken in one step.
   *
   * @param leads how the leads are put, for example {@code red-on-ground}; empty: as the
   *     instrument's manual says
   * @param instrument the instrument
   * @param points the points, in the order in which they are read
   * @param connector the connector whose pins they are, where it is described
   */
  public record PinTable(
      Optional<String> leads,
      Optional<InstrumentId> instrument,
      List<Point> points,
      Optional<Connector> connector) {

    /** Copies the list. */
    public PinTable {
      points = List.copyOf(points);
    }

    /** Points of which no more is known. */
    public PinTable(Optional<String> leads, Optional<InstrumentId> instrument, List<Point> points) {
      this(leads, instrument, points, Optional.empty());
    }
  }

  /**
   * A connector as its socket is seen.
   *
   * @param pins how many pins it has, at least 1
   * @param ground its pins that are ground
   * @param unused its pins that are connected to nothing
   */
  public record Connector(int pins, Set<String> ground, Set<String> unused) {

    /** Copies the sets, keeping their order, and checks the count. */
    public Connector {
      ground = Ordered.copy(ground);
      unused = Ordered.copy(unused);
      if (pins < 1) {
        throw new IllegalArgumentException("pins must be at least 1: " + pins);
      }
    }
  }

  /**
   * Replacing a part.
   *
   * @param donorGood P(the new part is good)
   */
  public record Swap(PartId part, Chance donorGood) {}

  /** The kind of a step. */
  public enum Kind {
    /** Proves that a function is back. */
    FUNCTION_TEST,
    /** Replaces a part. */
    SWAP,
    /** Changes the device in another way. */
    REPAIR,
    /** Shows something. */
    TEST,
    /** Neither shows nor changes anything: gets something ready. */
    PREPARE
  }

  /** What kind of step this is. */
  public Kind kind() {
    if (proves.isPresent()) {
      return Kind.FUNCTION_TEST;
    }
    if (swap.isPresent()) {
      return Kind.SWAP;
    }
    if (!changes.isEmpty()) {
      return Kind.REPAIR;
    }
    return shows.isPresent() || pinTable.isPresent() ? Kind.TEST : Kind.PREPARE;
  }

  /** Whether doing the step can change which causes are present or act: it opens a new epoch. */
  public boolean isAttempt() {
    return swap.isPresent() || !changes.isEmpty() || !mayCause.isEmpty();
  }
}
