package org.faultwright.planning;

import java.util.ArrayList;
import java.util.List;
import org.faultwright.pack.EventId;
import org.faultwright.pack.ModeId;
import org.faultwright.pack.Step;

/**
 * What one carrying out of a step shows, outcomes and readings together: its possible findings and
 * how likely each is in a world. What comes and goes is drawn once for all of them.
 */
final class Sight {

  private final List<Facet> facets;

  /** Whether it sees what is there even where it is hidden. */
  final boolean hiddenToo;

  /** What may come out. */
  final List<Seen> findings;

  /** The finding to expect of a device in order, by its place. */
  final int pass;

  /** For each cause P(it acts in this look | present and not hidden). */
  final double[] pActs;

  private Sight(List<Facet> facets, double[] pActs, boolean hiddenToo) {
    this.facets = facets;
    this.hiddenToo = hiddenToo;
    this.pActs = pActs;
    Facet first = facets.get(0);
    if (facets.size() == 1) {
      findings = first.outcomes();
      pass = first.pass();
    } else {
      List<Seen> both = new ArrayList<>();
      for (Seen shown : first.outcomes()) {
        facets.get(1).outcomes().forEach(read -> both.add(new Seen.Both((Seen.Shown) shown, read)));
      }
      findings = both;
      pass = first.pass() * facets.get(1).outcomes().size() + facets.get(1).pass();
    }
  }

  /** What a step shows, with the given facets; one or two. */
  static Sight of(FaultLogic logic, Step step, List<Facet> facets) {
    return new Sight(
        facets, pActs(logic, step.provokes()), step.provokes().equals(ModeId.INSPECTION));
  }

  /** A look at the function itself, at rest. */
  static Sight of(FaultLogic logic, EventId lost, Shop.Proof proof) {
    return new Sight(
        List.of(Facet.ofNode(logic, lost, proof.catches(), proof.criesWolf())),
        pActs(logic, ModeId.AT_REST),
        false);
  }

  /** For each cause P(it acts | present and not hidden) in a look that provokes a mode. */
  static double[] pActs(FaultLogic logic, ModeId mode) {
    return logic.causes.stream().mapToDouble(c -> logic.pack.causes().get(c).pActs(mode)).toArray();
  }

  /** As {@link Facet#settle}, for all facets. */
  int settle(Look look, double[] row) {
    if (facets.size() == 1) {
      return facets.get(0).settle(look, row);
    }
    double[] shown = new double[facets.get(0).outcomes().size()];
    double[] read = new double[facets.get(1).outcomes().size()];
    int pivot = facets.get(0).settle(look, shown);
    pivot = pivot == Facet.SETTLED ? facets.get(1).settle(look, read) : pivot;
    if (pivot == Facet.SETTLED) {
      int o = 0;
      for (double a : shown) {
        for (double b : read) {
          row[o++] = a * b;
        }
      }
    }
    return pivot;
  }
}
