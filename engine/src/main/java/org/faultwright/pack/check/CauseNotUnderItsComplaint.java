package org.faultwright.pack.check;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Set;
import java.util.function.Consumer;
import org.faultwright.pack.Cause;
import org.faultwright.pack.ComplaintId;
import org.faultwright.pack.EventId;
import org.faultwright.pack.NodeId;
import org.faultwright.pack.Pack;
import org.faultwright.problem.Problem;

/** A share of a complaint that the cause cannot bring about. */
final class CauseNotUnderItsComplaint implements PackCheck {

  @Override
  public String id() {
    return "cause-not-under-its-complaint";
  }

  @Override
  public void check(Pack pack, Positions at, Consumer<Problem> found) {
    Descent descent = new Descent(pack);
    Map<ComplaintId, Set<NodeId>> below = new LinkedHashMap<>();
    for (Cause cause : pack.causes().values()) {
      if (!(cause.likelihood() instanceof Cause.Likelihood.Share share)) {
        continue;
      }
      EventId event = pack.complaints().get(share.of()).event();
      if (!below.computeIfAbsent(share.of(), f -> descent.of(event)).contains(cause.id())) {
        found.accept(
            Problem.error(
                id(),
                at.of("causes/" + cause.id() + "/of"),
                "cause '%s' has a share of complaint '%s', but cannot bring it about"
                    .formatted(cause.id(), share.of()),
                "name it as an input of event '%s' or of one below it".formatted(event)));
      }
    }
  }
}
