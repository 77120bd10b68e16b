package org.faultwright.diagnosis;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.faultwright.casefile.Fact;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.Change;
import org.faultwright.pack.ComplaintId;
import org.faultwright.pack.EventId;
import org.faultwright.pack.NodeId;
import org.faultwright.pack.Observation;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Part;
import org.faultwright.pack.Step;
import org.faultwright.pack.StepId;

/** By the definition of the trade alone: what depends on what, and which words are replaced. */
final class Corrections {

  private Corrections() {}

  /** The causes that can have a hand in a node. */
  static Set<CauseId> causesOf(Pack pack, Iterable<? extends NodeId> nodes) {
    Set<NodeId> seen = new HashSet<>();
    List<NodeId> open = new ArrayList<>();
    nodes.forEach(open::add);
    Set<CauseId> causes = new LinkedHashSet<>();
    while (!open.isEmpty()) {
      NodeId node = open.remove(open.size() - 1);
      if (seen.add(node)) {
        if (node instanceof CauseId cause) {
          causes.add(cause);
          open.addAll(pack.causes().get(cause).follows().keySet());
        } else if (node instanceof EventId event) {
          open.addAll(pack.events().get(event).inputs().keySet());
        }
      }
    }
    return causes;
  }

  /** The causes that can have a hand in the loss of a function. */
  static Set<CauseId> causesOf(Pack pack, ComplaintId complaint) {
    return causesOf(pack, List.of(pack.complaints().get(complaint).event()));
  }

  /** The causes that a step can cure, hide or bring about, as far as the step itself says so. */
  static Set<CauseId> touched(Pack pack, Step step) {
    Set<CauseId> touched = new LinkedHashSet<>(step.changes().keySet());
    step.mayCause().forEach(h -> touched.add(h.cause()));
    step.swap()
        .ifPresent(
            s -> {
              Part part = pack.parts().get(s.part());
              touched.addAll(part.carries());
              touched.add(part.bad());
              part.reseats().forEach(r -> touched.addAll(touched(pack, pack.steps().get(r))));
            });
    return touched;
  }

  private static Set<CauseId> hidden(Pack pack, Step step) {
    Set<CauseId> hidden = new LinkedHashSet<>();
    for (Map.Entry<CauseId, Change> change : step.changes().entrySet()) {
      if (change.getValue().hides().p() > 0) {
        hidden.add(change.getKey());
      }
    }
    return hidden;
  }

  /**
   * The facts without what a later word about the same thing, nothing changed between, replaces.
   */
  static List<Fact> standing(Pack pack, List<Fact> facts) {
    List<Fact> standing = new ArrayList<>();
    for (int i = 0; i < facts.size(); i++) {
      if (!isReplaced(pack, facts, i)) {
        standing.add(facts.get(i));
      }
    }
    return standing;
  }

  private static boolean isReplaced(Pack pack, List<Fact> facts, int which) {
    Fact fact = facts.get(which);
    Set<CauseId> ancestors;
    if (fact instanceof Fact.Complained) {
      ancestors = Set.of(); // what was the matter when the device came in
    } else if (fact instanceof Fact.HistorySaid || fact instanceof Fact.HistorySeen) {
      ancestors = Set.of();
    } else if (fact instanceof Fact.SymptomNoted s) {
      ancestors =
          pack.symptoms()
              .get(s.symptom())
              .shows()
              .map(o -> causesOf(pack, looksAt(o)))
              .orElse(Set.of());
    } else {
      return false;
    }
    Set<CauseId> hidden = Set.of();
    for (int i = 0; i < facts.size(); i++) {
      if (facts.get(i) instanceof Fact.StepDone done) {
        Step step = pack.steps().get(done.step());
        Set<CauseId> moved = new LinkedHashSet<>(touched(pack, step));
        moved.addAll(hidden);
        hidden = hidden(pack, step);
        if (i > which && moved.stream().anyMatch(ancestors::contains)) {
          return false;
        }
      } else if (i > which && Topics.of(facts.get(i)).equals(Topics.of(fact))) {
        return true;
      }
    }
    return false;
  }

  private static Set<NodeId> looksAt(Observation observation) {
    if (observation instanceof Observation.OfNode o) {
      return Set.of(o.node());
    } else if (observation instanceof Observation.OfNodes o) {
      return o.rates().keySet();
    } else if (observation instanceof Observation.OfTable o) {
      return new LinkedHashSet<>(o.given());
    }
    Set<NodeId> nodes = new LinkedHashSet<>();
    ((Observation.OfStates) observation).states().forEach(s -> nodes.addAll(s.triggers().keySet()));
    return nodes;
  }

  /** The last outcome of a test that proves a function, since it can last have been changed. */
  static Optional<String> lastProof(Pack pack, ComplaintId complaint, List<Fact> facts) {
    Set<CauseId> causes = causesOf(pack, complaint);
    Optional<String> proof = Optional.empty();
    for (Fact fact : facts) {
      if (fact instanceof Fact.StepDone done) {
        Step step = pack.steps().get(done.step());
        if (touched(pack, step).stream().anyMatch(causes::contains)) {
          proof = Optional.empty();
        }
      } else if (fact instanceof Fact.OutcomeSeen seen && proves(pack, seen.step(), complaint)) {
        proof = Optional.of(seen.outcome().value());
      }
    }
    return proof;
  }

  private static boolean proves(Pack pack, StepId step, ComplaintId complaint) {
    return pack.steps().get(step).proves().equals(Optional.of(complaint));
  }
}
