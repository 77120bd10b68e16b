package org.faultwright.pack.yaml;

/** How large a file may be. No pack written by hand comes near; a hostile one would go past. */
public final class YamlLimits {

  /** Largest file, in bytes: 1 MiB. */
  public static final int FILE_BYTES = 1 << 20;

  /** Deepest nesting of lists and maps. */
  public static final int DEPTH = 32;

  /** Most values, lists, maps and keys in a file. */
  public static final int NODES = 50_000;

  /** Longest single value, in characters. */
  public static final int SCALAR_LENGTH = 4_000;

  /** Most problems of the text itself that are reported before reading stops. */
  public static final int PROBLEMS = 200;

  private YamlLimits() {}
}
