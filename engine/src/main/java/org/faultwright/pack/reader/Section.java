package org.faultwright.pack.reader;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.BiFunction;
import org.faultwright.pack.format.Block;
import org.faultwright.pack.format.Fields;
import org.faultwright.pack.format.Form;
import org.faultwright.pack.format.Forms;
import org.faultwright.pack.format.Ids;
import org.faultwright.pack.format.Kind;
import org.faultwright.pack.format.Scope;
import org.faultwright.pack.format.Shape;
import org.faultwright.pack.yaml.YamlNode;
import org.faultwright.pack.yaml.YamlNode.Entry;
import org.faultwright.pack.yaml.YamlNode.YamlMap;

/**
 * A section of a pack: definitions by id. What cannot be read is left out after it has been
 * reported, so that one mistake does not hide the next.
 *
 * @param kind what is defined
 * @param value the form of a definition
 * @param make makes the thing of its id and what was read
 * @param <V> what a definition is read into
 * @param <T> what is defined
 */
record Section<V, T>(Kind kind, Form<V> value, BiFunction<String, V, Optional<T>> make)
    implements Form<List<T>> {

  /** A section of blocks. */
  static <T> Form<List<T>> of(
      Kind kind, Block block, BiFunction<String, Fields, Optional<T>> make) {
    return new Section<>(
        kind, block, (id, f) -> f.complete() ? make.apply(id, f) : Optional.empty());
  }

  /** A section of words. */
  static <T> Form<List<T>> ofWords(Kind kind, BiFunction<String, String, T> make) {
    return new Section<>(kind, Forms.TEXT, (id, words) -> Optional.of(make.apply(id, words)));
  }

  @Override
  public Optional<List<T>> read(YamlNode node, Scope scope) {
    if (!(node instanceof YamlMap map)) {
      Forms.wrongType(node, scope, "a block of ids, each with what it defines");
      return Optional.empty();
    }
    List<T> things = new ArrayList<>();
    for (Entry e : map.entries()) {
      boolean wellSpelt = Ids.wellSpelt(e.key(), scope);
      Optional<V> v = Ids.entry(e, value, scope.of(kind, e.key()));
      if (wellSpelt) {
        v.flatMap(x -> make.apply(e.name(), x)).ifPresent(things::add);
      }
    }
    return Optional.of(things);
  }

  @Override
  public Shape shape() {
    return new Shape.MapOf(value.shape(), 0);
  }

  /** An id as words, for what has no title. */
  static String words(String id) {
    return id.replace('-', ' ');
  }
}
