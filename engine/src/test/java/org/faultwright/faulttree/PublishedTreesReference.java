package org.faultwright.faulttree;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.faultwright.faulttree.TreeSketch.and;
import static org.faultwright.faulttree.TreeSketch.atLeast;
import static org.faultwright.faulttree.TreeSketch.list;
import static org.faultwright.faulttree.TreeSketch.not;
import static org.faultwright.faulttree.TreeSketch.or;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.ToDoubleFunction;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.assertj.core.data.Offset;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * Trees with published or closed-form figures. Every probability comes out of the decision diagram
 * and of the circuit, and the cut sets from a third way.
 */
class PublishedTreesReference {

  /** A dozen sums of products, relative to the result. */
  private static final double ROUNDING = 1e-12;

  // W. E. Vesely, F. F. Goldberg, N. H. Roberts, D. F. Haasl, Fault Tree Handbook, NUREG-0492,
  // US NRC, 1981, chapter VIII, pressure tank (tree from memory, figures recomputed by inclusion
  // and exclusion; a transcription of the same tree prints 3.5013348120867e-5).
  private static final TreeSketch PRESSURE_TANK =
      new TreeSketch()
          .gate("TOP", or("T", "OP"))
          .gate("OP", or("K2", "MOT"))
          .gate("MOT", and("S", "TIM"))
          .gate("TIM", or("S1", or("K1", "R")))
          .basic("T", 5e-6)
          .basic("K2", 3e-5)
          .basic("S", 1e-4)
          .basic("S1", 3e-5)
          .basic("K1", 5e-6)
          .basic("R", 1e-4);

  // the smallest full check: a theatre's power supply, as printed in a published comparison of
  // fault-tree programs (seen)
  private static final TreeSketch THEATRE =
      new TreeSketch()
          .gate("TOP", and("Mains", or("Gen", "Relay")))
          .basic("Mains", 0.03)
          .basic("Gen", 0.02)
          .basic("Relay", 0.05);

  @Test
  void pressureTank_isThatOfTheHandbook() {
    TreeFigures figures = PRESSURE_TANK.figures("TOP");
    double closedForm = 1 - (1 - 5e-6) * (1 - 3e-5) * (1 - 1e-4 * pAny(3e-5, 5e-6, 1e-4));
    assertTop(figures, 3.501334916e-5, 1e-9);
    assertTop(figures, closedForm, 1e-11); // 1 - (1 - x) loses five digits in the closed form
    assertTop(figures, 3.5013348120867e-5, 1e-7); // as transcribed
    assertThat(sets(figures))
        .isEqualTo(
            Set.of(
                Set.of("T"), Set.of("K2"), Set.of("S", "S1"), Set.of("S", "K1"), Set.of("S", "R")));
    assertThat(cutSets(figures).pSum()).isCloseTo(3.50135e-5, relative(3.50135e-5, ROUNDING));
    assertThat(cutSets(figures).byOrder()).isEqualTo(Map.of(1, 2.0, 2, 3.0));
    assertThat(importance(figures, "K2").birnbaum()).isCloseTo(0.999995, within(5e-7));
    assertThat(importance(figures, "T").birnbaum()).isCloseTo(0.99997, within(5e-6));
    assertThat(importance(figures, "S").birnbaum()).isCloseTo(1.34992e-4, within(5e-10));
    assertThat(raw(figures, "K2")).isCloseTo(28560.5, within(0.05));
    assertThat(raw(figures, "T")).isCloseTo(28560.5, within(0.05));
    assertThat(raw(figures, "S")).isCloseTo(4.85505, within(5e-6));
    for (String e : List.of("R", "S1", "K1")) {
      assertThat(raw(figures, e)).as(e).isCloseTo(3.85557, within(5e-6));
    }
    assertThat(rrw(figures, "K2")).isCloseTo(6.98381, within(5e-6));
    assertThat(rrw(figures, "T")).isCloseTo(1.16659, within(5e-6));
  }

