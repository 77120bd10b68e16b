package org.faultwright.pack.merge;

import org.faultwright.pack.PackId;

/**
 * Something that two packs say differently of the same thing.
 *
 * @param first the pack that says it first
 * @param second the pack that says otherwise
 * @param path where it stands in the second, as in {@code causes/port-worn/share}
 * @param kind how grave it is
 * @param message one sentence without a full stop
 * @param wayOut what to do about it
 */
public record Difference(
    PackId first, PackId second, String path, Kind kind, String message, String wayOut) {

  /** How grave a difference is. */
  public enum Kind {
    /** The first pack's word counts, and the packs can be used together. */
    FIRST_COUNTS,
    /** The packs cannot be used together. */
    CLASH
  }
}
