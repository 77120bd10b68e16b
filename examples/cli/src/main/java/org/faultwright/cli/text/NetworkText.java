package org.faultwright.cli.text;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.ArrayList;
import java.util.List;
import org.faultwright.inference.Marginals;
import org.faultwright.interchange.BayesNetwork;

/** Posteriors of a network, a line for each variable. */
public final class NetworkText {

  private static final int WIDEST_NAME = 30;

  private final Page page;
  private final BayesNetwork network;

  /** Posteriors to be laid out. */
  public NetworkText(Page page, BayesNetwork network) {
    this.page = page;
    this.network = network;
  }

  /**
   * Writes all of it.
   *
   * @param findings in words
   * @param exactP whether P(findings) is to be shown: facts about a pack weigh only up to a factor
   */
  public void write(String from, List<String> findings, boolean exactP, Marginals.Exact exact) {
    page.heading("NETWORK " + from);
    int variables = network.variables().size();
    page.item(variables + (variables == 1 ? " variable" : " variables"));
    findings.forEach(f -> page.item("given " + f));
    if (!findings.isEmpty() && exactP) {
      page.item(
          "P(all that is given) "
              + TreeText.digits(Math.exp(exact.logPEvidence()))
              + ", its natural logarithm "
              + number(exact.logPEvidence()));
    }
    page.gap();
    int name = 0;
    for (int v : exact.p().keySet()) {
      name = Math.max(name, Letters.columns(network.variables().get(v).name()));
    }
    int columns = Math.min(name, page.screen().isNarrow() ? 14 : WIDEST_NAME);
    exact.p().forEach((v, p) -> line(network.variables().get(v), p, columns));
  }

  private void line(BayesNetwork.Variable variable, double[] p, int columns) {
    List<String> states = new ArrayList<>();
    for (int s = 0; s < p.length; s++) {
      states.add(variable.states().get(s) + "\u00a0" + number(Math.max(0, Math.min(1, p[s]))));
    }
    String name = variable.name();
    if (Letters.columns(name) > columns) {
      page.hanging("  ", Ink.PLAIN, name, Ink.PLAIN);
      name = "";
    }
    String lead = "  " + name + " ".repeat(columns - Letters.columns(name) + 2);
    page.hanging(lead, Ink.PLAIN, String.join(", ", states), Ink.PLAIN);
  }

  /** With ten digits that count: enough to hold it against another program. */
  private static String number(double value) {
    if (value != 0 && Math.abs(value) < 1e-4) {
      return TreeText.scientific(value, 10);
    }
    return value == 0
        ? "0"
        : new BigDecimal(value).round(new MathContext(10)).stripTrailingZeros().toPlainString();
  }
}
