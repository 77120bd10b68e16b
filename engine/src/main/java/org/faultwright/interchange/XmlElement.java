package org.faultwright.interchange;

import java.io.StringReader;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import javax.xml.stream.Location;
import javax.xml.stream.XMLInputFactory;
import javax.xml.stream.XMLStreamConstants;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamReader;
import org.faultwright.problem.Span;

/**
 * An element of an XML file that knows its place.
 *
 * @param at the name in its start tag
 * @param text all text directly in it, without spaces around it
 */
record XmlElement(
    String name,
    Span at,
    Map<String, String> attributes,
    Map<String, Span> places,
    List<XmlElement> children,
    String text) {

  static final int MOST_DEPTH = 200;
  static final int MOST_ELEMENTS = 500_000;

  /**
   * The root element; empty where the text is no XML that is read, with a problem that says why.
   */
  static Optional<XmlElement> read(ExchangeText source, Places places) {
    XMLInputFactory factory = XMLInputFactory.newDefaultFactory();
    // nothing outside this text is ever looked at, and nothing in it can grow
    factory.setProperty(XMLInputFactory.SUPPORT_DTD, false);
    factory.setProperty(XMLInputFactory.IS_SUPPORTING_EXTERNAL_ENTITIES, false);
    factory.setProperty(XMLInputFactory.IS_NAMESPACE_AWARE, false);
    factory.setProperty(XMLInputFactory.IS_COALESCING, false);
    factory.setXMLResolver(
        (publicId, systemId, base, namespace) -> {
          throw new XMLStreamException("refers to another file");
        });
    XMLStreamReader xml = null;
    try {
      xml = factory.createXMLStreamReader(new StringReader(source.text()));
      return read(xml, source.text(), places);
    } catch (XMLStreamException e) {
      Location at = e.getLocation();
      places.error(
          ExchangeRule.NOT_XML,
          at == null ? places.span(0, 1) : places.at(at.getLineNumber(), at.getColumnNumber() - 1),
          "here the file stops being well-formed XML" + reason(e),
          "look at the tags and quotes here and just before; was the file cut off?");
      return Optional.empty();
    }
  }

  /** The parser's own words, where they are about what the author wrote. */
  private static String reason(XMLStreamException e) {
    String message = e.getMessage() == null ? "" : e.getMessage();
    int at = message.indexOf("Message: ");
    String words = at < 0 ? "" : message.substring(at + "Message: ".length()).strip();
    boolean plain = !words.isEmpty() && !words.contains("http") && words.length() < 160;
    return plain ? ": " + words.replaceAll("\\.$", "").replaceAll("\\s+", " ") : "";
  }

  /** An element whose end has not been met. */
  private static final class Open {
    final String name;
    final Span at;
    final Map<String, String> attributes = new LinkedHashMap<>();
    final Map<String, Span> places = new LinkedHashMap<>();
    final List<XmlElement> children = new ArrayList<>();
    final StringBuilder text = new StringBuilder();

    Open(String name, Span at) {
      this.name = name;
      this.at = at;
    }

    XmlElement closed() {
      return new XmlElement(
          name,
          at,
          // small maps take a tenth of the memory, and a file may have half a million elements
          Map.copyOf(attributes),
          Map.copyOf(places),
          List.copyOf(children),
          text.toString().strip());
    }
  }

  private static Optional<XmlElement> read(XMLStreamReader xml, String text, Places places)
      throws XMLStreamException {
    Deque<Open> path = new ArrayDeque<>();
    int count = 0;
    int read = 0;
    while (xml.hasNext()) {
      switch (xml.next()) {
        case XMLStreamConstants.START_ELEMENT -> {
          int start = startTag(text, read);
          int end = endOfTag(text, start);
          read = end;
          Open open =
              new Open(xml.getLocalName(), places.span(start + 1, xml.getLocalName().length()));
          attributes(xml, text.substring(start, end), start, open, places);
          if (path.size() >= MOST_DEPTH) {
            places.error(
                ExchangeRule.TOO_DEEP,
                open.at,
                "elements must not be nested deeper than " + MOST_DEPTH,
                "give inner formulas gates of their own");
            return Optional.empty();
          } else if (++count > MOST_ELEMENTS) {
            places.error(
                ExchangeRule.TOO_MANY_NODES,
                open.at,
                "a file must not have more than " + MOST_ELEMENTS + " elements",
                "split the model");
            return Optional.empty();
          }
          path.push(open);
        }
        case XMLStreamConstants.CHARACTERS, XMLStreamConstants.CDATA -> {
          if (!path.isEmpty()) {
            path.peek().text.append(xml.getText());
          }
        }
        case XMLStreamConstants.END_ELEMENT -> {
          XmlElement closed = path.pop().closed();
          if (path.isEmpty()) {
            return Optional.of(closed);
          }
          path.peek().children.add(closed);
        }
        case XMLStreamConstants.DTD -> {
          int start = Math.max(0, text.indexOf("<!DOCTYPE"));
          places.error(
              ExchangeRule.DOCTYPE,
              places.span(start, "<!DOCTYPE".length()),
              "a document type is not read: it could name other files, or make this one endless",
              "take the line out; the format does not need it");
          return Optional.empty();
        }
        case XMLStreamConstants.ENTITY_REFERENCE -> {
          int start = Math.max(0, text.indexOf("&" + xml.getLocalName() + ";", read));
          places.error(
              ExchangeRule.NOT_XML,
              places.span(start, xml.getLocalName().length() + 2),
              "entity '" + xml.getLocalName() + "' is not defined",
              "write the text itself, or &amp; for the sign &");
          return Optional.empty();
        }
        default -> {
          // comments and processing instructions say nothing here
        }
      }
    }
    return Optional.empty();
  }

  /**
   * Where the next start tag begins. The parser's own offsets drift in long files, so the tags that
   * it has found well-formed are found once more.
   */
  private static int startTag(String text, int from) {
    int at = text.indexOf('<', from);
    while (at >= 0) {
      String end =
          text.startsWith("<!--", at)
              ? "-->"
              : text.startsWith("<![CDATA[", at)
                  ? "]]>"
                  : text.startsWith("<?", at) ? "?>" : text.startsWith("</", at) ? ">" : "";
      if (end.isEmpty()) {
        return at;
      }
      at = text.indexOf('<', text.indexOf(end, at));
    }
    throw new IllegalStateException("a start tag must be where the parser has found one");
  }

  /** Where a tag is over: an attribute's value may hold the sign that ends tags. */
  private static int endOfTag(String text, int start) {
    char quote = 0;
    for (int i = start; i < text.length(); i++) {
      char c = text.charAt(i);
      if (quote != 0) {
        quote = c == quote ? 0 : quote;
      } else if (c == '"' || c == '\'') {
        quote = c;
      } else if (c == '>') {
        return i + 1;
      }
    }
    return text.length();
  }

  private static void attributes(
      XMLStreamReader xml, String tag, int start, Open open, Places places) {
    for (int i = 0; i < xml.getAttributeCount(); i++) {
      String name = xml.getAttributeLocalName(i);
      open.attributes.put(name, xml.getAttributeValue(i));
      java.util.regex.Matcher value =
          java.util.regex.Pattern.compile(
                  "\\s" + java.util.regex.Pattern.quote(name) + "\\s*=\\s*[\"']([^\"']*)")
              .matcher(tag);
      open.places.put(
          name,
          value.find()
              ? places.span(start + value.start(1), Math.max(1, value.end(1) - value.start(1)))
              : open.at);
    }
  }

  Optional<String> attribute(String attribute) {
    return Optional.ofNullable(attributes.get(attribute));
  }

  /** Where the value of an attribute stands; the element where it does not have it. */
  Span place(String attribute) {
    return places.getOrDefault(attribute, at);
  }
}
