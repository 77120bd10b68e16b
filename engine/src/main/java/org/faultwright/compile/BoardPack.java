package org.faultwright.compile;

import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.faultwright.pack.BoardId;
import org.faultwright.pack.Cause;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.Chance;
import org.faultwright.pack.Harm;
import org.faultwright.pack.OneOf;
import org.faultwright.pack.Pack;
import org.faultwright.pack.PackDraft;
import org.faultwright.pack.Step;

/**
 * A pack on one of its boards: causes that the board cannot have are never present, and nothing
 * brings them about. All others are as likely as in the family, whatever their shares were solved
 * to there.
 */
final class BoardPack {

  private final Pack pack;
  private final Map<CauseId, Double> priors;
  private final Set<CauseId> absent = new LinkedHashSet<>();

  private BoardPack(Pack pack, BoardId board, Map<CauseId, Double> priors) {
    this.pack = pack;
    this.priors = priors;
    for (Cause c : pack.causes().values()) {
      if (!c.boards().isEmpty() && !c.boards().contains(board)) {
        absent.add(c.id());
      }
    }
  }

  /** The pack on a board; empty where the board can have every cause. */
  static Optional<Pack> of(Pack pack, BoardId board, Map<CauseId, Double> priors) {
    BoardPack on = new BoardPack(pack, board, priors);
    return on.absent.isEmpty() ? Optional.empty() : Optional.of(on.build());
  }

  private Pack build() {
    PackDraft draft = PackDraft.of(pack);
    draft.causes.replaceAll((id, c) -> absent.contains(id) ? absent(c) : there(c));
    draft.groups.replaceAll((id, g) -> without(g));
    draft.groups.values().removeIf(g -> g.members().isEmpty());
    draft.steps.replaceAll((id, s) -> harmless(s));
    return draft.build();
  }

  private OneOf without(OneOf group) {
    Set<CauseId> members = new LinkedHashSet<>(group.members());
    members.removeAll(absent);
    return new OneOf(group.id(), group.certain(), members);
  }

  private static Cause absent(Cause c) {
    return new Cause(
        c.id(),
        c.title(),
        c.kind(),
        new Cause.Likelihood.OnlyCaused(),
        Optional.empty(),
        Map.of(),
        Map.of(),
        c.shows(),
        c.boards(),
        c.sendOn());
  }

  private Cause there(Cause c) {
    Cause.Likelihood likelihood = c.likelihood();
    if (likelihood instanceof Cause.Likelihood.Share s) {
      Chance solved = new Chance(priors.get(c.id()), s.share().basis(), s.share().why());
      likelihood = new Cause.Likelihood.Prior(solved);
    }
    return c.withLikelihood(likelihood);
  }

  private Step harmless(Step s) {
    List<Harm> harms = s.mayCause().stream().filter(h -> !absent.contains(h.cause())).toList();
    return harms.size() == s.mayCause().size() ? s : s.withMayCause(harms);
  }
}