  /**
   * M. Stamatelatos and others, Fault Tree Handbook with Aerospace Applications, version 1.1, NASA,
   * 2002 (second hand).
   */
  @Test
  void compressionSeals_keepTheirDigits() {
    TreeFigures figures =
        new TreeSketch()
            .gate("TOP", or("CC", "IND"))
            .gate("CC", and("tape", "cce"))
            .gate("IND", and("metal", and("seal1", "seal2"), "plug"))
            .basic("tape", 0.1)
            .basic("cce", 1e-5)
            .basic("metal", 1e-3)
            .basic("seal1", 1e-3)
            .basic("seal2", 1e-3)
            .basic("plug", 1e-3)
            .figures("TOP");
    assertTop(figures, 1.000000999999e-6, ROUNDING);
    assertThat(cutSets(figures).byOrder()).isEqualTo(Map.of(2, 1.0, 4, 1.0));
  }

  /**
   * A. Mentes, I. H. Helvacioglu, An application of fuzzy fault tree analysis for spread mooring
   * systems, Ocean Engineering 38, 2011, doi 10.1016/j.oceaneng.2010.11.003 (second hand).
   */
  @Test
  void spreadMooring_isExactToTheLastDigits() {
    double[] ps = {
      1.73e-5, 4.20e-3, 9.31e-3, 8.64e-3, 8.95e-6, 8.95e-6, 9.93e-5, 4.37e-5, 5.46e-8, 4.17e-3
    };
    TreeSketch sketch = new TreeSketch();
    List<Object> names = new ArrayList<>();
    for (int i = 0; i < ps.length; i++) {
      sketch.basic("e" + i, ps[i]);
      names.add("e" + i);
    }
    TreeFigures figures = sketch.gate("A1", or(names.toArray())).figures("A1");
    assertTop(figures, 0.026246389824230341, 1e-14);
    assertThat(cutSets(figures).pSum()).isCloseTo(0.0264982546, within(5e-11));
    // of single events the min-cut bound is exact
    assertThat(cutSets(figures).minCutUpperBound().orElseThrow())
        .isCloseTo(0.026246389824230341, within(1e-16));
  }

  @Test
  void theatre_isThatOfThePublishedComparison() {
    TreeFigures figures = THEATRE.figures("TOP");
    assertTop(figures, 0.00207, ROUNDING);
    assertThat(cutSets(figures).pSum()).isCloseTo(0.0021, within(1e-15));
    assertThat(sets(figures)).isEqualTo(Set.of(Set.of("Gen", "Mains"), Set.of("Mains", "Relay")));
    assertEach(figures, Importance::birnbaum, 0.0285, 0.069, 0.0294, 1e-12);
    assertEach(figures, i -> i.relative().orElseThrow().diagnostic(), 0.289855, 1, 0.724638, 5e-7);
    assertEach(
        figures,
        i -> i.relative().orElseThrow().achievementWorth(),
        14.4928,
        33.3333,
        14.4928,
        5e-5);
    assertThat(rrw(figures, "Gen")).isCloseTo(1.38, within(1e-12));
    assertThat(rrw(figures, "Relay")).isCloseTo(3.45, within(1e-12));
    assertThat(rrw(figures, "Mains")).isEqualTo(Double.POSITIVE_INFINITY);
  }

  /** The same tree in another published report, where the 0.02 is a rate (seen, recomputed). */
  @Test
  void theatre_withARate_isThatOfTheOtherReport() {
    TreeFigures figures =
        new TreeSketch()
            .gate("TOP", and("Mains", or("Gen", "Relay")))
            .basic("Mains", 0.03)
            .rate("Gen", 0.02, 1)
            .basic("Relay", 0.05)
            .figures("TOP");
    assertTop(figures, 2.064338e-3, 5e-7 / 2.064338);
    assertThat(importance(figures, "Gen").p()).isCloseTo(0.01980133, within(5e-9));
    assertThat(cutSets(figures).pSum()).isCloseTo(2.094040e-3, within(5e-10));
    // its contributions divide a rare-event sum by the exact probability: they may exceed 100 %
    assertThat(rareShare(figures, "Gen")).isCloseTo(0.2878, within(5e-5));
    assertThat(rareShare(figures, "Mains")).isCloseTo(1.0144, within(5e-5));
    assertThat(rareShare(figures, "Relay")).isCloseTo(0.7266, within(5e-5));
    // ours is a probability
    assertThat(relative(figures, "Mains").cutSets().orElseThrow()).isCloseTo(1, within(1e-15));
  }

