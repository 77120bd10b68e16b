package org.faultwright.pack.yaml;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.faultwright.pack.yaml.YamlNode.Entry;
import org.faultwright.pack.yaml.YamlNode.YamlList;
import org.faultwright.pack.yaml.YamlNode.YamlMap;
import org.faultwright.pack.yaml.YamlNode.YamlScalar;
import org.faultwright.problem.Problem;
import org.faultwright.problem.SourceTexts;
import org.faultwright.problem.Span;
import org.yaml.snakeyaml.DumperOptions.ScalarStyle;
import org.yaml.snakeyaml.LoaderOptions;
import org.yaml.snakeyaml.error.Mark;
import org.yaml.snakeyaml.error.MarkedYAMLException;
import org.yaml.snakeyaml.error.YAMLException;
import org.yaml.snakeyaml.events.AliasEvent;
import org.yaml.snakeyaml.events.CollectionStartEvent;
import org.yaml.snakeyaml.events.DocumentStartEvent;
import org.yaml.snakeyaml.events.Event;
import org.yaml.snakeyaml.events.MappingStartEvent;
import org.yaml.snakeyaml.events.NodeEvent;
import org.yaml.snakeyaml.events.ScalarEvent;
import org.yaml.snakeyaml.events.SequenceStartEvent;
import org.yaml.snakeyaml.parser.ParserImpl;
import org.yaml.snakeyaml.reader.StreamReader;

/**
 * Builds a tree from YAML events and refuses what is not plain YAML within limits. It works on
 * events because a loader has already resolved, merged or forgotten what is refused here, and
 * positions with it.
 */
final class YamlGuard {

  /** Reading cannot go on. */
  private static final class Stop extends RuntimeException {
    Stop() {
      super(null, null, false, false);
    }
  }

  private final String file;
  private final List<String> lines;
  private final List<Problem> problems;
  private final ParserImpl events;
  private boolean trusted = true;
  private int nodes;

  YamlGuard(String file, String text, List<Problem> problems) {
    this.file = file;
    this.lines = SourceTexts.lines(text);
    this.problems = problems;
    LoaderOptions options = new LoaderOptions();
    options.setProcessComments(false);
    this.events = new ParserImpl(new StreamReader(text), options);
  }

  /** The tree; empty where it cannot be trusted or the file does not hold a block of keys. */
  Optional<YamlMap> read() {
    try {
      events.getEvent();
      Optional<YamlMap> root = document();
      return trusted ? root : Optional.empty();
    } catch (Stop stop) {
      return Optional.empty();
    } catch (MarkedYAMLException e) {
      problems.add(malformed(e));
      return Optional.empty();
    } catch (YAMLException e) {
      add(YamlRule.NOT_YAML, start(), "the file is not YAML", "compare it with an example pack");
      return Optional.empty();
    }
  }

  private Optional<YamlMap> document() {
    if (!events.checkEvent(Event.ID.DocumentStart)) {
      add(
          YamlRule.EMPTY_FILE,
          start(),
          "there is nothing in this file",
          "start with 'pack:' or 'case:'");
      return Optional.empty();
    }
    DocumentStartEvent start = (DocumentStartEvent) events.getEvent();
    boolean tags = start.getTags() != null && !start.getTags().isEmpty();
    if (start.getVersion() != null || tags) {
      refuse(
          YamlRule.TAG, span(start.getStartMark(), 1), "'%' directives are not used", "remove it");
    }
    YamlNode root = node(0);
    events.getEvent();
    if (events.checkEvent(Event.ID.DocumentStart)) {
      refuse(
          YamlRule.SECOND_DOCUMENT,
          span(events.getEvent().getStartMark(), 3),
          "a second document begins here; a file holds one",
          "move it to a file of its own");
    }
    if (root instanceof YamlMap map) {
      return Optional.of(map);
    }
    boolean empty = root instanceof YamlScalar s && s.isEmpty();
    add(
        empty ? YamlRule.EMPTY_FILE : YamlRule.NOT_YAML,
        root.at(),
        empty ? "there is nothing in this file" : "the file must be a block of keys, not a value",
        "start with a key, as in 'title: ...'");
    return Optional.empty();
  }

