package org.faultwright.pack.merge;

import java.util.List;
import org.faultwright.pack.Pack;

/** What came of putting packs together. */
public sealed interface MergedPacks {

  /** What the packs say differently. */
  List<Difference> differences();

  /**
   * They make one pack.
   *
   * @param differences those in which the first pack's word counts
   */
  record Whole(Pack pack, List<Difference> differences) implements MergedPacks {

    /** Copies the list. */
    public Whole {
      differences = List.copyOf(differences);
    }
  }

  /**
   * They contradict each other.
   *
   * @param differences at least one clash among them
   */
  record Clashing(List<Difference> differences) implements MergedPacks {

    /** Copies the list. */
    public Clashing {
      differences = List.copyOf(differences);
    }
  }
}
