package org.faultwright.faulttree;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Map;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Assume;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import org.assertj.core.data.Offset;
import org.faultwright.casefile.Told;
import org.faultwright.compile.CompiledPack;
import org.faultwright.compile.PackCompilation;
import org.faultwright.oracle.Facts;
import org.faultwright.oracle.PackFeature;
import org.faultwright.oracle.RandomPacks;
import org.faultwright.oracle.TooManyWorldsException;
import org.faultwright.oracle.WorldEnumerator;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.Complaint;
import org.faultwright.pack.EventId;
import org.faultwright.pack.Pack;

/** Trees of random packs. Oracle: all worlds of the pack, one by one, from its semantics. */
class PackTreeProperty {

  /** Sums of a few thousand products; shares are met to 1e-12. */
  private static final Offset<Double> EXACT = within(1e-9);

  private static final long MOST_WORLDS = 4_000;

  @Provide
  Arbitrary<Pack> packs() {
    return RandomPacks.packs(PackFeature.withoutAttempts());
  }

  @Provide
  Arbitrary<Pack> packsWithShares() {
    return RandomPacks.packsWithShares(PackFeature.withoutAttempts());
  }

  @Property(tries = 150)
  void complaintIsThatOfAllWorlds(@ForAll("packs") Pack pack) {
    holds(pack);
  }

  @Property(tries = 50)
  void complaintIsThatOfAllWorlds_whenCausesStateShares(@ForAll("packsWithShares") Pack pack) {
    holds(pack);
  }

  @Property(tries = 150)
  void eventIsThatOfAllWorlds_atRest(@ForAll("packs") Pack pack) {
    WorldEnumerator worlds = enumerator(pack, List.of());
    for (EventId event : pack.events().keySet()) {
      TreeFigures figures = figures(PackTree.of((CompiledPack) CompiledPack.compile(pack), event));
      assertThat(exact(figures).pTop()).as("%s", event).isCloseTo(p(worlds, event), EXACT);
    }
  }

  private static void holds(Pack pack) {
    PackCompilation compilation = CompiledPack.compile(pack);
    Assume.that(compilation instanceof CompiledPack);
    for (Complaint complaint : pack.complaints().values()) {
      PackTree tree = PackTree.of((CompiledPack) compilation, complaint.id());
      TreeFigures figures = figures(tree);
      // P(reported) = P(lost) + P(by mistake) * P(not lost)
      double pReported = p(enumerator(pack, Facts.told(Facts.reported(complaint.id().value()))));
      double pMistake = complaint.reportedByMistake().p();
      double pLost = (pReported - pMistake) / (1 - pMistake);
      if (pMistake == 1) {
        continue;
      }
      assertThat(exact(figures).pTop()).isCloseTo(pLost, EXACT);
      if (tree.leavesOut().isEmpty()) {
        assertThat(figures.pTop()).isCloseTo(exact(figures).pTop(), EXACT);
      }
      if (pMistake == 0 && pLost > 1e-3) {
        givenTheComplaint(pack, complaint, exact(figures).pGivenTop());
      }
    }
  }

  private static void givenTheComplaint(
      Pack pack, Complaint complaint, Map<EventName, Double> pGivenTop) {
    WorldEnumerator reported = enumerator(pack, Facts.told(Facts.reported(complaint.id().value())));
    for (CauseId cause : pack.causes().keySet()) {
      Double found = pGivenTop.get(PackTree.name(cause));
      if (found != null) {
        assertThat(found).as("%s", cause).isCloseTo(reported.p(cause), EXACT);
      }
    }
  }

  private static TreeFigures figures(PackTree tree) {
    return (TreeFigures)
        TreeAnalysis.of(tree.tree(), tree.top(), tree.dependence(), AnalysisLimits.USUAL);
  }

  private static CircuitResult.Exact exact(TreeFigures figures) {
    return (CircuitResult.Exact) figures.circuit();
  }

  private static WorldEnumerator enumerator(Pack pack, List<Told> facts) {
    return WorldEnumerator.of(pack, facts).withMostWorlds(MOST_WORLDS);
  }

  private static double p(WorldEnumerator worlds) {
    try {
      return worlds.pEvidence();
    } catch (TooManyWorldsException e) {
      Assume.that(false);
      throw e;
    }
  }

  private static double p(WorldEnumerator worlds, EventId event) {
    try {
      return worlds.p(event);
    } catch (TooManyWorldsException e) {
      Assume.that(false);
      throw e;
    }
  }
}
