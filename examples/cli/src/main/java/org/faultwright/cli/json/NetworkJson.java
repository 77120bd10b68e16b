package org.faultwright.cli.json;

import java.io.PrintWriter;
import java.util.List;
import java.util.Map;
import org.faultwright.inference.Marginals;
import org.faultwright.interchange.BayesNetwork;

/** Writes posteriors of a network as JSON, format {@value #FORMAT}. */
public final class NetworkJson {

  /** The format's number; it grows when a key changes its meaning or goes away. */
  public static final int FORMAT = 1;

  private final BayesNetwork network;
  private final Map<Integer, Integer> findings;

  /**
   * Posteriors of a network.
   *
   * @param findings states that are known, by number of the variable
   */
  public NetworkJson(BayesNetwork network, Map<Integer, Integer> findings) {
    this.network = network;
    this.findings = findings;
  }

  /**
   * Writes all of it.
   *
   * @param facts about a pack, in words; they weigh only up to a factor, so that P(evidence) is not
   *     written where there are any
   */
  public void write(PrintWriter out, String from, List<String> facts, Marginals.Exact exact) {
    AnswerJson.print(
        out,
        json -> {
          json.writeNumberField("format", FORMAT);
          json.writeStringField("network", network.name());
          json.writeStringField("from", from);
          json.writeNumberField("variables", network.variables().size());
          json.writeObjectFieldStart("given");
          for (Map.Entry<Integer, Integer> e : findings.entrySet()) {
            BayesNetwork.Variable v = network.variables().get(e.getKey());
            json.writeStringField(v.name(), v.states().get(e.getValue()));
          }
          json.writeEndObject();
          if (facts.isEmpty()) {
            json.writeNumberField("logEvidence", exact.logPEvidence());
          } else {
            json.writeArrayFieldStart("facts");
            for (String fact : facts) {
              json.writeString(fact);
            }
            json.writeEndArray();
          }
          json.writeObjectFieldStart("posteriors");
          for (Map.Entry<Integer, double[]> e : exact.p().entrySet()) {
            BayesNetwork.Variable v = network.variables().get(e.getKey());
            json.writeObjectFieldStart(v.name());
            for (int s = 0; s < v.states().size(); s++) {
              json.writeNumberField(v.states().get(s), Math.max(0, Math.min(1, e.getValue()[s])));
            }
            json.writeEndObject();
          }
          json.writeEndObject();
        });
  }
}