  private YamlNode node(int depth) {
    Event event = events.getEvent();
    if (++nodes > YamlLimits.NODES) {
      add(
          YamlRule.TOO_MANY_NODES,
          span(event.getStartMark(), 1),
          "a file must not have more than " + YamlLimits.NODES + " keys and values",
          "a pack is for one subsystem: split it into one pack for each");
      throw new Stop();
    }
    anchorOrAlias((NodeEvent) event);
    if (event instanceof ScalarEvent scalar) {
      return scalar(scalar);
    } else if (event instanceof AliasEvent) {
      return new YamlScalar(span(event.getStartMark(), 1), "", true);
    }
    tag(((CollectionStartEvent) event).getTag(), event.getStartMark());
    if (depth >= YamlLimits.DEPTH) {
      add(
          YamlRule.TOO_DEEP,
          span(event.getStartMark(), 1),
          "lists and blocks must not be nested more than " + YamlLimits.DEPTH + " deep",
          "say it with fewer levels");
      throw new Stop();
    }
    return event instanceof SequenceStartEvent sequence
        ? list(sequence, depth)
        : map((MappingStartEvent) event, depth);
  }

  private void anchorOrAlias(NodeEvent event) {
    if (event instanceof AliasEvent) {
      refuse(
          YamlRule.ALIAS,
          span(event.getStartMark(), 1 + event.getAnchor().length()),
          "'*" + event.getAnchor() + "' is an alias; aliases are not used",
          "write the value out, or put text that starts with '*' in quotes");
    } else if (event.getAnchor() != null) {
      refuse(
          YamlRule.ALIAS,
          span(event.getStartMark(), 1 + event.getAnchor().length()),
          "'&" + event.getAnchor() + "' is an anchor; anchors are not used",
          "remove it, or put text that starts with '&' in quotes");
    }
  }

  private void tag(String tag, Mark at) {
    if (tag != null) {
      refuse(
          YamlRule.TAG,
          span(at, 1),
          "tags are not used: '" + tag.replace("tag:yaml.org,2002:", "!!") + "'",
          "remove it, or put text that starts with '!' in quotes");
    }
  }

  private YamlScalar scalar(ScalarEvent event) {
    tag(event.getTag(), event.getStartMark());
    Mark from = event.getStartMark();
    Mark to = event.getEndMark();
    int length =
        from.getLine() == to.getLine()
            ? to.getColumn() - from.getColumn()
            : lengthOfLine(from.getLine()) - from.getColumn();
    Span at = span(from, length);
    String text = event.getValue();
    if (text.length() > YamlLimits.SCALAR_LENGTH) {
      add(
          YamlRule.TEXT_TOO_LONG,
          at,
          "a text must not be longer than " + YamlLimits.SCALAR_LENGTH + " characters",
          "shorten it");
      text = text.substring(0, YamlLimits.SCALAR_LENGTH);
    }
    return new YamlScalar(at, text, event.getScalarStyle() == ScalarStyle.PLAIN);
  }

  private YamlList list(SequenceStartEvent start, int depth) {
    List<YamlNode> items = new ArrayList<>();
    while (!events.checkEvent(Event.ID.SequenceEnd)) {
      items.add(node(depth + 1));
    }
    events.getEvent();
    return new YamlList(span(start.getStartMark(), 1), items);
  }

