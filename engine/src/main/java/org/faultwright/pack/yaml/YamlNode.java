package org.faultwright.pack.yaml;

import java.util.List;
import java.util.Optional;
import org.faultwright.problem.Span;

/** A node of a YAML tree, with its place. Immutable. */
public sealed interface YamlNode {

  /** Where it stands: a scalar's text, or where a list or map begins. */
  Span at();

  /** What an author would call it: {@code text}, {@code a list}, {@code a block of keys}. */
  String word();

  /**
   * A single value.
   *
   * @param text the value without quotes
   * @param plain whether it was written without quotes and not as a block of text
   */
  record YamlScalar(Span at, String text, boolean plain) implements YamlNode {

    /** Whether nothing at all is written. */
    public boolean isEmpty() {
      return plain && (text.isEmpty() || text.equals("~") || text.equals("null"));
    }

    @Override
    public String word() {
      return isEmpty() ? "nothing" : "'" + shortened() + "'";
    }

    /** The text, cut where it is too long to be quoted in a message. */
    public String shortened() {
      String line = text.lines().findFirst().orElse("");
      return line.length() <= 60 ? line : line.substring(0, 57) + "...";
    }
  }

  /** A list. */
  record YamlList(Span at, List<YamlNode> items) implements YamlNode {

    /** Copies the items. */
    public YamlList {
      items = List.copyOf(items);
    }

    @Override
    public String word() {
      return "a list";
    }
  }

  /** A map; its keys are in the order of writing, and no key stands there twice. */
  record YamlMap(Span at, List<Entry> entries) implements YamlNode {

    /** Copies the entries. */
    public YamlMap {
      entries = List.copyOf(entries);
    }

    @Override
    public String word() {
      return "a block of keys";
    }

    /** The entry with this key. */
    public Optional<Entry> entry(String key) {
      for (Entry e : entries) {
        if (e.name().equals(key)) {
          return Optional.of(e);
        }
      }
      return Optional.empty();
    }

    /** The value of this key. */
    public Optional<YamlNode> value(String key) {
      return entry(key).map(Entry::value);
    }

    /** The value of this key, where it is a map. */
    public Optional<YamlMap> map(String key) {
      return value(key).filter(YamlMap.class::isInstance).map(YamlMap.class::cast);
    }

    /** The text of this key, where it is a scalar. */
    public Optional<String> text(String key) {
      return value(key)
          .filter(YamlScalar.class::isInstance)
          .map(v -> ((YamlScalar) v).text())
          .filter(t -> !t.isEmpty());
    }
  }

  /** A key of a map with its value. */
  record Entry(YamlScalar key, YamlNode value) {

    /** The key as text. */
    public String name() {
      return key.text();
    }

    /** The place of a plain value, or else of the key. */
    public Span at() {
      return value instanceof YamlScalar s && !s.isEmpty() ? s.at() : key.at();
    }
  }
}
