package org.faultwright.benchmarks;

import java.util.ArrayList;
import java.util.Arrays;
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
final class Peer {

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
  private final List<Integer> observed = new ArrayList<>();

  /**
   * @param likelihoods P(facts | state) up to a factor, by number of the variable
   */
  Peer(DiscreteNetwork network, Map<Integer, double[]> likelihoods) throws Exception {
    List<DiscreteNetwork.Node> nodes = new ArrayList<>(network.nodes());
    for (Map.Entry<Integer, double[]> e : new TreeMap<>(likelihoods).entrySet()) {
      observed.add(nodes.size());
      nodes.add(virtualChild(e.getKey(), e.getValue()));
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
    for (int node : observed) {
      copy.setEvidence(node, 0);
    }
    return copy;
  }

  private static DiscreteNetwork.Node virtualChild(int parent, double[] likelihood) {
    double most = Arrays.stream(likelihood).max().orElseThrow();
    double[] rows = new double[2 * likelihood.length];
    for (int s = 0; s < likelihood.length; s++) {
      rows[2 * s] = likelihood[s] / most;
      rows[2 * s + 1] = 1 - rows[2 * s];
    }
    return new DiscreteNetwork.Node("evidence on " + parent, 2, new int[] {parent}, rows);
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
