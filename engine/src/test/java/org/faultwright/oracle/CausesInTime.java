package org.faultwright.oracle;

import static java.util.stream.Collectors.toCollection;

import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.faultwright.oracle.Timeline.Attempt;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.Change;
import org.faultwright.pack.GroupId;
import org.faultwright.pack.HistoryId;
import org.faultwright.pack.Pack;

/** The causes of one world from epoch to epoch. Bits are drawn when they are first asked for. */
final class CausesInTime {

  private record PresentIn(CauseId cause, int epoch) {}

  private final Pack pack;
  private final Priors priors;
  private final Timeline timeline;
  private final Chances chances;
  private final Map<PresentIn, Boolean> present = new HashMap<>();

  CausesInTime(Pack pack, Priors priors, Timeline timeline, Chances chances) {
    this.pack = pack;
    this.priors = priors;
    this.timeline = timeline;
    this.chances = chances;
  }

  /** Whether something happened to the device before it was taken in. */
  boolean happened(HistoryId history) {
    return chances.flip(List.of("history", history), pack.histories().get(history).likely().p());
  }

  /** Whether a cause is present in an epoch, acting or not. */
  boolean isPresent(CauseId cause, int epoch) {
    PresentIn key = new PresentIn(cause, epoch);
    Boolean known = present.get(key);
    if (known == null) {
      boolean byItself = epoch == 0 ? own(cause) : changed(cause, epoch);
      known = byItself || broughtAboutByOthers(cause, epoch);
      present.put(key, known);
    }
    return known;
  }

  private boolean broughtAboutByOthers(CauseId cause, int epoch) {
    return pack.causes().get(cause).follows().keySet().stream()
        .anyMatch(root -> isPresent(root, epoch) && follows(cause, root));
  }

  boolean follows(CauseId cause, CauseId root) {
    return chances.flip(
        List.of("follows", cause, root), pack.causes().get(cause).follows().get(root).p());
  }

  private boolean own(CauseId cause) {
    Optional<GroupId> group = pack.causes().get(cause).oneOf();
    return group.isPresent()
        ? group(group.get(), 0).equals(Optional.of(cause))
        : drawn(List.of("own", cause), priors.of(cause)).isPresent();
  }

  private Optional<CauseId> drawn(Object name, Priors.Own own) {
    Set<HistoryId> happened =
        own.histories().stream().filter(this::happened).collect(toCollection(LinkedHashSet::new));
    return own.states().get(chances.draw(name, priors.given(own, happened)));
  }

  /** The member of a group that is present in an epoch. */
  private Optional<CauseId> group(GroupId group, int epoch) {
    if (epoch == 0) {
      return drawn(List.of("group", group), priors.of(group));
    }
    Optional<CauseId> before = group(group, epoch - 1);
    if (before.isPresent()) {
      return isCured(before.get(), epoch) ? Optional.empty() : before;
    }
    return pack.groups().get(group).members().stream()
        .filter(member -> isHarmed(member, epoch))
        .findFirst();
  }

  /** Whether a cause is there after the attempt that began an epoch, what it follows aside. */
  private boolean changed(CauseId cause, int epoch) {
    Optional<GroupId> group = pack.causes().get(cause).oneOf();
    if (group.isPresent()) {
      return group(group.get(), epoch).equals(Optional.of(cause));
    }
    Double pBad = timeline.beginning(epoch).renewed().get(cause);
    if (pBad != null) {
      return isBadAnew(cause, epoch, pBad);
    }
    return isPresent(cause, epoch - 1) ? !isCured(cause, epoch) : isHarmed(cause, epoch);
  }

  boolean isCured(CauseId cause, int epoch) {
    Attempt attempt = timeline.beginning(epoch);
    Change change = attempt.changes().get(cause);
    if (change == null) {
      return false;
    }
    Object name =
        attempt.repeatable()
            ? List.of("success", attempt.step(), cause, epoch)
            : List.of("success", attempt.step(), cause);
    return chances.flip(name, change.cures().p());
  }

  boolean isBadAnew(CauseId cause, int epoch, double pBad) {
    return chances.flip(List.of("bad anew", cause, epoch), pBad);
  }

  boolean isHarmed(CauseId cause, int epoch) {
    Double pHarm = timeline.beginning(epoch).harms().get(cause);
    return pHarm != null && chances.flip(List.of("harm", cause, epoch), pHarm);
  }

  /**
   * Whether the attempt that began an epoch hides a cause, should the cause be present after it.
   */
  boolean isHidden(CauseId cause, int epoch) {
    if (epoch == 0) {
      return false;
    }
    Change change = timeline.beginning(epoch).changes().get(cause);
    return change != null && chances.flip(List.of("hidden", cause, epoch), change.hides().p());
  }
}
