package org.faultwright.rules.facts;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import org.faultwright.pack.BenchState;
import org.faultwright.pack.BoardId;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.Complaint;
import org.faultwright.pack.ComplaintId;
import org.faultwright.pack.Condition;
import org.faultwright.pack.Conventions;
import org.faultwright.pack.Ordered;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Point;
import org.faultwright.pack.Step;
import org.faultwright.pack.StepId;
import org.faultwright.pack.Switch;
import org.faultwright.pack.ToolId;

/** A step of the pack. Two are equal when they have the same id. */
public final class PackStep {

  /**
   * How often a repeatable repair may be tried before it is left alone: a judgement, so that a job
   * ends whatever the answers.
   */
  private static final int MOST_ATTEMPTS = 3;

  private final Step step;
  private final int order;
  private final boolean doneClosed;
  private final Optional<Complaint> proves;
  private final Set<CauseId> changed;

  /**
   * Wraps a step.
   *
   * @param changed the causes that it can cure or hide
   * @param order its place in the pack
   */
  public PackStep(Pack pack, Step step, Set<CauseId> changed, int order) {
    this.step = step;
    this.order = order;
    this.changed = Ordered.copy(changed);
    this.proves = step.proves().map(pack.complaints()::get);
    boolean closed = true;
    for (BenchState state : step.conditions().bench()) {
      Switch of = pack.switches().get(state.of());
      closed &= !(state.on() && of != null && of.closedWhenOff());
    }
    this.doneClosed = closed;
  }

  /** Its id. */
  public StepId id() {
    return step.id();
  }

  /** The step. */
  public Step step() {
    return step;
  }

  /** What the rules say about when it is open. */
  public Subject subject() {
    return new Subject.OfStep(step.id());
  }

  /** Its place in the pack. */
  public int order() {
    return order;
  }

  /** What kind of step it is. */
  public Step.Kind kind() {
    return step.kind();
  }

  /** The bench positions that it needs. */
  public Set<BenchState> needs() {
    return step.conditions().bench();
  }

  /** The functions that it needs. */
  public Set<ComplaintId> working() {
    return step.conditions().working();
  }

  /** The condition that it states. */
  public Condition onlyIf() {
    return step.conditions().onlyIf();
  }

  /** Whether it states one. */
  public boolean conditional() {
    return !(onlyIf() instanceof Condition.Always);
  }

  /** The steps that it waits for. */
  public Set<StepId> after() {
    return step.conditions().after();
  }

  /** The tools that it needs. */
  public Set<ToolId> tools() {
    return step.conditions().tools();
  }

  /** The boards that it is for; empty: all. */
  public Set<BoardId> boards() {
    return step.boards();
  }

  /** The complaint whose function it proves. */
  public Optional<Complaint> proves() {
    return proves;
  }

  /** Whether it proves the function of this complaint. */
  public boolean provesFunctionOf(ComplaintId complaint) {
    return proves.isPresent() && proves.get().id().equals(complaint);
  }

  /** Whether it proves a function that counts only once the device is closed, and can do so. */
  public boolean provesClosed() {
    return doneClosed && proves.isPresent() && proves.get().countsClosed();
  }

  /** Whether it names a step to do afterwards. */
  public boolean followedBy(StepId other) {
    return step.thenRepeat().isPresent() && step.thenRepeat().get().equals(other);
  }

  /** Whether it changes the device, or gets something ready: done once, it is done. */
  public boolean doneOnce() {
    return switch (kind()) {
      case REPAIR, SWAP, PREPARE -> true;
      case FUNCTION_TEST, TEST -> false;
    };
  }

  /** Whether it is a repair: it changes the device. */
  public boolean repairs() {
    return kind() == Step.Kind.REPAIR || kind() == Step.Kind.SWAP;
  }

  /** Whether it saves the customer's data. */
  public boolean savesData() {
    return id().equals(Conventions.BACK_UP_DATA);
  }

  /** Whether it can put a cause right. */
  public boolean cures(CauseId cause) {
    return repairs() && changed.contains(cause);
  }

  /** That the device has one of its boards. */
  public Condition onItsBoards() {
    return new Condition.Any(
        step.boards().stream().<Condition>map(Condition.BoardIs::new).toList());
  }

  /** Whether it has been carried out as often as makes sense. */
  public boolean triedEnough(int times) {
    return times >= (step.repeatable() ? MOST_ATTEMPTS : 1);
  }

  /** Whether a repeat can only copy what was seen while nothing changed. */
  public boolean repeatsTellNothing() {
    return step.copies() == 1;
  }

  /** Whether it shows anything. */
  public boolean showsSomething() {
    return step.shows().isPresent() || step.pinTable().isPresent();
  }

  /** Whether it compares two points. */
  public boolean comparesPoints() {
    return step.compares().isPresent();
  }

  /** The readings that it compares; empty where it compares nothing. */
  public List<Topic> compared() {
    return step.compares().stream()
        .flatMap(c -> Stream.of(c.point(), c.with()))
        .map(point -> new Topic(Topic.Kind.READING, point))
        .toList();
  }

  /** What it shows on a board; on an unknown board the points that every board has. */
  public List<Shows> shows(Optional<BoardId> board) {
    List<Shows> found = new ArrayList<>();
    if (step.shows().isPresent()) {
      found.add(new Shows(id(), new Topic(Topic.Kind.OUTCOME, id())));
    }
    for (Point point : step.pinTable().map(Step.PinTable::points).orElse(List.of())) {
      if (point.boards().isEmpty() || (board.isPresent() && point.boards().contains(board.get()))) {
        found.add(new Shows(id(), new Topic(Topic.Kind.READING, point.id())));
      }
    }
    return found;
  }

  @Override
  public boolean equals(Object other) {
    return other instanceof PackStep s && s.id().equals(id());
  }

  @Override
  public int hashCode() {
    return id().hashCode();
  }
}
