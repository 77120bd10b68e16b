package org.faultwright.diagnosis;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.Lineage;
import org.faultwright.pack.Pack;
import org.faultwright.planning.RepairWay;
import org.faultwright.rules.facts.RootFirst;

/** Repairs of what follows a cause that is likely still there. */
final class Roots {

  /** From here on a cause is likely. */
  private static final double P_LIKELY = 0.5;

  private final Pack pack;
  private final Lineage lineage;
  private final Posterior posterior;

  Roots(Pack pack, Lineage lineage, Posterior posterior) {
    this.pack = pack;
    this.lineage = lineage;
    this.posterior = posterior;
  }

  /** The repairs among these that put right a likely follower and leave its likely root. */
  List<RootFirst> before(List<RepairWay> ways) {
    List<RootFirst> found = new ArrayList<>();
    for (RepairWay way : ways) {
      Set<CauseId> cured = lineage.changes(pack.steps().get(way.repair())).keySet();
      List<CauseId> likely =
          cured.stream().filter(pack.causes()::containsKey).filter(this::isLikely).toList();
      List<RootFirst> of = new ArrayList<>();
      for (CauseId follower : likely) {
        root(follower, cured)
            .ifPresent(root -> of.add(new RootFirst(way.repair(), follower, root)));
      }
      if (!of.isEmpty() && of.size() == likely.size()) { // else it is done for another cause
        found.add(of.get(0));
      }
    }
    return found;
  }

  private boolean isLikely(CauseId cause) {
    return posterior.p(cause) >= P_LIKELY;
  }

  private java.util.Optional<CauseId> root(CauseId follower, Set<CauseId> cured) {
    return pack.causes().get(follower).follows().keySet().stream()
        .filter(root -> !cured.contains(root) && isLikely(root))
        .findFirst();
  }
}
