package org.faultwright.diagnosis;

import java.util.LinkedHashMap;
import java.util.Map;
import org.faultwright.casefile.Guard;
import org.faultwright.pack.BenchState;
import org.faultwright.pack.StepId;
import org.faultwright.planning.Permissions;
import org.faultwright.rules.Blocked;
import org.faultwright.rules.Findings;

/** Hands the guards that the rules composed to planning. */
final class Permitted {

  private Permitted() {}

  /** What may come open in some future: all that no reason outside its guard blocks. */
  static Permissions by(Findings findings) {
    Map<StepId, Guard> steps = new LinkedHashMap<>();
    findings
        .steps()
        .forEach(
            (id, status) -> {
              if (status.blocked().stream().allMatch(Permitted::isInGuard)) {
                steps.put(id, status.guard());
              }
            });
    Map<BenchState, Guard> turns = new LinkedHashMap<>();
    findings
        .turns()
        .forEach(
            (state, status) -> {
              if (status.blocked().stream().allMatch(Permitted::isInGuard)) {
                turns.put(state, status.guard());
              }
            });
    return new Permissions(steps, turns);
  }

  /**
   * Whether planning meets the reason again by itself: in the guard of the step, or in those of the
   * turns on the way to the bench that the step needs.
   */
  private static boolean isInGuard(Blocked blocked) {
    return blocked.unmet().isPresent()
        || switch (blocked.kind()) {
          case LACKS_CONSENT, SWITCH_UNREACHABLE -> true;
          default -> false;
        };
  }
}
