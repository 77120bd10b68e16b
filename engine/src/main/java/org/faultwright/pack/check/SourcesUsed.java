package org.faultwright.pack.check;

import java.util.Collection;
import java.util.LinkedHashSet;
import java.util.Optional;
import java.util.Set;
import org.faultwright.pack.Basis;
import org.faultwright.pack.Cause;
import org.faultwright.pack.Chance;
import org.faultwright.pack.Complaint;
import org.faultwright.pack.History;
import org.faultwright.pack.Observation;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Point;
import org.faultwright.pack.SourceId;
import org.faultwright.pack.Step;

/** The sources on which the numbers of a pack rest. */
final class SourcesUsed {

  private final Set<SourceId> used = new LinkedHashSet<>();

  private SourcesUsed(Pack pack) {
    pack.instruments().values().forEach(i -> basis(i.basis()));
    pack.rails().values().forEach(r -> basis(r.basis()));
    for (Complaint c : pack.complaints().values()) {
      chance(c.reportedByMistake());
      chance(c.rate());
    }
    for (History h : pack.histories().values()) {
      chance(h.likely());
      witness(h.said());
      witness(h.seen());
    }
    pack.symptoms()
        .values()
        .forEach(
            s -> {
              chance(s.overlooked());
              s.shows().ifPresent(this::shows);
            });
    pack.causes().values().forEach(this::cause);
    pack.events()
        .values()
        .forEach(
            e -> {
              chances(e.inputs().values());
              chance(e.otherwise());
            });
    pack.steps().values().forEach(this::step);
  }

  /** All sources that some number names as its basis. */
  static Set<SourceId> in(Pack pack) {
    return new SourcesUsed(pack).used;
  }

  private void cause(Cause cause) {
    if (cause.likelihood() instanceof Cause.Likelihood.Prior p) {
      chance(p.chance());
    } else if (cause.likelihood() instanceof Cause.Likelihood.Share s) {
      chance(s.share());
    }
    chances(cause.follows().values());
    chances(cause.shows().values());
  }

  private void step(Step step) {
    step.shows().ifPresent(this::shows);
    step.changes()
        .values()
        .forEach(
            c -> {
              chance(c.cures());
              chance(c.hides());
            });
    step.swap().ifPresent(s -> chance(s.donorGood()));
    step.mayCause().forEach(h -> chance(h.chance()));
    for (Point point : step.pinTable().map(Step.PinTable::points).orElse(java.util.List.of())) {
      basis(point.basis());
      point.states().forEach(s -> chances(s.triggers().values()));
    }
  }

  private void shows(Observation shows) {
    if (shows instanceof Observation.OfNode o) {
      chance(o.catches());
      chance(o.criesWolf());
    } else if (shows instanceof Observation.OfNodes o) {
      chances(o.rates().values());
      chance(o.criesWolf());
    } else if (shows instanceof Observation.OfStates o) {
      o.states().forEach(s -> chances(s.triggers().values()));
      o.rows().values().forEach(r -> chances(r.values()));
    } else if (shows instanceof Observation.OfTable o) {
      o.rows().values().forEach(this::chances);
    }
  }

  private void witness(Optional<History.Witness> witness) {
    witness.ifPresent(
        w -> {
          chance(w.catches());
          chance(w.criesWolf());
        });
  }

  private void chances(Collection<Chance> chances) {
    chances.forEach(this::chance);
  }

  private void chance(Chance chance) {
    basis(chance.basis());
  }

  private void basis(Basis basis) {
    if (basis instanceof Basis.Sourced s) {
      used.add(s.source());
    }
  }
}