  /** Published test cases of an open program (seen). The published rare-event sum is cut to 1. */
  @Test
  void rareEventSum_mayExceedOne() {
    TreeFigures twoTrains =
        new TreeSketch()
            .gate("TOP", and(or("V1", "P1"), or("V2", "P2")))
            .basic("V1", 0.5)
            .basic("V2", 0.5)
            .basic("P1", 0.7)
            .basic("P2", 0.7)
            .figures("TOP");
    assertTop(twoTrains, 0.7225, ROUNDING);
    assertThat(cutSets(twoTrains).count()).isEqualTo(4);
    assertThat(cutSets(twoTrains).pSum()).isCloseTo(1.44, within(1e-15));
    assertThat(cutSets(twoTrains).minCutUpperBound().orElseThrow())
        .isCloseTo(0.83839375, within(1e-14));
  }

  /**
   * Another published test (seen) has the cut sets {C}, {D,F}, {D,G}, {D,B}, {H,I,F}, {H,I,G},
   * {H,I,B}; probabilities of our own, with a closed form.
   */
  @Test
  void sharedInputs_areCountedOnce() {
    TreeFigures figures =
        new TreeSketch()
            .gate("TOP", or("C", and(or("D", and("H", "I")), or("F", "G", "B"))))
            .basic("B", 0.2)
            .basic("C", 0.3)
            .basic("D", 0.4)
            .basic("F", 0.2)
            .basic("G", 0.2)
            .basic("H", 0.5)
            .basic("I", 0.5)
            .figures("TOP");
    assertThat(sets(figures))
        .isEqualTo(
            Set.of(
                Set.of("C"),
                Set.of("D", "F"),
                Set.of("D", "G"),
                Set.of("D", "B"),
                Set.of("H", "I", "F"),
                Set.of("H", "I", "G"),
                Set.of("H", "I", "B")));
    // closed form: C, or (D or HI) and (F or G or B), all independent of one another
    double pEither = 1 - 0.6 * 0.75;
    double pAny = 1 - 0.8 * 0.8 * 0.8;
    assertTop(figures, 1 - 0.7 * (1 - pEither * pAny), ROUNDING);
  }

  static Stream<Arguments> gates() {
    return Stream.of(
        Arguments.of("or", or("A", "B", "C"), 0.496),
        Arguments.of("AB or BC", or(and("A", "B"), and("B", "C")), 0.074),
        Arguments.of("AB or not-A C", or(and("A", "B"), and(not("A"), "C")), 0.29),
        Arguments.of("2 of 3", atLeast(2, "A", "B", "C"), 0.098),
        Arguments.of("A or not-B", or("A", not("B")), 0.82),
        Arguments.of("A and not-B", and("A", not("B")), 0.08),
        Arguments.of("A or not-A B", or("A", and(not("A"), "B")), 0.28),
        Arguments.of("xor of 3", new Formula.Xor(list("A", "B", "C")), 0.404),
        Arguments.of("iff of 3", new Formula.Iff(list("A", "B", "C")), 0.404),
        Arguments.of(
            "A => (B => C)",
            new Formula.Imply(
                TreeSketch.of("A"), new Formula.Imply(TreeSketch.of("B"), TreeSketch.of("C"))),
            0.986),
        Arguments.of("1 to 2 of 3", new Formula.Cardinality(1, 2, list("A", "B", "C")), 0.49),
        Arguments.of("A or not-A", or("A", not("A")), 1.0),
        Arguments.of("A and not-A", and("A", not("A")), 0.0),
        // closed forms
        Arguments.of("nand", new Formula.Nand(list("A", "B", "C")), 1 - 0.006),
        Arguments.of("nor", new Formula.Nor(list("A", "B", "C")), 0.504),
        Arguments.of("iff of 2", new Formula.Iff(list("A", "B")), 0.1 * 0.2 + 0.9 * 0.8),
        Arguments.of("none of 3", new Formula.Cardinality(0, 0, list("A", "B", "C")), 0.504),
        Arguments.of("at least 0", atLeast(0, "A"), 1.0));
  }

