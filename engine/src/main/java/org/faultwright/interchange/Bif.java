package org.faultwright.interchange;

import java.util.List;
import java.util.stream.Collectors;
import org.faultwright.interchange.BayesNetwork.Variable;

/**
 * Networks in the bracketed text form of BIF, the interchange format for Bayesian networks, version
 * 0.15: discrete variables; tables in full, by rows, or with a default row. Properties are passed
 * over. Commas and vertical bars separate as spaces do.
 */
public final class Bif {

  /** A row that sums to 1 within this is divided by its sum; beyond {@link #SILENT} with a word. */
  public static final double ROW_TOLERANCE = 2e-3;

  /** A row that sums to 1 within this is divided by its sum without a word: rounding. */
  public static final double SILENT = 1e-6;

  private Bif() {}

  /** Reads a network. */
  public static Reading<BayesNetwork> read(ExchangeText source) {
    return new BifReader(source).read();
  }

  /** Writes a network. Read again it gives the same network, but for the rounding of sums to 1. */
  public static String write(BayesNetwork network) {
    StringBuilder text = new StringBuilder();
    text.append("network ").append(word(network.name())).append(" {\n}\n");
    for (Variable v : network.variables()) {
      text.append("variable ").append(word(v.name())).append(" {\n  type discrete [ ");
      text.append(v.states().size()).append(" ] { ").append(words(v.states())).append(" };\n}\n");
    }
    for (Variable v : network.variables()) {
      write(text, network, v);
    }
    return text.toString();
  }

  private static void write(StringBuilder text, BayesNetwork network, Variable v) {
    List<Variable> parents = v.parents().stream().map(network.variables()::get).toList();
    text.append("probability ( ").append(word(v.name()));
    if (parents.isEmpty()) {
      text.append(" ) {\n  table ").append(numbers(v.rows().get(0))).append(";\n}\n");
      return;
    }
    text.append(" | ").append(words(parents.stream().map(Variable::name).toList()));
    text.append(" ) {\n");
    int[] at = new int[parents.size()];
    for (List<Double> row : v.rows()) {
      text.append("  (");
      for (int i = 0; i < at.length; i++) {
        text.append(i == 0 ? "" : ", ").append(word(parents.get(i).states().get(at[i])));
      }
      text.append(") ").append(numbers(row)).append(";\n");
      for (int i = at.length - 1; i >= 0 && ++at[i] == parents.get(i).states().size(); i--) {
        at[i] = 0;
      }
    }
    text.append("}\n");
  }

  private static String words(List<String> names) {
    return names.stream().map(Bif::word).collect(Collectors.joining(", "));
  }

  /** A name, in quotes where it could be taken for several words. */
  private static String word(String name) {
    boolean plain = name.matches("[\\p{L}_][\\p{L}\\p{Nd}_.+-]*") && !BifReader.isKeyword(name);
    return plain ? name : '"' + name + '"';
  }

  private static String numbers(List<Double> row) {
    return row.stream().map(String::valueOf).collect(Collectors.joining(", "));
  }
}