  private YamlMap map(MappingStartEvent start, int depth) {
    List<Entry> entries = new ArrayList<>();
    Map<String, Span> seen = new HashMap<>();
    while (!events.checkEvent(Event.ID.MappingEnd)) {
      YamlNode key = node(depth + 1);
      YamlNode value = node(depth + 1);
      if (!(key instanceof YamlScalar name)) {
        refuse(
            YamlRule.KEY_NOT_PLAIN,
            key.at(),
            "a key must be a single word",
            "write a word, a ':' and the value");
      } else if (name.plain() && name.text().equals("<<")) {
        refuse(
            YamlRule.MERGE_KEY,
            name.at(),
            "'<<' would merge another block in; merging is not used",
            "write the keys out");
      } else if (start.isFlow() && continuesNumber(entries, name, value)) {
        entries.add(withDecimalComma(entries.remove(entries.size() - 1), name));
      } else if (seen.putIfAbsent(name.text(), name.at()) != null) {
        add(
            YamlRule.REPEATED_KEY,
            name.at(),
            "key '" + name.shortened() + "' stands here twice",
            "line " + seen.get(name.text()).line() + " has it already: keep one of the two");
      } else {
        entries.add(new Entry(name, value));
      }
    }
    events.getEvent();
    return new YamlMap(span(start.getStartMark(), 1), entries);
  }

  /**
   * Whether a "key" is what stands behind a decimal comma: in braces, {@code {chance: 2,5 %}} is
   * two entries to YAML, the second a key without a value.
   */
  private static boolean continuesNumber(List<Entry> before, YamlScalar name, YamlNode value) {
    if (before.isEmpty()
        || !(value instanceof YamlScalar empty && empty.isEmpty())
        || !(before.get(before.size() - 1).value() instanceof YamlScalar whole)) {
      return false;
    }
    boolean touching =
        whole.at().line() == name.at().line()
            && whole.at().column() + whole.at().length() + 1 == name.at().column();
    return touching
        && whole.plain()
        && name.plain()
        && whole.text().matches("-?[0-9]+")
        && name.text().matches("[0-9]+[^0-9]*");
  }

  private static Entry withDecimalComma(Entry whole, YamlScalar part) {
    Span at = whole.value().at();
    Span both = new Span(at.file(), at.line(), at.column(), at.length() + 1 + part.at().length());
    String text = ((YamlScalar) whole.value()).text() + "," + part.text();
    return new Entry(whole.key(), new YamlScalar(both, text, true));
  }

  private Problem malformed(MarkedYAMLException e) {
    Mark mark = e.getProblemMark() != null ? e.getProblemMark() : e.getContextMark();
    Span at = mark == null ? start() : span(mark, 1);
    if (at.line() <= lines.size() && lines.get(at.line() - 1).matches(" *\t.*")) {
      int column = lines.get(at.line() - 1).indexOf('\t') + 1;
      return Problem.error(
          YamlRule.TAB_INDENT.id(),
          new Span(file, at.line(), column, 1),
          "a line must not be indented with a tab",
          "use two spaces for each level");
    }
    return Problem.error(YamlRule.NOT_YAML.id(), at, YamlTrouble.inWords(e), YamlTrouble.wayOut(e));
  }

  private Span start() {
    return new Span(file, 1, 1, 1);
  }

  private int lengthOfLine(int index) {
    if (index >= lines.size()) {
      return 1;
    }
    String line = lines.get(index);
    return line.codePointCount(0, line.length());
  }

  /** A place inside the file: what the parser finds missing at the end stands at the last line. */
  private Span span(Mark mark, int length) {
    int line = Math.min(mark.getLine() + 1, lines.size());
    int column =
        mark.getLine() + 1 > lines.size() ? lengthOfLine(line - 1) + 1 : mark.getColumn() + 1;
    return new Span(file, line, column, Math.max(1, length));
  }

  private void add(YamlRule rule, Span at, String message, String wayOut) {
    problems.add(Problem.error(rule.id(), at, message, wayOut));
    if (problems.size() >= YamlLimits.PROBLEMS) {
      throw new Stop();
    }
  }

  /** A problem after which the tree does not say what its author meant. */
  private void refuse(YamlRule rule, Span at, String message, String wayOut) {
    trusted = false;
    add(rule, at, message, wayOut);
  }
}
