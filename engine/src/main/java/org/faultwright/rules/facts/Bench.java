package org.faultwright.rules.facts;

import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import org.faultwright.pack.BenchState;
import org.faultwright.pack.CautionId;
import org.faultwright.pack.Ordered;

/** The bench as it is now. Each update is a fact of its own: two are equal when they are one. */
public final class Bench {

  private final Set<BenchState> positions;
  private final Ways ways;

  /** A bench with one position for each switch. */
  public Bench(Set<BenchState> positions, Ways ways) {
    this.positions = Ordered.copy(positions);
    this.ways = ways;
  }

  /** The position of each switch. */
  public Set<BenchState> positions() {
    return positions;
  }

  /** Whether a switch is in a position. */
  public boolean has(BenchState state) {
    return positions.contains(state);
  }

  /** Whether the device is closed. */
  public boolean closed() {
    return ways.open(positions).isEmpty();
  }

  /** The cautions of the turns on a way. */
  public Set<CautionId> cautionsOn(WayTo way) {
    Set<CautionId> found = new LinkedHashSet<>();
    way.turns().forEach(t -> found.addAll(ways.turn(t).cautions()));
    return found;
  }

  /** The way to what a step needs. */
  public WayTo wayTo(PackStep step) {
    Ways.Way way = ways.to(step.needs(), positions);
    return new WayTo(step.subject(), way.turns(), way.missing());
  }

  /** The way to one position. */
  public WayTo wayTo(BenchState state) {
    Ways.Way way = ways.to(List.of(state), positions);
    return new WayTo(Subject.position(state), way.turns(), way.missing());
  }

  /** The way to a closed device. */
  public WayTo wayToClosed() {
    List<BenchState> off =
        ways.open(positions).stream().map(s -> new BenchState(s.of(), false)).toList();
    Ways.Way way = ways.to(off, positions);
    return new WayTo(Subject.closing(), way.turns(), way.missing());
  }
}