  /** Truth tables with p = 0.1, 0.2, 0.3: published test cases of an open program (seen). */
  @ParameterizedTest(name = "{0}")
  @MethodSource("gates")
  void connectives_areAsPublished(String name, Formula formula, double expected) {
    assertTop(abc(formula), expected, ROUNDING);
  }

  @Test
  void rareEventSums_areAsPublished() {
    assertThat(cutSets(abc(or("A", "B", "C"))).pSum()).isCloseTo(0.6, within(1e-15));
    assertThat(cutSets(abc(or(and("A", "B"), and("B", "C")))).pSum())
        .isCloseTo(0.08, within(1e-15));
    assertThat(cutSets(abc(atLeast(2, "A", "B", "C"))).pSum()).isCloseTo(0.11, within(1e-15));
  }

  @Test
  void certainTop_hasOneEmptyCutSet_andImpossibleTopHasNone() {
    assertThat(sets(abc(or("A", not("A"))))).isEqualTo(Set.of(Set.of()));
    assertThat(cutSets(abc(or("A", not("A")))).minCutUpperBound().orElseThrow()).isEqualTo(1);
    TreeFigures never = abc(and("A", not("A")));
    assertThat(cutSets(never).count()).isZero();
    assertThat(cutSets(never).minCutUpperBound().orElseThrow()).isZero();
    assertThat(never.importances()).allMatch(i -> i.relative().isEmpty());
  }

  /** Of a tree that is not coherent the minimal cut sets and the prime implicants differ. */
  @Test
  void primeImplicants_areToldFromMinimalCutSets() {
    TreeFigures figures = abc(or(and("A", "B"), and(not("A"), "C")));
    assertThat(figures.isCoherent()).isFalse();
    assertThat(importance(figures, "A").bearing()).isEqualTo(Importance.Bearing.BOTH);
    assertThat(sets(figures)).isEqualTo(Set.of(Set.of("A", "B"), Set.of("C")));
    assertThat(
            figures.primeImplicants().orElseThrow().listed().stream()
                .map(i -> i.happen() + " not " + i.absent()))
        .containsExactlyInAnyOrder("[A, B] not []", "[C] not [A]", "[B, C] not []");
  }

  @Test
  void coherence_isAboutTheFunctionAndNotAboutTheGates() {
    TreeFigures figures = abc(or("A", and(not("A"), "B")));
    assertThat(figures.isCoherent()).isTrue();
    assertThat(figures.primeImplicants()).isEmpty();
    assertThat(sets(figures)).isEqualTo(Set.of(Set.of("A"), Set.of("B")));
  }

  /** Two of three with unequal probabilities: closed form. */
  @Test
  void twoOfThree_hasTheImportancesOfTheClosedForm() {
    TreeFigures figures = abc(atLeast(2, "A", "B", "C"));
    assertThat(importances(figures, Importance::birnbaum))
        .usingComparatorForType(
            (a, b) -> Math.abs(a - b) < 1e-12 ? 0 : Double.compare(a, b), Double.class)
        .containsExactly(0.38, 0.34, 0.26);
    assertAll(figures, i -> i.relative().orElseThrow().criticality(), .387755, .693878, .795918);
    assertAll(
        figures, i -> i.relative().orElseThrow().achievementWorth(), 4.489796, 3.775510, 2.857143);
    assertAll(figures, i -> i.relative().orElseThrow().reductionWorth(), 1.633333, 3.266667, 4.9);
  }

  @Test
  void votesOfEqualEvents_areBinomial() {
    TreeSketch sketch = new TreeSketch();
    for (int i = 0; i < 5; i++) {
      sketch.basic("x" + i, 0.1).basic("y" + i, 0.2);
    }
    assertTop(sketch.gate("V", atLeast(2, "x0", "x1", "x2", "x3")).figures("V"), 0.0523, ROUNDING);
    assertTop(
        sketch.gate("W", atLeast(3, "y0", "y1", "y2", "y3", "y4")).figures("W"), 0.05792, ROUNDING);
  }

