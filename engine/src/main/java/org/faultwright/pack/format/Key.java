package org.faultwright.pack.format;

/**
 * A key of a block.
 *
 * @param name as authors write it
 * @param form the form of its value
 * @param required whether it must be there
 * @param doc what it says, for editors
 * @param <T> what its value is read into
 */
public record Key<T>(String name, Form<T> form, boolean required, String doc) {

  /** A key that must be there. */
  public static <T> Key<T> required(String name, Form<T> form, String doc) {
    return new Key<>(name, form, true, doc);
  }

  /** A key that may be left out. */
  public static <T> Key<T> optional(String name, Form<T> form, String doc) {
    return new Key<>(name, form, false, doc);
  }
}
