package org.faultwright.pack.reader;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.faultwright.pack.Ordered;
import org.faultwright.pack.yaml.YamlText;

/** Where fragments of the shared vocabulary come from. */
public interface Fragments {

  /**
   * The fragment of this name, if there is one. Only names that are spelt as ids are asked for, so
   * that a name can never lead to another place.
   */
  Optional<YamlText> find(String name);

  /** The names of the fragments there are, as far as they are known: for suggestions. */
  List<String> names();

  /** No fragments but these, by name. */
  static Fragments of(Map<String, YamlText> texts) {
    Map<String, YamlText> copy = Ordered.copy(texts);
    return new Fragments() {
      @Override
      public Optional<YamlText> find(String name) {
        return Optional.ofNullable(copy.get(name));
      }

      @Override
      public List<String> names() {
        return List.copyOf(copy.keySet());
      }
    };
  }

  /** The fragments that come with the library. */
  static Fragments shared() {
    return new SharedFragments();
  }
}
