package org.faultwright.pack.format;

import java.util.List;
import java.util.function.Supplier;

/** What a value may look like, whatever it says: all that a JSON Schema needs to know of a form. */
public sealed interface Shape {

  /** Any text. */
  record Text() implements Shape {}

  /**
   * A text, or a number as it is written.
   *
   * @param regex what it must match as a whole
   * @param number whether a bare number is one, too
   */
  record Pattern(String regex, boolean number) implements Shape {}

  /**
   * A bare number, not below 0.
   *
   * @param whole whether it must be whole
   * @param aboveZero whether 0 is none, either
   */
  record Number(boolean whole, boolean aboveZero) implements Shape {}

  /** One of several words. */
  record Words(List<String> words) implements Shape {}

  /** Yes or no. */
  record YesNo() implements Shape {}

  /** One of several shapes. */
  record Either(List<Shape> shapes) implements Shape {}

  /**
   * A list.
   *
   * @param least how many items it must have
   */
  record ListOf(Shape item, int least) implements Shape {}

  /**
   * A map from ids to values of one shape.
   *
   * @param least how many it must have
   */
  record MapOf(Shape values, int least) implements Shape {}

  /**
   * A block of keys.
   *
   * @param name the name of the block in the schema
   * @param fields its keys
   * @param exactlyOne groups of keys of which exactly one must be there
   * @param atMostOne groups of keys of which at most one may be there
   * @param anyOf groups of keys of which at least one must be there
   */
  record Fields(
      String name,
      List<Field> fields,
      List<List<String>> exactlyOne,
      List<List<String>> atMostOne,
      List<List<String>> anyOf)
      implements Shape {}

  /** The same shape with at least one item in its lists and maps. */
  default Shape notEmpty() {
    if (this instanceof ListOf list) {
      return new ListOf(list.item(), 1);
    } else if (this instanceof MapOf map) {
      return new MapOf(map.values(), 1);
    } else if (this instanceof Either either) {
      return new Either(either.shapes().stream().map(Shape::notEmpty).toList());
    }
    return this;
  }

  /** A shape that may contain itself. */
  record Named(String name, Supplier<Shape> shape) implements Shape {}

  /** A key of a block. */
  record Field(String name, Shape shape, boolean required, String doc) {}
}
