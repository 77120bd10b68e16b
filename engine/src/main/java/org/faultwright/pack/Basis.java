package org.faultwright.pack;

/** What a number rests on. */
public sealed interface Basis {

  /** A source listed in the pack. */
  record Sourced(SourceId source) implements Basis {}

  /**
   * Counted in repair records.
   *
   * @param seen how often it was seen, from 0
   * @param of out of how many, at least {@code seen}
   * @param among what was counted: {@code devices}, or the id of a complaint
   */
  record Counted(int seen, int of, String among) implements Basis {

    /** Checks that {@code 0 <= seen <= of}. */
    public Counted {
      if (seen < 0 || of < seen) {
        throw new IllegalArgumentException(
            "counts must satisfy 0 <= seen <= of: " + seen + " of " + of);
      }
    }
  }

  /** A fact of the trade that no source states. */
  record CommonPractice() implements Basis {}

  /** Made up, for a demonstration family. */
  record Invented() implements Basis {}

  /**
   * Follows from the definition, so that no evidence is needed; for example the default strength 1
   * of a plain input.
   */
  record ByDefinition() implements Basis {}
}
