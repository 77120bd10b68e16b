package org.faultwright.interchange;

import java.io.StringWriter;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import javax.xml.stream.XMLOutputFactory;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamWriter;
import org.faultwright.faulttree.EventName;
import org.faultwright.faulttree.EventProbability;
import org.faultwright.faulttree.FaultTree;
import org.faultwright.faulttree.Formula;
import org.faultwright.faulttree.TreeNode;

/** Writes one tree in the Open-PSA format. */
final class OpenPsaWriter {

  /** A fault tree or component in the making. */
  private static final class Container {
    final Map<String, Container> inner = new LinkedHashMap<>();
    final List<EventName> events = new ArrayList<>();
  }

  private final FaultTree tree;
  private final Map<String, Container> faultTrees = new LinkedHashMap<>();
  private final StringWriter text = new StringWriter();
  private final XMLStreamWriter xml;

  OpenPsaWriter(FaultTree tree) {
    this.tree = tree;
    faultTrees.put(tree.name(), new Container());
    for (EventName name : tree.nodes().keySet()) {
      String[] parts = name.value().split("\\.");
      String first = parts.length == 1 ? tree.name() : parts[0];
      Container at = faultTrees.computeIfAbsent(first, k -> new Container());
      for (int i = 1; i < parts.length - 1; i++) {
        at = at.inner.computeIfAbsent(parts[i], k -> new Container());
      }
      at.events.add(name);
    }
    try {
      xml = XMLOutputFactory.newDefaultFactory().createXMLStreamWriter(text);
    } catch (XMLStreamException e) {
      throw new IllegalStateException("a writer into memory must not fail", e);
    }
  }

  String write() {
    try {
      xml.writeStartDocument("UTF-8", "1.0");
      start(0, "opsa-mef");
      for (Map.Entry<String, Container> e : faultTrees.entrySet()) {
        start(1, "define-fault-tree", "name", e.getKey());
        if (e.getKey().equals(tree.name())) {
          label(2, tree.label());
        }
        write(2, e.getValue(), e.getKey());
        end(1);
      }
      end(0);
      xml.writeEndDocument();
      xml.flush();
    } catch (XMLStreamException e) {
      throw new IllegalStateException("a writer into memory must not fail", e);
    }
    return text + "\n";
  }

  private void write(int depth, Container container, String path) throws XMLStreamException {
    for (EventName name : container.events) {
      TreeNode node = tree.nodes().get(name);
      boolean isPrivate = name.value().contains(".");
      String kind =
          node instanceof TreeNode.Gate
              ? "define-gate"
              : node instanceof TreeNode.House ? "define-house-event" : "define-basic-event";
      String own = name.value().substring(name.value().lastIndexOf('.') + 1);
      if (isPrivate) {
        start(depth, kind, "name", own, "role", "private");
      } else {
        start(depth, kind, "name", own);
      }
      label(depth + 1, node.label());
      value(depth + 1, node, path);
      end(depth);
    }
    for (Map.Entry<String, Container> e : container.inner.entrySet()) {
      start(depth, "define-component", "name", e.getKey());
      write(depth + 1, e.getValue(), path + "." + e.getKey());
      end(depth);
    }
  }

  private void value(int depth, TreeNode node, String path) throws XMLStreamException {
    if (node instanceof TreeNode.Gate gate) {
      formula(depth, gate.formula(), path);
    } else if (node instanceof TreeNode.House house) {
      empty(depth, "constant", "value", String.valueOf(house.value()));
    } else if (((TreeNode.Basic) node).probability() instanceof EventProbability.Exponential e) {
      start(depth, "exponential");
      empty(depth + 1, "float", "value", String.valueOf(e.rate()));
      empty(depth + 1, "float", "value", String.valueOf(e.time()));
      end(depth);
    } else {
      double p = ((TreeNode.Basic) node).probability().p();
      empty(depth, "float", "value", String.valueOf(p));
    }
  }

  private void formula(int depth, Formula formula, String path) throws XMLStreamException {
    if (formula instanceof Formula.Of of) {
      checkVisible(of.event(), path);
      TreeNode node = tree.nodes().get(of.event());
      String kind =
          node instanceof TreeNode.Gate
              ? "gate"
              : node instanceof TreeNode.House ? "house-event" : "basic-event";
      empty(depth, kind, "name", of.event().value());
      return;
    } else if (formula instanceof Formula.Constant constant) {
      empty(depth, "constant", "value", String.valueOf(constant.value()));
      return;
    } else if (formula instanceof Formula.AtLeast vote) {
      start(depth, "atleast", "min", String.valueOf(vote.min()));
    } else if (formula instanceof Formula.Cardinality count) {
      start(
          depth,
          "cardinality",
          "min",
          String.valueOf(count.min()),
          "max",
          String.valueOf(count.max()));
    } else {
      start(depth, connective(formula));
    }
    for (Formula argument : formula.arguments()) {
      formula(depth + 1, argument, path);
    }
    end(depth);
  }

  private static String connective(Formula formula) {
    return formula.getClass().getSimpleName().toLowerCase(java.util.Locale.ROOT);
  }

  /** A name is looked for in the innermost container first. */
  private void checkVisible(EventName event, String path) {
    for (String at = path; ; at = at.substring(0, at.lastIndexOf('.'))) {
      String hiding = at + "." + event;
      if (EventName.isWellSpelt(hiding) && tree.nodes().containsKey(new EventName(hiding))) {
        throw new IllegalArgumentException(
            "public event must not be hidden where it is referred to: " + event + ", by " + hiding);
      }
      if (at.indexOf('.') < 0) {
        return;
      }
    }
  }

  private void label(int depth, String label) throws XMLStreamException {
    if (!label.isBlank()) {
      indent(depth);
      xml.writeStartElement("label");
      xml.writeCharacters(printable(label.strip()));
      xml.writeEndElement();
    }
  }

  /** Without the few characters that XML cannot hold. */
  private static String printable(String text) {
    StringBuilder kept = new StringBuilder();
    text.codePoints()
        .map(c -> Character.isISOControl(c) ? ' ' : c)
        .filter(c -> c >= 0x20 && (c < 0xD800 || c > 0xDFFF) && c != 0xFFFE && c != 0xFFFF)
        .forEach(kept::appendCodePoint);
    return kept.toString();
  }

  private void start(int depth, String name, String... attributes) throws XMLStreamException {
    indent(depth);
    xml.writeStartElement(name);
    attributes(attributes);
  }

  private void empty(int depth, String name, String... attributes) throws XMLStreamException {
    indent(depth);
    xml.writeEmptyElement(name);
    attributes(attributes);
  }

  private void attributes(String... attributes) throws XMLStreamException {
    for (int i = 0; i < attributes.length; i += 2) {
      xml.writeAttribute(attributes[i], attributes[i + 1]);
    }
  }

  private void end(int depth) throws XMLStreamException {
    indent(depth);
    xml.writeEndElement();
  }

  private void indent(int depth) throws XMLStreamException {
    xml.writeCharacters("\n" + "  ".repeat(depth));
  }
}
