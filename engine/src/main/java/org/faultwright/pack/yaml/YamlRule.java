package org.faultwright.pack.yaml;

import java.util.Locale;

/** What can be wrong with a file as text, whatever it says. Each has a page in the checks. */
public enum YamlRule {
  /** The file cannot be opened. */
  UNREADABLE_FILE,
  /** Larger than {@link YamlLimits#FILE_BYTES}. */
  FILE_TOO_LARGE,
  /** Not text in UTF-8. */
  NOT_TEXT,
  /** Nothing in it. */
  EMPTY_FILE,
  /** Not well-formed, or cut off. */
  NOT_YAML,
  /** Indented with a tab. */
  TAB_INDENT,
  /** Deeper than {@link YamlLimits#DEPTH}. */
  TOO_DEEP,
  /** More than {@link YamlLimits#NODES} nodes. */
  TOO_MANY_NODES,
  /** A value longer than {@link YamlLimits#SCALAR_LENGTH}. */
  TEXT_TOO_LONG,
  /** A second document. */
  SECOND_DOCUMENT,
  /** An anchor or an alias. */
  ALIAS,
  /** A tag or a directive. */
  TAG,
  /** A merge key. */
  MERGE_KEY,
  /** A key that is not a plain word. */
  KEY_NOT_PLAIN,
  /** The same key twice in a block. */
  REPEATED_KEY;

  /** Its id. */
  public String id() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }
}
