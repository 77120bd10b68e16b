package org.faultwright.faulttree;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;
import static org.faultwright.faulttree.TreeSketch.and;
import static org.faultwright.faulttree.TreeSketch.atLeast;
import static org.faultwright.faulttree.TreeSketch.or;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.Test;

class TreeAnalysisTest {

  @Test
  void longChainOfGates_isNoDifficulty() {
    TreeSketch sketch = new TreeSketch().basic("e0", 1e-6).gate("g0", or("e0"));
    int length = 2_000;
    for (int i = 1; i < length; i++) {
      sketch.basic("e" + i, 1e-6).gate("g" + i, or("e" + i, "g" + (i - 1)));
    }
    AnalysisLimits few = AnalysisLimits.USUAL.listing(2, 0, 10);
    TreeFigures figures =
        (TreeFigures) TreeAnalysis.of(sketch.build(), new EventName("g" + (length - 1)), few);
    // closed form
    double expected = -Math.expm1(length * Math.log1p(-1e-6));
    assertThat(figures.pTop()).isCloseTo(expected, within(1e-12));
    CutSets cutSets = (CutSets) figures.cutSets();
    assertThat(cutSets.count()).isEqualTo(length);
    assertThat(cutSets.leftOut().byNumber().count()).isEqualTo(length - 10);
  }

  @Test
  void hugeNumberOfCutSets_isCountedWithoutBeingWritten() {
    List<Object> trains = new ArrayList<>();
    TreeSketch sketch = new TreeSketch();
    for (int i = 0; i < 30; i++) {
      sketch.basic("a" + i, 0.01).basic("b" + i, 0.02).basic("c" + i, 0.03);
      trains.add(or("a" + i, "b" + i, "c" + i));
    }
    TreeFigures figures = sketch.gate("top", and(trains.toArray())).figures("top");
    CutSets cutSets = (CutSets) figures.cutSets();
    assertThat(cutSets.count()).isEqualTo(Math.pow(3, 30));
    assertThat(cutSets.listed()).hasSize(1_000);
    assertThat(cutSets.minCutUpperBound()).isEmpty();
    assertThat(cutSets.listed().get(0).events()).allMatch(e -> e.value().startsWith("c"));
    double each = 1 - 0.99 * 0.98 * 0.97;
    assertThat(figures.pTop() / Math.pow(each, 30)).isCloseTo(1, within(1e-12));
  }

  @Test
  void treeTooLargeForDiagrams_isATypedResult() {
    // whichever order the variables have, one of the two pairings is torn apart
    List<Object> pairs = new ArrayList<>();
    List<Object> others = new ArrayList<>();
    TreeSketch sketch = new TreeSketch();
    int n = 25;
    for (int i = 0; i < n; i++) {
      sketch.basic("a" + i, 0.5).basic("b" + i, 0.5);
      pairs.add(and("a" + i, "b" + i));
      others.add(and("a" + i, "b" + 7 * i % n));
    }
    FaultTree tree = sketch.gate("top", and(or(pairs.toArray()), or(others.toArray()))).build();
    AnalysisLimits tight = new AnalysisLimits(10, 0, 10, 1_000, 10);
    assertThat(TreeAnalysis.of(tree, new EventName("top"), tight))
        .isEqualTo(new TreeAnalysis.OverBudget(1_000));
    assertThat(TreeAnalysis.circuit(tree, new EventName("top"), Dependence.NONE, tight))
        .isInstanceOf(CircuitResult.TooWide.class);
  }

  @Test
  void groups_excludeOneAnother() {
    FaultTree tree =
        new TreeSketch()
            .basic("a", 0.3)
            .basic("b", 0.4)
            .basic("c", 0.5)
            .gate("top", or(and("a", "b"), and("a", "c")))
            .build();
    Dependence group =
        new Dependence(
            List.of(),
            List.of(
                new Dependence.Given(
                    List.of(), TreeSketch.names("a", "b"), List.of(0.3, 0.3, 0.4))));
    TreeFigures figures =
        (TreeFigures) TreeAnalysis.of(tree, new EventName("top"), group, AnalysisLimits.USUAL);
    CutSets cutSets = (CutSets) figures.cutSets();
    assertThat(cutSets.listed().stream().map(c -> Set.copyOf(c.events())))
        .containsExactly(Set.copyOf(TreeSketch.names("a", "c")));
    assertThat(cutSets.impossible()).isEqualTo(1);
    // closed form: only a with c is possible
    assertThat(((CircuitResult.Exact) figures.circuit()).pTop()).isCloseTo(0.15, within(1e-15));
    assertThat(figures.pTop()).isCloseTo(0.3 * (1 - 0.6 * 0.5), within(1e-15));
  }

