package org.faultwright.pack.check;

import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Consumer;
import org.faultwright.pack.Basis;
import org.faultwright.pack.Cause;
import org.faultwright.pack.Complaint;
import org.faultwright.pack.ComplaintId;
import org.faultwright.pack.GroupId;
import org.faultwright.pack.Pack;
import org.faultwright.problem.Problem;

/** A rate that has no effect, because exactly one cause of the complaint is always present. */
final class CertainGroupWithRate implements PackCheck {

  @Override
  public String id() {
    return "certain-group-with-rate";
  }

  @Override
  public void check(Pack pack, Positions at, Consumer<Problem> found) {
    Map<ComplaintId, Set<Optional<GroupId>>> groupsOf = new LinkedHashMap<>();
    for (Cause cause : pack.causes().values()) {
      if (cause.likelihood() instanceof Cause.Likelihood.Share s) {
        groupsOf.computeIfAbsent(s.of(), k -> new LinkedHashSet<>()).add(cause.oneOf());
      }
    }
    for (Complaint complaint : pack.complaints().values()) {
      Set<Optional<GroupId>> groups = groupsOf.getOrDefault(complaint.id(), Set.of());
      boolean certain =
          groups.size() == 1
              && groups.iterator().next().map(g -> pack.groups().get(g).certain()).orElse(false);
      boolean stated = !(complaint.rate().basis() instanceof Basis.ByDefinition);
      if (certain && stated) {
        found.accept(
            Problem.warning(
                id(),
                at.of("complaints/" + complaint.id() + "/rate"),
                "rate of complaint '%s' has no effect: its causes are members of a group of which one"
                        .formatted(complaint.id())
                    + " is certain",
                "leave out the rate, or 'certain'"));
      }
    }
  }
}
