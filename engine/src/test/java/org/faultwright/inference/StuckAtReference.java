package org.faultwright.inference;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.Test;

/**
 * The benchmark circuit c17: six nand gates, five inputs, two outputs. A fault is one line stuck at
 * 0 or 1. The dictionary of all faults under all input vectors is read off one compiled network, a
 * lane for each fault.
 *
 * <p>Source: F. Brglez, H. Fujiwara, A neutral netlist of 10 combinational benchmark circuits,
 * ISCAS 1985 (from memory; netlist and the counts 17, 34 and 22 as in the published file and a
 * public pattern log).
 */
class StuckAtReference {

  private static final int[] INPUTS = {1, 2, 3, 6, 7};
  private static final int[][] NANDS = {
    {10, 1, 3}, {11, 3, 6}, {16, 2, 11}, {19, 11, 7}, {22, 10, 16}, {23, 16, 19}
  };

  private final Model model = new Model();
  private final Map<Integer, Integer> inputs = new LinkedHashMap<>();
  private final Map<Integer, Integer> stems = new LinkedHashMap<>();
  private final List<Integer> lines = new ArrayList<>();
  private final int fault;
  private final Circuit circuit;

  StuckAtReference() {
    Map<Integer, Integer> readers = new HashMap<>();
    for (int[] nand : NANDS) {
      readers.merge(nand[1], 1, Integer::sum);
      readers.merge(nand[2], 1, Integer::sum);
    }
    int branches = readers.values().stream().filter(n -> n > 1).mapToInt(n -> n).sum();
    int lineCount = INPUTS.length + NANDS.length + branches;
    // no fault, then each line stuck at 0 and at 1
    fault = model.variable("fault", 1 + 2 * lineCount);
    model.observe(fault);
    int[] even = new int[1 + 2 * lineCount];
    java.util.Arrays.fill(even, model.constant(1.0 / even.length));
    model.factor(new int[] {fault}, even);
    for (int i : INPUTS) {
      int given = model.variable("input " + i, 2);
      model.observe(given);
      model.factor(new int[] {given}, new int[] {model.constant(0.5), model.constant(0.5)});
      inputs.put(i, given);
      stems.put(i, line(given));
    }
    for (int[] nand : NANDS) {
      int a = readers.get(nand[1]) > 1 ? line(stems.get(nand[1])) : stems.get(nand[1]);
      int b = readers.get(nand[2]) > 1 ? line(stems.get(nand[2])) : stems.get(nand[2]);
      int out = model.variable("gate " + nand[0], 2);
      int no = model.constant(0);
      int yes = model.constant(1);
      model.factor(new int[] {a, b, out}, new int[] {no, yes, no, yes, no, yes, yes, no});
      stems.put(nand[0], line(out));
    }
    model.observe(stems.get(22));
    model.observe(stems.get(23));
    assertThat(lines).hasSize(lineCount);
    circuit = (Circuit) CircuitCompiler.compile(model, 1e6);
  }

  /** What a line carries: what drives it, unless it is stuck. */
  private int line(int driver) {
    int number = lines.size();
    int carried = model.variable("line " + number, 2);
    lines.add(carried);
    int faults = model.states(fault);
    int[] entries = new int[faults * 4];
    for (int f = 0; f < faults; f++) {
      for (int in = 0; in < 2; in++) {
        int value = f == 1 + 2 * number ? 0 : f == 2 + 2 * number ? 1 : in;
        for (int out = 0; out < 2; out++) {
          entries[(f * 2 + in) * 2 + out] = model.constant(out == value ? 1 : 0);
        }
      }
    }
    model.factor(new int[] {fault, driver, carried}, entries);
    return carried;
  }

  /** For each fault, none first, both outputs under an input vector. */
  private int[][] outputs(int vector) {
    int faults = model.states(fault);
    Lanes lanes = circuit.lanes(faults);
    for (int lane = 0; lane < faults; lane++) {
      for (int f = 0; f < faults; f++) {
        lanes.setWeight(lane, fault, f, f == lane ? 1 : 0);
      }
      for (int i = 0; i < INPUTS.length; i++) {
        lanes.setWeight(lane, inputs.get(INPUTS[i]), 1 - (vector >> (4 - i) & 1), 0);
      }
    }
    lanes.upward();
    lanes.downward();
    int[][] outputs = new int[faults][2];
    for (int lane = 0; lane < faults; lane++) {
      for (int o = 0; o < 2; o++) {
        double p = lanes.marginal(lane, stems.get(22 + o), 1);
        assertThat(p).as("a circuit without chance").isIn(0.0, 1.0);
        outputs[lane][o] = (int) p;
      }
    }
    return outputs;
  }

  @Test
  void faultFreeOutputsAreThoseOfTheNetlist() {
    assertThat(outputs(0b00000)[0]).containsExactly(0, 0);
    assertThat(outputs(0b11111)[0]).containsExactly(1, 0);
    assertThat(outputs(0b10101)[0]).containsExactly(1, 1);
  }

  @Test
  void dictionaryTellsTwentyTwoClassesOfFaultsApart_andNoneIsUndetectable() {
    assertThat(lines).hasSize(17);
    assertThat(model.states(fault) - 1).isEqualTo(34);
    List<StringBuilder> signatures = new ArrayList<>();
    for (int f = 0; f < model.states(fault); f++) {
      signatures.add(new StringBuilder());
    }
    long[] detected = new long[32];
    for (int vector = 0; vector < 32; vector++) {
      int[][] outputs = outputs(vector);
      for (int f = 0; f < outputs.length; f++) {
        signatures.get(f).append(outputs[f][0]).append(outputs[f][1]);
        if (f > 0 && !java.util.Arrays.equals(outputs[f], outputs[0])) {
          detected[vector] |= 1L << f;
        }
      }
    }
    Map<String, Integer> classes = new HashMap<>();
    signatures
        .subList(1, signatures.size())
        .forEach(s -> classes.merge(s.toString(), 1, Integer::sum));
    assertThat(classes).hasSize(22).doesNotContainKey(signatures.get(0).toString());
    assertThat(classes.values().stream().filter(n -> n == 3)).hasSize(6);
    assertThat(classes.values().stream().filter(n -> n == 1)).hasSize(16);

    long all = (1L << 35) - 2;
    Set<Set<Integer>> complete = new HashSet<>();
    for (int a = 0; a < 32; a++) {
      for (int b = a + 1; b < 32; b++) {
        for (int c = b + 1; c < 32; c++) {
          assertThat(detected[a] | detected[b] | detected[c]).isNotEqualTo(all);
          for (int d = c + 1; d < 32; d++) {
            if ((detected[a] | detected[b] | detected[c] | detected[d]) == all) {
              complete.add(Set.of(a, b, c, d));
            }
          }
        }
      }
    }
    assertThat(complete).hasSize(10).contains(Set.of(0b00100, 0b01100, 0b10011, 0b11111));
  }
}
