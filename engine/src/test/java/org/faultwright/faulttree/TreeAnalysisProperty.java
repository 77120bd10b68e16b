package org.faultwright.faulttree;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import org.assertj.core.data.Offset;
import org.faultwright.inference.Inquiry;
import org.faultwright.inference.Marginals;

/** Figures of random trees. Oracle: all states of the basic events, one by one. */
class TreeAnalysisProperty {

  /** A few hundred additions and multiplications of numbers in [0, 1]. */
  private static final Offset<Double> ROUNDING = within(1e-12);

  /** The same relative to the result, where only positive numbers are added. */
  private static final double RELATIVE = 1e-11;

  @Property(tries = 300)
  void diagramCircuitAndEnumerationAgree(@ForAll long seed) {
    FaultTree tree = RandomTrees.any(seed);
    TreeFigures figures = figures(tree);
    CircuitResult.Exact circuit = (CircuitResult.Exact) figures.circuit();
    double pTop = RandomTrees.p(tree, top(tree));
    double pNot = RandomTrees.p(tree, top(tree).negate());
    for (double p : new double[] {figures.pTop(), circuit.pTop()}) {
      assertThat(p).isCloseTo(pTop, within(RELATIVE * pTop));
    }
    for (double p : new double[] {figures.pNotTop(), circuit.pNotTop()}) {
      assertThat(p).isCloseTo(pNot, within(RELATIVE * pNot));
    }
  }

  @Property(tries = 150)
  void cutSetsAreTheSmallestSetsOfBruteForce(@ForAll long seed) {
    FaultTree tree = RandomTrees.any(seed);
    Set<Set<EventName>> solutions = new HashSet<>();
    for (Set<EventName> happening : RandomTrees.subsets(below(tree))) {
      if (top(tree).test(happening)) {
        solutions.add(happening);
      }
    }
    Set<Set<EventName>> smallest =
        solutions.stream()
            .filter(s -> solutions.stream().noneMatch(t -> t.size() < s.size() && s.containsAll(t)))
            .collect(Collectors.toSet());
    CutSets found = cutSets(figures(tree));
    assertThat(found.listed().stream().map(c -> (Set<EventName>) new HashSet<>(c.events())))
        .containsExactlyInAnyOrderElementsOf(smallest);
    assertThat(found.count()).isEqualTo(smallest.size());
    found
        .byOrder()
        .forEach(
            (order, count) ->
                assertThat(count)
                    .isEqualTo(smallest.stream().filter(s -> s.size() == order).count()));
    assertThat(found.listed().stream().map(CutSets.CutSet::p))
        .isSortedAccordingTo((a, b) -> Double.compare(b, a));
  }

  @Property(tries = 50)
  void primeImplicantsAreThoseOfBruteForce(@ForAll long seed) {
    FaultTree tree = RandomTrees.any(seed);
    TreeFigures figures = figures(tree);
    if (figures.isCoherent()) {
      assertThat(figures.primeImplicants()).isEmpty();
      return;
    }
    List<EventName> basics = below(tree);
    Set<List<Set<EventName>>> implicants = new HashSet<>();
    for (Set<EventName> fixed : RandomTrees.subsets(basics)) {
      for (Set<EventName> happen : RandomTrees.subsets(List.copyOf(fixed))) {
        Set<EventName> absent = new LinkedHashSet<>(fixed);
        absent.removeAll(happen);
        if (RandomTrees.subsets(basics).stream()
            .filter(s -> s.containsAll(happen) && absent.stream().noneMatch(s::contains))
            .allMatch(top(tree))) {
          implicants.add(List.of(happen, absent));
        }
      }
    }
    Set<List<Set<EventName>>> prime =
        implicants.stream()
            .filter(
                a ->
                    implicants.stream()
                        .noneMatch(
                            b ->
                                !b.equals(a)
                                    && a.get(0).containsAll(b.get(0))
                                    && a.get(1).containsAll(b.get(1))))
            .collect(Collectors.toSet());
    assertThat(
            figures.primeImplicants().orElseThrow().listed().stream()
                .map(i -> List.of(Set.copyOf(i.happen()), Set.copyOf(i.absent())))
                .collect(Collectors.toSet()))
        .isEqualTo(prime);
  }

