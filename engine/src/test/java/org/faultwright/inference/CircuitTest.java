package org.faultwright.inference;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;

class CircuitTest {

  @Test
  void logProbabilityIsExact_whenFiveHundredFindingsOfOneInTenThousandCoincide() {
    Model model = new Model();
    int cause = coin(model, 0.5);
    for (int i = 0; i < 500; i++) {
      int finding = model.variable("finding", 2);
      model.observe(finding);
      model.factor(
          new int[] {cause, finding},
          new int[] {
            model.constant(1 - 1e-4),
            model.constant(1e-4),
            model.constant(1 - 1e-4),
            model.constant(1e-4)
          });
    }
    Evaluation evaluation = ((Circuit) CircuitCompiler.compile(model, 1e6)).evaluation();
    for (int v = 1; v <= 500; v++) {
      evaluation.weigh(v, 0, 0);
    }
    // closed form: 500 ln 1e-4
    assertThat(evaluation.upward()).isCloseTo(500 * Math.log(1e-4), within(1e-9));
    evaluation.downward();
    assertThat(evaluation.marginal(cause, 1)).isCloseTo(0.5, within(1e-12));
  }

  @Test
  void compilingIsRefusedWithThePredictedSize_whenTheModelIsTooWide() {
    Model model = new Model();
    int[] clique = new int[20];
    for (int i = 0; i < clique.length; i++) {
      clique[i] = coin(model, 0.5);
    }
    int[] entries = new int[1 << clique.length];
    java.util.Arrays.fill(entries, model.constant(1));
    model.factor(clique, entries);
    Compilation compilation = CircuitCompiler.compile(model, 1000);
    // 2^20 + 2^19 + ... + 2: one table for each variable summed out of the clique
    assertThat(compilation).isEqualTo(new Compilation.OverBudget((1 << 21) - 2, 1000));
  }

  @Test
  void parametersReplaceNumbers_withoutCompilingAgain() {
    Model model = new Model();
    int v = model.variable("v", 2);
    model.observe(v);
    int no = model.parameter(0.9);
    int yes = model.parameter(0.1);
    model.factor(new int[] {v}, new int[] {model.entry(no), model.entry(yes)});
    Circuit circuit = (Circuit) CircuitCompiler.compile(model, 1000);
    Evaluation evaluation = circuit.withParameters(new double[] {0.3, 0.7}).evaluation();
    evaluation.weigh(v, 0, 0);
    assertThat(Math.exp(evaluation.upward())).isCloseTo(0.7, within(1e-15));
  }

  @Test
  void evidenceIsRefused_whenTheVariableIsNotObservable() {
    Model model = new Model();
    int v = model.variable("v", 2);
    model.factor(new int[] {v}, new int[] {model.constant(0.5), model.constant(0.5)});
    Evaluation evaluation = ((Circuit) CircuitCompiler.compile(model, 1000)).evaluation();
    assertThatThrownBy(() -> evaluation.weigh(v, 0, 1))
        .hasMessage("variable cannot be observed: 0");
  }

  private static int coin(Model model, double p) {
    int v = model.variable("coin", 2);
    model.observe(v);
    model.factor(new int[] {v}, new int[] {model.constant(1 - p), model.constant(p)});
    return v;
  }
}
