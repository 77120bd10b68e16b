package org.faultwright.pack.format;

import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.faultwright.pack.yaml.YamlNode.Entry;
import org.faultwright.pack.yaml.YamlNode.YamlMap;
import org.faultwright.problem.Span;

/** A block as it has been read. */
public final class Fields {

  private final YamlMap map;
  private final Scope scope;
  private final Map<Key<?>, Object> values;
  private final Set<String> slips;
  private final boolean complete;

  Fields(
      YamlMap map, Scope scope, Map<Key<?>, Object> values, Set<String> slips, boolean complete) {
    this.map = map;
    this.scope = scope;
    this.values = values;
    this.slips = slips;
    this.complete = complete;
  }

  /** The value of a key; empty when it is not there or could not be read. */
  @SuppressWarnings("unchecked")
  public <T> Optional<T> get(Key<T> key) {
    return Optional.ofNullable((T) values.get(key));
  }

  /**
   * The value of a required key of a complete block.
   *
   * @throws IllegalStateException when the block is not complete
   */
  public <T> T need(Key<T> key) {
    return get(key).orElseThrow(() -> new IllegalStateException("not there: " + key.name()));
  }

  /** Whether the key is written, even if it is misspelt or its value could not be read. */
  public boolean wrote(Key<?> key) {
    return map.entry(key.name()).isPresent() || slips.contains(key.name());
  }

  /** Whether the key is written, and its value could not be read. */
  public boolean spoilt(Key<?> key) {
    return wrote(key) && !values.containsKey(key);
  }

  /** Whether all required keys are there and could be read, and the choices are made. */
  public boolean complete() {
    return complete;
  }

  /** The place of a key's value, or else of the block. */
  public Span at(Key<?> key) {
    return map.entry(key.name()).map(Entry::at).orElse(map.at());
  }

  /** The place of a key, or else of the block. */
  public Span keyAt(Key<?> key) {
    return map.entry(key.name()).map(e -> e.key().at()).orElse(map.at());
  }

  /** The place of the block. */
  public Span at() {
    return map.at();
  }

  /** The scope inside the block. */
  public Scope scope() {
    return scope;
  }

  /** The block as written. */
  public YamlMap map() {
    return map;
  }
}