  @Property(tries = 200)
  void topLiesBetweenTheLargestCutSetAndTheBounds_whenCoherent(@ForAll long seed) {
    FaultTree tree = RandomTrees.coherent(seed);
    TreeFigures figures = figures(tree);
    CutSets cutSets = cutSets(figures);
    assertThat(figures.isCoherent()).isTrue();
    double slack = 1 + RELATIVE;
    assertThat(figures.pTop() * slack).isGreaterThanOrEqualTo(cutSets.listed().get(0).p());
    double bound = cutSets.minCutUpperBound().orElseThrow();
    assertThat(figures.pTop()).isLessThanOrEqualTo(bound * slack);
    assertThat(bound).isLessThanOrEqualTo(cutSets.pSum() * slack);
  }

  /** The cut sets of a tree that is not coherent are those of a coherent one that is above it. */
  @Property(tries = 200)
  void boundsHold_whetherCoherentOrNot(@ForAll long seed) {
    TreeFigures figures = figures(RandomTrees.any(seed));
    CutSets cutSets = cutSets(figures);
    double bound = cutSets.minCutUpperBound().orElseThrow();
    assertThat(figures.pTop()).isLessThanOrEqualTo(bound * (1 + RELATIVE));
    assertThat(bound).isLessThanOrEqualTo(cutSets.pSum() * (1 + RELATIVE));
  }

  /** The tree as a network for exchange says the same of each event. */
  @Property(tries = 150)
  void networkOfTheTree_hasTheProbabilityOfEachEvent(@ForAll long seed) {
    FaultTree tree = RandomTrees.any(seed);
    TreeNetwork network = TreeNetwork.of(tree);
    Marginals.Exact all =
        (Marginals.Exact)
            Inquiry.of(Map.of(), Set.copyOf(network.events().values())).of(network.tables());
    network
        .events()
        .forEach(
            (event, v) ->
                assertThat(all.p().get(v)[1])
                    .isCloseTo(
                        RandomTrees.p(tree, s -> RandomTrees.happens(tree, event, s)), ROUNDING));
  }

  @Property(tries = 80)
  void importancesAreThoseOfEnumeration(@ForAll long seed) {
    FaultTree tree = RandomTrees.any(seed);
    TreeFigures figures = figures(tree);
    CircuitResult.Exact circuit = (CircuitResult.Exact) figures.circuit();
    double pTop = RandomTrees.p(tree, top(tree));
    for (Importance i : figures.importances()) {
      EventName e = i.event();
      double with = RandomTrees.p(RandomTrees.with(tree, e, 1), top(tree));
      double without = RandomTrees.p(RandomTrees.with(tree, e, 0), top(tree));
      assertThat(i.birnbaum()).isCloseTo(with - without, ROUNDING);
      assertThat(i.relative().isPresent()).isEqualTo(pTop > 0);
      if (pTop > 0) {
        Importance.Relative r = i.relative().orElseThrow();
        double diagnostic = RandomTrees.p(tree, s -> s.contains(e) && top(tree).test(s)) / pTop;
        assertThat(r.diagnostic()).isCloseTo(diagnostic, ROUNDING);
        if (!circuit.pGivenTop().isEmpty()) {
          assertThat(circuit.pGivenTop().get(e)).isCloseTo(diagnostic, ROUNDING);
        }
        assertThat(r.achievementWorth()).isCloseTo(with / pTop, near(with / pTop));
        if (without == 0) {
          assertThat(r.reductionWorth()).isEqualTo(Double.POSITIVE_INFINITY);
        } else {
          assertThat(r.reductionWorth()).isCloseTo(pTop / without, near(pTop / without));
        }
        assertThat(r.criticality())
            .isCloseTo((with - without) * i.p() / pTop, within(1e-9 * Math.max(1, i.p() / pTop)));
      }
    }
  }

  @Property(tries = 60)
  void birnbaumIsTheFiniteDifference(@ForAll long seed) {
    FaultTree tree = RandomTrees.coherent(seed);
    double step = 1e-3;
    for (Importance i : figures(tree).importances()) {
      double p = Math.min(1 - step, Math.max(step, i.p()));
      double up = figures(RandomTrees.with(tree, i.event(), p + step)).pTop();
      double down = figures(RandomTrees.with(tree, i.event(), p - step)).pTop();
      // P(top) is linear in the probability of each event, so that no step is too large
      assertThat(i.birnbaum()).isCloseTo((up - down) / (2 * step), within(1e-11));
    }
  }

