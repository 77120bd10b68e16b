package org.faultwright.pack.check;

import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.Map;
import java.util.Set;
import java.util.function.Consumer;
import org.faultwright.pack.Cause;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.ComplaintId;
import org.faultwright.pack.NodeId;
import org.faultwright.pack.Pack;
import org.faultwright.problem.Problem;

/** A complaint some of whose causes state shares and others priors. */
final class SharesMixed implements PackCheck {

  @Override
  public String id() {
    return "shares-mixed";
  }

  @Override
  public void check(Pack pack, Positions at, Consumer<Problem> found) {
    Descent descent = new Descent(pack);
    Map<ComplaintId, CauseId> shared = new LinkedHashMap<>();
    for (Cause cause : pack.causes().values()) {
      if (cause.likelihood() instanceof Cause.Likelihood.Share share) {
        shared.putIfAbsent(share.of(), cause.id());
      }
    }
    Set<CauseId> reported = new LinkedHashSet<>();
    shared.forEach(
        (complaint, example) -> {
          for (NodeId node : descent.of(pack.complaints().get(complaint).event())) {
            if (node instanceof CauseId cause
                && pack.causes().get(cause).likelihood() instanceof Cause.Likelihood.Prior
                && reported.add(cause)) {
              found.accept(
                  Problem.error(
                      id(),
                      at.of("causes/" + cause + "/prior"),
                      "cause '%s' states a prior, but other causes of complaint '%s', such as '%s',"
                              .formatted(cause, complaint, example)
                          + " state shares",
                      "state a share of '%s' for each of its causes, or a prior for each"
                          .formatted(complaint)));
            }
          }
        });
  }
}
