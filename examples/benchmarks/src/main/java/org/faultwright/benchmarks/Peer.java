package org.faultwright.benchmarks;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.faultwright.inference.DiscreteNetwork;
import weka.classifiers.bayes.net.BIFReader;
import weka.classifiers.bayes.net.MarginCalculator;
import weka.core.SerializedObject;

/**
 * A network in Weka's {@link MarginCalculator}, a junction tree. The tree is built once; evidence
 * changes a tree for good, so that each question needs a copy of the one without evidence.
 *
 * <p>Soft evidence about a variable enters as a virtual child that is observed in its first state
 * (Pearl, Probabilistic Reasoning in Intelligent Systems, 1988, section 2.2.2; from memory).
 */
final class Peer implements Contender {

  /** The reader validates, so that the grammar has to stand in the document. */
  private static final String HEADER =
      """
      <?xml version="1.0"?>
      <!DOCTYPE BIF [
        <!ELEMENT BIF (NETWORK)>
        <!ATTLIST BIF VERSION CDATA #REQUIRED>
        <!ELEMENT NETWORK (NAME, VARIABLE*, DEFINITION*)>
        <!ELEMENT NAME (#PCDATA)>
        <!ELEMENT VARIABLE (NAME, OUTCOME*)>
        <!ATTLIST VARIABLE TYPE CDATA #REQUIRED>
        <!ELEMENT OUTCOME (#PCDATA)>
        <!ELEMENT DEFINITION (FOR, GIVEN*, TABLE)>
        <!ELEMENT FOR (#PCDATA)>
        <!ELEMENT GIVEN (#PCDATA)>
        <!ELEMENT TABLE (#PCDATA)>
      ]>
      """;

  private final SerializedObject untouched;
  private final Map<Integer, Integer> observed = new TreeMap<>();
  private final int asked;
  private MarginCalculator ready;

  /**
   * @param likelihoods P(facts | state) up to a factor, by number of the variable
   */
  Peer(DiscreteNetwork network, Map<Integer, double[]> likelihoods) throws Exception {
    asked = network.nodes().size();
    List<DiscreteNetwork.Node> nodes = new ArrayList<>(network.nodes());
    for (Map.Entry<Integer, double[]> e : new TreeMap<>(likelihoods).entrySet()) {
      int only = Evidence.onlyState(e.getValue());
      if (only >= 0) {
        observed.put(e.getKey(), only);
      } else {
        observed.put(nodes.size(), 0);
        nodes.add(Evidence.virtualChild(e.getKey(), e.getValue()));
      }
    }
    BIFReader reader = new BIFReader();
    reader.processString(xmlbif(nodes));
    MarginCalculator calculator = new MarginCalculator();
    calculator.calcMargins(reader);
    untouched = new SerializedObject(calculator);
  }

  /** A junction tree without evidence. */
  MarginCalculator copy() {
    return (MarginCalculator) untouched.getObject();
  }

  /** Enters the evidence, which brings all margins up to date. */
  MarginCalculator enter(MarginCalculator copy) throws Exception {
    for (Map.Entry<Integer, Integer> e : observed.entrySet()) {
      copy.setEvidence(e.getKey(), e.getValue());
    }
    return copy;
  }

  @Override
  public void reset() {
    ready = copy();
  }

  @Override
  public double[][] answer() throws Exception {
    enter(ready);
    double[][] all = new double[asked][];
    for (int v = 0; v < asked; v++) {
      all[v] = ready.getMargin(v);
    }
    return all;
  }

  /** The network in the XML interchange format for Bayesian networks, version 0.3. */
  private static String xmlbif(List<DiscreteNetwork.Node> nodes) {
    StringBuilder xml = new StringBuilder(HEADER);
    xml.append("<BIF VERSION=\"0.3\"><NETWORK><NAME>network</NAME>\n");
    for (int v = 0; v < nodes.size(); v++) {
      xml.append("<VARIABLE TYPE=\"nature\"><NAME>v").append(v).append("</NAME>");
      for (int s = 0; s < nodes.get(v).states(); s++) {
        xml.append("<OUTCOME>s").append(s).append("</OUTCOME>");
      }
      xml.append("</VARIABLE>\n");
    }
    for (int v = 0; v < nodes.size(); v++) {
      xml.append("<DEFINITION><FOR>v").append(v).append("</FOR>");
      for (int p : nodes.get(v).parents()) {
        xml.append("<GIVEN>v").append(p).append("</GIVEN>");
      }
      xml.append("<TABLE>");
      for (double p : nodes.get(v).rows()) {
        xml.append(p).append(' ');
      }
      xml.append("</TABLE></DEFINITION>\n");
    }
    return xml.append("</NETWORK></BIF>\n").toString();
  }
}
