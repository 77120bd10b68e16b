package org.faultwright.compile;

import java.util.List;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.HistoryId;

/**
 * How likely causes are of their own accord, by history.
 *
 * @param histories the histories that they come after, in pack order
 * @param members one cause, or the members of a group, of which at most one is present
 * @param rows for each combination of the histories (did not happen before happened, the last
 *     running fastest) first P(none), then P(member) in order
 */
public record GivenHistory(List<HistoryId> histories, List<CauseId> members, List<Double> rows) {

  /** Copies the lists. */
  public GivenHistory {
    histories = List.copyOf(histories);
    members = List.copyOf(members);
    rows = List.copyOf(rows);
  }
}
