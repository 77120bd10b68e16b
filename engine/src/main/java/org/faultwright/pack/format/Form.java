package org.faultwright.pack.format;

import java.util.Optional;
import java.util.function.Function;
import org.faultwright.pack.yaml.YamlNode;

/**
 * A form that a value can take.
 *
 * @param <T> what it is read into
 */
public interface Form<T> {

  /**
   * Reads a node.
   *
   * @return the value; empty when it cannot be read, after a problem has been reported
   */
  Optional<T> read(YamlNode node, Scope scope);

  /** What it may look like. */
  Shape shape();

  /** The same form, read into something else. */
  default <R> Form<R> as(Function<? super T, ? extends R> function) {
    Form<T> form = this;
    return new Form<>() {
      @Override
      public Optional<R> read(YamlNode node, Scope scope) {
        return form.read(node, scope).map(function);
      }

      @Override
      public Shape shape() {
        return form.shape();
      }
    };
  }
}
