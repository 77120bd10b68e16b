package org.faultwright.casefile;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.Lineage;
import org.faultwright.pack.Ordered;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Step;
import org.faultwright.pack.StepId;

/**
 * The attempts made on a device so far, in order. Epoch 0 is the device as taken in; epoch k begins
 * with the k-th attempt. Immutable.
 */
public record Attempts(List<Attempt> made) {

  /** Copies the list. */
  public Attempts {
    made = List.copyOf(made);
  }

  /**
   * One attempt.
   *
   * @param fact the fact that tells of it
   * @param touched the causes that it touches, and those that the attempt before it may have
   *     hidden, since they act again
   */
  public record Attempt(FactId fact, StepId step, Set<CauseId> touched) {

    /** Copies the causes, keeping their order. */
    public Attempt {
      touched = Ordered.copy(touched);
    }

    /** Whether the attempt can have moved what depends on the given causes. */
    public boolean moves(Set<CauseId> ancestors) {
      return touched.stream().anyMatch(ancestors::contains);
    }
  }

  /** The attempts that the facts tell of; a fact about a step that the pack lacks is none. */
  public static Attempts of(Pack pack, Lineage lineage, List<Told> facts) {
    List<Attempt> made = new ArrayList<>();
    Set<CauseId> hidden = Set.of();
    for (Told told : facts) {
      if (!(told.fact() instanceof Fact.StepDone done)) {
        continue;
      }
      Step step = pack.steps().get(done.step());
      if (step == null || !step.isAttempt()) {
        continue;
      }
      Set<CauseId> touched = new LinkedHashSet<>(lineage.touches(step));
      touched.addAll(hidden);
      made.add(new Attempt(told.id(), done.step(), touched));
      Set<CauseId> hides = new LinkedHashSet<>();
      lineage
          .changes(step)
          .forEach(
              (cause, change) -> {
                if (change.hides().p() > 0) {
                  hides.add(cause);
                }
              });
      hidden = hides;
    }
    return new Attempts(made);
  }

  /** The epoch in which a fact was told: how many attempts came before it. */
  public int epochOf(FactId fact) {
    int epoch = 0;
    for (Attempt attempt : made) {
      if (attempt.fact().compareTo(fact) < 0) {
        epoch++;
      }
    }
    return epoch;
  }

  /** The first attempt after the fact that can have moved what depends on the given causes. */
  public Optional<Attempt> firstMoving(FactId since, Set<CauseId> ancestors) {
    return made.stream()
        .filter(a -> a.fact().compareTo(since) > 0 && a.moves(ancestors))
        .findFirst();
  }
}