  @Test
  void commonRoot_makesEventsComeTogether() {
    FaultTree tree =
        new TreeSketch().basic("a", 0.19).basic("b", 0.19).gate("top", and("a", "b")).build();
    List<Double> rows = List.of(0.9, 0.1, 0.0, 1.0);
    Dependence root =
        new Dependence(
            List.of(new Dependence.Root("wet", 0.1)),
            List.of(
                new Dependence.Given(List.of(0), TreeSketch.names("a"), rows),
                new Dependence.Given(List.of(0), TreeSketch.names("b"), rows)));
    TreeFigures figures =
        (TreeFigures) TreeAnalysis.of(tree, new EventName("top"), root, AnalysisLimits.USUAL);
    // closed form: 0.1 * 1 + 0.9 * 0.1^2
    assertThat(((CircuitResult.Exact) figures.circuit()).pTop()).isCloseTo(0.109, within(1e-15));
    assertThat(figures.pTop()).isCloseTo(0.0361, within(1e-15));
  }

  @Test
  void oppositeOfANearlyCertainTop_keepsItsDigits() {
    TreeFigures figures =
        new TreeSketch().rate("a", 20, 1).rate("b", 30, 1).gate("top", or("a", "b")).figures("top");
    assertThat(figures.pNotTop() / Math.exp(-50)).isCloseTo(1, within(1e-13));
    assertThat(((CircuitResult.Exact) figures.circuit()).pNotTop() / Math.exp(-50))
        .isCloseTo(1, within(1e-13));
  }

  @Test
  void birnbaumOfAnEventThatHardlyMatters_keepsItsDigits() {
    TreeFigures figures =
        new TreeSketch()
            .basic("a", 0.5)
            .basic("b", 1e-9)
            .basic("c", 1e-9)
            .gate("top", or("a", and("b", "c")))
            .figures("top");
    Importance b = figures.importances().get(1);
    assertThat(b.birnbaum() / (0.5 * 1e-9)).isCloseTo(1, within(1e-13));
  }

  @Test
  void whatMakesNoTree_isRefused() {
    TreeSketch loop = new TreeSketch().gate("a", or("b")).gate("b", or("c")).gate("c", or("b"));
    assertThatThrownBy(loop::build)
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessage("event must not be made of itself: [b, c]");
    assertThatThrownBy(new TreeSketch().gate("a", or("b"))::build)
        .hasMessage("event must be defined: b, in a");
    assertThatThrownBy(() -> atLeast(3, "a", "b"))
        .hasMessage("min must be in [0, 2], the number of arguments: 3");
    assertThatThrownBy(() -> new EventName("a..b")).hasMessageStartingWith("name must be letters");
    assertThatThrownBy(() -> new EventName("a--b")).hasMessageStartingWith("name must be letters");
    assertThatThrownBy(() -> new EventProbability.Fixed(1.2))
        .hasMessage("p must be in [0, 1]: 1.2");
    assertThatThrownBy(() -> new EventProbability.Exponential(-1, 2))
        .hasMessage("rate and time must be finite and not negative: -1.0, 2.0");
    FaultTree tree = new TreeSketch().basic("a", 0.1).build();
    assertThatThrownBy(() -> TreeAnalysis.of(tree, new EventName("x"), AnalysisLimits.USUAL))
        .hasMessage("top must be an event of the tree: x");
    Formula deep = TreeSketch.of("a");
    for (int i = 0; i < 10_000; i++) {
      deep = new Formula.Not(deep);
    }
    Map<EventName, TreeNode> nodes = new LinkedHashMap<>();
    nodes.put(new EventName("g"), new TreeNode.Gate("", deep));
    assertThatThrownBy(() -> new FaultTree("t", "", nodes))
        .hasMessage("formula must not be nested deeper than 200 connectives");
  }

  @Test
  void roots_areTheGatesThatNobodyNeeds() {
    FaultTree tree =
        new TreeSketch()
            .basic("x", 0.1)
            .basic("unused", 0.1)
            .gate("a", or("x"))
            .gate("b", or("a"))
            .gate("c", or("a"))
            .build();
    assertThat(tree.roots()).isEqualTo(TreeSketch.names("b", "c"));
  }
}