  @Property(tries = 60)
  void fussellVeselyIsThatOfTheCutSets(@ForAll long seed) {
    FaultTree tree = RandomTrees.coherent(seed);
    TreeFigures figures = figures(tree);
    for (Importance i : figures.importances()) {
      List<Set<EventName>> with =
          cutSets(figures).listed().stream()
              .filter(c -> c.events().contains(i.event()))
              .map(c -> Set.copyOf(c.events()))
              .toList();
      double p = RandomTrees.p(tree, s -> with.stream().anyMatch(s::containsAll));
      assertThat(i.relative().orElseThrow().cutSets().orElseThrow())
          .isCloseTo(p / figures.pTop(), ROUNDING);
    }
  }

  @Property(tries = 150)
  void whatLimitsLeaveOutIsCounted(@ForAll long seed) {
    FaultTree tree = RandomTrees.any(seed);
    CutSets all = cutSets(figures(tree));
    int order = 1 + (int) Math.floorMod(seed, 4L);
    double cutoff = 0.05;
    int most = 3;
    CutSets some =
        cutSets(
            (TreeFigures)
                TreeAnalysis.of(
                    tree, RandomTrees.TOP, AnalysisLimits.USUAL.listing(order, cutoff, most)));
    List<CutSets.CutSet> within =
        all.listed().stream().filter(c -> c.events().size() <= order && c.p() >= cutoff).toList();
    assertThat(some.listed()).hasSameSizeAs(within.subList(0, Math.min(most, within.size())));
    for (int i = 0; i < some.listed().size(); i++) {
      assertThat(some.listed().get(i).p()).isEqualTo(within.get(i).p(), ROUNDING);
    }
    assertThat(some.count()).isEqualTo(all.count());
    assertThat(some.pSum()).isEqualTo(all.pSum(), ROUNDING);
    CutSets.LeftOut left = some.leftOut();
    assertThat(left.byOrder().count())
        .isEqualTo(all.listed().stream().filter(c -> c.events().size() > order).count());
    assertThat(left.all().count()).isEqualTo(all.count() - some.listed().size());
    double listed = some.listed().stream().mapToDouble(CutSets.CutSet::p).sum();
    assertThat(left.all().pSum()).isCloseTo(all.pSum() - listed, within(1e-11));
  }

  /** What is the same statement in other words has the same figures. */
  @Property(tries = 100)
  void figuresAreInvariantUnderRewriting(@ForAll long seed) {
    FaultTree tree = RandomTrees.any(seed);
    TreeFigures figures = figures(tree);
    CircuitResult.Exact circuit = (CircuitResult.Exact) figures.circuit();
    for (FaultTree other :
        List.of(TreeRewrite.byDeMorgan(tree), TreeRewrite.inOne(tree), TreeRewrite.split(tree))) {
      TreeFigures same = figures(other);
      CircuitResult.Exact again = (CircuitResult.Exact) same.circuit();
      assertThat(same.pTop()).isCloseTo(figures.pTop(), ROUNDING);
      assertThat(again.pTop()).isCloseTo(circuit.pTop(), ROUNDING);
      assertThat(same.isCoherent()).isEqualTo(figures.isCoherent());
      if (!again.pGivenTop().isEmpty() && !circuit.pGivenTop().isEmpty()) {
        again
            .pGivenTop()
            .forEach((e, p) -> assertThat(p).isCloseTo(circuit.pGivenTop().get(e), ROUNDING));
      }
      assertThat(sets(same)).isEqualTo(sets(figures));
    }
  }

  private static Set<Set<EventName>> sets(TreeFigures figures) {
    return cutSets(figures).listed().stream()
        .map(c -> Set.copyOf(c.events()))
        .collect(Collectors.toSet());
  }

  private static Predicate<Set<EventName>> top(FaultTree tree) {
    return happening -> RandomTrees.happens(tree, RandomTrees.TOP, happening);
  }

  private static List<EventName> below(FaultTree tree) {
    return FaultLogic.of(tree, RandomTrees.TOP, false).basics();
  }

  private static TreeFigures figures(FaultTree tree) {
    return (TreeFigures) TreeAnalysis.of(tree, RandomTrees.TOP, AnalysisLimits.USUAL);
  }

  private static CutSets cutSets(TreeFigures figures) {
    return (CutSets) figures.cutSets();
  }

  private static Offset<Double> near(double value) {
    return within(Math.max(1e-12, RELATIVE * value));
  }
}
