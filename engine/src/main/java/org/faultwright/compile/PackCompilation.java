package org.faultwright.compile;

import org.faultwright.pack.ComplaintId;

/** What compiling a pack gives. */
public sealed interface PackCompilation
    permits CompiledPack, PackCompilation.SharesUnattainable, PackCompilation.TooWide {

  /**
   * No prior probabilities give the shares that the complaint's causes state at the stated rate.
   */
  record SharesUnattainable(ComplaintId complaint) implements PackCompilation {}

  /**
   * The pack is too wide for exact answers.
   *
   * @param predicted the number of table entries that compiling would make
   * @param budget the number that is allowed
   */
  record TooWide(double predicted, double budget) implements PackCompilation {}
}
