package org.faultwright.problem;

import java.util.Locale;

/** How grave a problem is. */
public enum Severity {
  /** The file cannot be used. */
  ERROR,
  /** The file can be used, but its author should look. */
  WARNING;

  /** The word shown to authors: {@code error} or {@code warning}. */
  public String word() {
    return name().toLowerCase(Locale.ROOT);
  }
}