  @Test
  void houseEvents_areSetByWhoeverAnalyses() {
    TreeSketch on = new TreeSketch().basic("A", 0.1).house("H", true).gate("G", and("A", "H"));
    assertTop(on.figures("G"), 0.1, ROUNDING);
    assertTop(on.house("H", false).figures("G"), 0, ROUNDING);
  }

  private static TreeFigures abc(Formula formula) {
    return new TreeSketch()
        .basic("A", 0.1)
        .basic("B", 0.2)
        .basic("C", 0.3)
        .gate("G", formula)
        .figures("G");
  }

  private static double pAny(double... ps) {
    double none = 0;
    for (double p : ps) {
      none += Math.log1p(-p);
    }
    return -Math.expm1(none);
  }

  /** By the diagram and by the circuit, and the opposite by both. */
  private static void assertTop(TreeFigures figures, double expected, double tolerance) {
    CircuitResult.Exact circuit = (CircuitResult.Exact) figures.circuit();
    assertThat(figures.pTop()).isCloseTo(expected, relative(expected, tolerance));
    assertThat(circuit.pTop()).isCloseTo(expected, relative(expected, tolerance));
    assertThat(figures.pNotTop()).isCloseTo(1 - expected, within(tolerance));
    assertThat(circuit.pNotTop()).isCloseTo(1 - expected, within(tolerance));
  }

  private static void assertEach(
      TreeFigures figures,
      ToDoubleFunction<Importance> measure,
      double gen,
      double mains,
      double relay,
      double tolerance) {
    assertThat(measure.applyAsDouble(importance(figures, "Gen"))).isCloseTo(gen, within(tolerance));
    assertThat(measure.applyAsDouble(importance(figures, "Mains")))
        .isCloseTo(mains, within(tolerance));
    assertThat(measure.applyAsDouble(importance(figures, "Relay")))
        .isCloseTo(relay, within(tolerance));
  }

  private static void assertAll(
      TreeFigures figures, ToDoubleFunction<Importance> measure, double a, double b, double c) {
    List<Double> found = importances(figures, measure);
    assertThat(found.get(0)).isCloseTo(a, within(5e-7));
    assertThat(found.get(1)).isCloseTo(b, within(5e-7));
    assertThat(found.get(2)).isCloseTo(c, within(5e-7));
  }

  private static List<Double> importances(
      TreeFigures figures, ToDoubleFunction<Importance> measure) {
    return figures.importances().stream().map(measure::applyAsDouble).toList();
  }

  private static Importance importance(TreeFigures figures, String event) {
    return figures.importances().stream()
        .filter(i -> i.event().value().equals(event))
        .findFirst()
        .orElseThrow();
  }

  private static Importance.Relative relative(TreeFigures figures, String event) {
    return importance(figures, event).relative().orElseThrow();
  }

  private static double raw(TreeFigures figures, String event) {
    return relative(figures, event).achievementWorth();
  }

  private static double rrw(TreeFigures figures, String event) {
    return relative(figures, event).reductionWorth();
  }

  private static double rareShare(TreeFigures figures, String event) {
    return cutSets(figures).listed().stream()
            .filter(c -> c.events().contains(new EventName(event)))
            .mapToDouble(CutSets.CutSet::p)
            .sum()
        / figures.pTop();
  }

  private static CutSets cutSets(TreeFigures figures) {
    return (CutSets) figures.cutSets();
  }

  private static Set<Set<String>> sets(TreeFigures figures) {
    return cutSets(figures).listed().stream()
        .map(c -> c.events().stream().map(EventName::value).collect(Collectors.toSet()))
        .collect(Collectors.toSet());
  }

  private static Offset<Double> relative(double expected, double tolerance) {
    return within(Math.max(1e-300, Math.abs(expected) * tolerance));
  }
}
